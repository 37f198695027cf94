/** Grows the rows of misses as flat arrays. */
import type { MissRows } from './compiled';
import { setLabelLikelihoods, type LabelShares, type LabelTerms } from './label';

export interface RowBuilder {
  /** Adds one possible source to the row that is open. */
  source(concept: number, weight: number, named: boolean, time: number): void;
  /** Closes the open row. */
  close(row: {
    terms: LabelTerms;
    /** Likelihood of the reason under a slip over that under a concept. */
    slipRatio: number;
    slipTime: number;
    multiplicity: number;
    system: number;
    window: number;
    item: number;
  }): void;
  /** The rows, with the likelihoods of their labels under the given shares. */
  finish(shares: LabelShares): MissRows;
}

/** @param roughly how many sources to expect; a wrong guess only costs a copy */
export function rowBuilder(roughly = 1_024): RowBuilder {
  let room = Math.max(16, roughly);
  let used = 0;
  let concept = new Int32Array(room);
  let weight = new Float64Array(room);
  let named = new Uint8Array(room);
  let time = new Float64Array(room);
  const start = [0];
  const causeCount: number[] = [];
  const labelTopic: number[] = [];
  const labelNear: number[] = [];
  const labelStray: number[] = [];
  const slipRatio: number[] = [];
  const slipTime: number[] = [];
  const multiplicity: number[] = [];
  const system: number[] = [];
  const window: number[] = [];
  const item: number[] = [];
  function grow(): void {
    room *= 2;
    const wider = (values: Float64Array): Float64Array<ArrayBuffer> => {
      const copy = new Float64Array(room);
      copy.set(values);
      return copy;
    };
    const concepts = new Int32Array(room);
    concepts.set(concept);
    concept = concepts;
    weight = wider(weight);
    const names = new Uint8Array(room);
    names.set(named);
    named = names;
    time = wider(time);
  }
  return {
    source(ofConcept, ofWeight, isNamed, ofTime) {
      if (used === room) grow();
      concept[used] = ofConcept;
      weight[used] = ofWeight;
      named[used] = isNamed ? 1 : 0;
      time[used] = ofTime;
      used += 1;
    },
    close(row) {
      start.push(used);
      causeCount.push(row.terms.causeCount);
      labelTopic.push(row.terms.topic);
      labelNear.push(row.terms.near);
      labelStray.push(row.terms.stray);
      slipRatio.push(row.slipRatio);
      slipTime.push(row.slipTime);
      multiplicity.push(row.multiplicity);
      system.push(row.system);
      window.push(row.window);
      item.push(row.item);
    },
    finish: (shares) => {
      const rows = {
        count: slipTime.length,
        start: Int32Array.from(start),
        concept: concept.slice(0, used),
        weight: weight.slice(0, used),
        named: named.slice(0, used),
        time: time.slice(0, used),
        slipTime: Float64Array.from(slipTime),
        causeCount: Float64Array.from(causeCount),
        labelTopic: Float64Array.from(labelTopic),
        labelNear: Float64Array.from(labelNear),
        labelStray: Float64Array.from(labelStray),
        slipRatio: Float64Array.from(slipRatio),
        multiplicity: Float64Array.from(multiplicity),
        system: Int32Array.from(system),
        window: Uint8Array.from(window),
        item: Int32Array.from(item),
      };
      const label = new Float64Array(used);
      const slipLabel = new Float64Array(rows.count);
      setLabelLikelihoods(rows, shares, label, slipLabel);
      return { ...rows, label, slipLabel };
    },
  };
}
