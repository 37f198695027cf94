/** Grows the rows of misses as flat arrays. */
import { createWorkspace } from '../numeric/workspace';
import type { MissRows } from './compiled';
import { setLabelLikelihoods, type LabelShares, type LabelTerms } from './label';

export interface RowBuilder {
  /** Adds one possible source to the row that is open. */
  source(concept: number, weight: number, named: boolean, time: number): void;
  /**
   * Adds what one topic set needs: its places `from` to below `to` in these lists.
   *
   * @param marks shape (concepts,): 1 where a concept was named
   * @param lastRead shape (concepts,): those read after `at` have the second of the two times
   */
  sources(
    set: {
      readonly concept: readonly number[];
      readonly weight: readonly number[];
      from: number;
      to: number;
    },
    marks: Uint8Array,
    lastRead: Float64Array,
    times: { readonly at: number; readonly time: number; readonly ifRead: number },
  ): void;
  /** Closes the open row. */
  close(row: {
    terms: LabelTerms;
    /** Likelihood of the reason under a slip over that under a concept. */
    slipRatio: number;
    slipTime: number;
    multiplicity: number;
    system: number;
    window: number;
    ageSpan: number;
    item: number;
  }): void;
  /** The rows, with the likelihoods of their labels under the given shares. */
  finish(shares: LabelShares): MissRows;
}

/** Numbers kept of a row, side by side while it grows. */
const rowWidth = 12;
const workspace = createWorkspace();

/**
 * A builder; there may be one at a time, as all build in the same memory.
 *
 * @param rowsRoughly how many rows to expect; a wrong guess only costs a copy
 */
export function rowBuilder(rowsRoughly = 64): RowBuilder {
  workspace.begin();
  let room = Math.max(64, 4 * rowsRoughly);
  let used = 0;
  let concept = workspace.ints(room);
  let weight = workspace.floats(room);
  let named = workspace.bytes(room);
  let time = workspace.floats(room);
  let rowRoom = Math.max(16, rowsRoughly);
  let rowCount = 0;
  let table = workspace.floats(rowWidth * rowRoom);

  function grow(): void {
    room *= 2;
    const before = { concept, weight, named, time };
    concept = workspace.ints(room);
    concept.set(before.concept);
    weight = workspace.floats(room);
    weight.set(before.weight);
    named = workspace.bytes(room);
    named.set(before.named);
    time = workspace.floats(room);
    time.set(before.time);
  }
  function growRows(): void {
    rowRoom *= 2;
    const before = table;
    table = workspace.floats(rowWidth * rowRoom);
    table.set(before);
  }
  function column<T extends Float64Array | Int32Array | Uint8Array>(place: number, into: T): T {
    for (let r = 0; r < rowCount; r++) into[r] = table[rowWidth * r + place]!;
    return into;
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
    sources(set, marks, lastRead, { at, time: unlessRead, ifRead }) {
      while (used + set.to - set.from > room) grow();
      for (let k = set.from; k < set.to; k++) {
        const c = set.concept[k]!;
        concept[used] = c;
        weight[used] = set.weight[k]!;
        named[used] = marks[c]!;
        time[used] = lastRead[c]! > at ? ifRead : unlessRead;
        used += 1;
      }
    },
    close({ terms, slipRatio, slipTime, multiplicity, system, window, ageSpan, item }) {
      if (rowCount === rowRoom) growRows();
      const at = rowWidth * rowCount;
      table[at] = used;
      table[at + 1] = terms.causeCount;
      table[at + 2] = terms.topic;
      table[at + 3] = terms.near;
      table[at + 4] = terms.stray;
      table[at + 5] = slipRatio;
      table[at + 6] = slipTime;
      table[at + 7] = multiplicity;
      table[at + 8] = system;
      table[at + 9] = window;
      table[at + 10] = item;
      table[at + 11] = ageSpan;
      rowCount += 1;
    },
    finish: (shares) => {
      const start = new Int32Array(rowCount + 1);
      column(0, start.subarray(1));
      const rows = {
        count: rowCount,
        start,
        concept: concept.slice(0, used),
        weight: weight.slice(0, used),
        named: named.slice(0, used),
        time: time.slice(0, used),
        causeCount: column(1, new Int32Array(rowCount)),
        labelTopic: column(2, new Float64Array(rowCount)),
        labelNear: column(3, new Float64Array(rowCount)),
        labelStray: column(4, new Float64Array(rowCount)),
        slipRatio: column(5, new Float64Array(rowCount)),
        slipTime: column(6, new Float64Array(rowCount)),
        multiplicity: column(7, new Int32Array(rowCount)),
        system: column(8, new Int32Array(rowCount)),
        window: column(9, new Uint8Array(rowCount)),
        item: column(10, new Int32Array(rowCount)),
        ageSpan: column(11, new Uint8Array(rowCount)),
      };
      const label = new Float64Array(used);
      const slipLabel = new Float64Array(rowCount);
      setLabelLikelihoods(rows, shares, label, slipLabel);
      return { ...rows, label, slipLabel };
    },
  };
}
