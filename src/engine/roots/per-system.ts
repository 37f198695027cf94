/** How traced misses spread over organ systems. */
import { createWorkspace } from '../numeric/workspace';
import type { CompiledLog } from './compiled';

export interface SystemSplits {
  /** A concept's traced misses by system; systems without any are left out. */
  of(concept: number): Readonly<Record<string, number>>;
  /** Shape (concepts,): exponential of the entropy of the split (Hill number of order 1), 0 without any. */
  readonly reach: Float64Array;
}

const workspace = createWorkspace();

/**
 * Splits traced misses by system.
 *
 * @param traced shape (entries,): the part of each miss traced to the entry's concept as a gap
 */
export function perSystem(compiled: CompiledLog, traced: Float64Array): SystemSplits {
  const { rows, systems, graph } = compiled;
  const conceptCount = graph.ids.length;
  const width = systems.length;
  workspace.begin();
  const table = workspace.floats(conceptCount * width);
  for (let r = 0; r < rows.count; r++) {
    const system = rows.system[r]!;
    if (system < 0) continue;
    const copies = rows.multiplicity[r]!;
    for (let e = rows.start[r]!; e < rows.start[r + 1]!; e++)
      table[rows.concept[e]! * width + system]! += traced[e]! * rows.time[e]! * copies;
  }

  // What is not 0, closed up: concept c has the places start[c] .. start[c + 1).
  const start = new Int32Array(conceptCount + 1);
  let filled = 0;
  for (let at = 0; at < table.length; at++) if (table[at]! > 0) filled += 1;
  const place = new Int32Array(filled);
  const value = new Float64Array(filled);
  const reach = new Float64Array(conceptCount);
  filled = 0;
  for (let c = 0; c < conceptCount; c++) {
    let total = 0;
    let sumLog = 0;
    for (let s = 0; s < width; s++) {
      const each = table[c * width + s]!;
      if (each <= 0) continue;
      place[filled] = s;
      value[filled++] = each;
      total += each;
      sumLog += each * Math.log(each);
    }
    start[c + 1] = filled;
    if (total > 0) reach[c] = Math.exp(Math.log(total) - sumLog / total);
  }
  return {
    of(c) {
      const split: Record<string, number> = {};
      for (let k = start[c]!; k < start[c + 1]!; k++) split[systems[place[k]!]!] = value[k]!;
      return split;
    },
    reach,
  };
}
