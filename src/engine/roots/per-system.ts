/** How traced misses spread over organ systems. */
import type { CompiledLog } from './compiled';

export interface SystemSplits {
  /** Per concept, traced misses by system; systems without any are left out. */
  readonly splits: readonly Readonly<Record<string, number>>[];
  /** Shape (concepts,): exponential of the entropy of the split (Hill number of order 1), 0 without any. */
  readonly reach: Float64Array;
}

/**
 * Splits traced misses by system.
 *
 * @param traced shape (entries,): the part of each miss traced to the entry's concept as a gap
 */
export function perSystem(compiled: CompiledLog, traced: Float64Array): SystemSplits {
  const { rows, systems, graph } = compiled;
  const conceptCount = graph.ids.length;
  const width = systems.length;
  const table = new Float64Array(conceptCount * width);
  for (let r = 0; r < rows.count; r++) {
    const system = rows.system[r]!;
    if (system < 0) continue;
    const copies = rows.multiplicity[r]!;
    for (let e = rows.start[r]!; e < rows.start[r + 1]!; e++)
      table[rows.concept[e]! * width + system]! += traced[e]! * rows.time[e]! * copies;
  }
  const reach = new Float64Array(conceptCount);
  const splits: Record<string, number>[] = [];
  for (let c = 0; c < conceptCount; c++) {
    const split: Record<string, number> = {};
    let total = 0;
    let sumLog = 0;
    for (let s = 0; s < width; s++) {
      const value = table[c * width + s]!;
      if (value <= 0) continue;
      split[systems[s]!] = value;
      total += value;
      sumLog += value * Math.log(value);
    }
    splits.push(split);
    if (total > 0) reach[c] = Math.exp(Math.log(total) - sumLog / total);
  }
  return { splits, reach };
}
