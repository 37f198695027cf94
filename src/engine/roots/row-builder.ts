/** Grows the rows of misses and turns them into flat arrays. */
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

export function rowBuilder(): RowBuilder {
  const start = [0];
  const concept: number[] = [];
  const weight: number[] = [];
  const label: number[] = [];
  const time: number[] = [];
  const slipLabel: number[] = [];
  const slipTime: number[] = [];
  const multiplicity: number[] = [];
  const system: number[] = [];
  const window: number[] = [];
  const item: number[] = [];
  return {
    source(ofConcept, ofWeight, ofLabel, ofTime) {
      concept.push(ofConcept);
      weight.push(ofWeight);
      label.push(ofLabel);
      time.push(ofTime);
    },
    close(row) {
      start.push(concept.length);
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
      concept: Int32Array.from(concept),
      weight: Float64Array.from(weight),
      label: Float64Array.from(label),
      time: Float64Array.from(time),
      slipLabel: Float64Array.from(slipLabel),
      slipTime: Float64Array.from(slipTime),
      multiplicity: Float64Array.from(multiplicity),
      system: Int32Array.from(system),
      window: Uint8Array.from(window),
      item: Int32Array.from(item),
    }),
  };
}
