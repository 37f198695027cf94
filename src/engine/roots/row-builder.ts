/** Grows the rows of misses as flat arrays. */
import type { MissRows } from './compiled';

export interface RowBuilder {
  /** Adds one possible source to the row that is open. */
  source(concept: number, weight: number, label: number, time: number): void;
  /** Closes the open row. */
  close(row: {
    slipLabel: number;
    slipTime: number;
    multiplicity: number;
    system: number;
    window: number;
    item: number;
  }): void;
  finish(): MissRows;
}

/** @param roughly how many sources to expect; a wrong guess only costs a copy */
export function rowBuilder(roughly = 1_024): RowBuilder {
  let room = Math.max(16, roughly);
  let used = 0;
  let concept = new Int32Array(room);
  let weight = new Float64Array(room);
  let label = new Float64Array(room);
  let time = new Float64Array(room);
  const start = [0];
  const slipLabel: number[] = [];
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
    label = wider(label);
    time = wider(time);
  }
  return {
    source(ofConcept, ofWeight, ofLabel, ofTime) {
      if (used === room) grow();
      concept[used] = ofConcept;
      weight[used] = ofWeight;
      label[used] = ofLabel;
      time[used] = ofTime;
      used += 1;
    },
    close(row) {
      start.push(used);
      slipLabel.push(row.slipLabel);
      slipTime.push(row.slipTime);
      multiplicity.push(row.multiplicity);
      system.push(row.system);
      window.push(row.window);
      item.push(row.item);
    },
    finish: () => ({
      count: slipLabel.length,
      start: Int32Array.from(start),
      concept: concept.slice(0, used),
      weight: weight.slice(0, used),
      label: label.slice(0, used),
      time: time.slice(0, used),
      slipLabel: Float64Array.from(slipLabel),
      slipTime: Float64Array.from(slipTime),
      multiplicity: Float64Array.from(multiplicity),
      system: Int32Array.from(system),
      window: Uint8Array.from(window),
      item: Int32Array.from(item),
    }),
  };
}
