/** Counting named causes, plainly and rolled up to what they rest on. */
import type { TraceLog } from '../../../../src/engine/index';
import type { ItemTable } from './item-table';

/** How often each concept was named, by its place in the map. */
export function countNamed(log: TraceLog): Float64Array {
  const indexOf = new Map(log.concepts.map((concept, index) => [concept.id, index]));
  const counts = new Float64Array(log.concepts.length);
  for (const item of log.items) {
    if (!item.missed) continue;
    for (const cause of item.causes) {
      const index = indexOf.get(cause);
      if (index === undefined) throw new RangeError(`countNamed: got unknown concept ${cause}`);
      counts[index]!++;
    }
  }
  return counts;
}

/**
 * Counts passed down: every name counts 1 for the named concept and `strength` to the power of
 * the links for all that it rests on.
 *
 * @param strength in [0, 1]; the default is that of a link in the method. At 1, what most rests
 *   on comes first whatever is missed.
 */
export function countRolledUp(table: ItemTable, strength = 0.35): Float64Array {
  const counts = new Float64Array(table.conceptCount);
  for (const causes of table.named) {
    for (const cause of causes) {
      for (const { concept, links } of table.closures[cause]!)
        counts[concept]! += strength ** links;
    }
  }
  return counts;
}
