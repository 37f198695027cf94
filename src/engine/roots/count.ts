/** Plain counting of named causes, to set beside the traced ranking. */
import type { TraceLog } from './tracing';

/** How often a concept was named. */
export interface NamedCount {
  readonly conceptId: string;
  readonly count: number;
}

/**
 * How many misses name each concept as a cause, largest first, ties by id; concepts never
 * named are left out. A miss that names several counts once for each; one that names the
 * same concept twice counts once. Items answered right do not count.
 *
 * @example
 * countNamedCauses({ items: [{ missed: true, causes: ['a', 'b'], ... }], ... });
 * // [{ conceptId: 'a', count: 1 }, { conceptId: 'b', count: 1 }]
 */
export function countNamedCauses(log: Pick<TraceLog, 'items'>): readonly NamedCount[] {
  const counts = new Map<string, number>();
  for (const item of log.items) {
    if (!item.missed) continue;
    for (const cause of new Set(item.causes)) counts.set(cause, (counts.get(cause) ?? 0) + 1);
  }
  return [...counts]
    .map(([conceptId, count]) => ({ conceptId, count }))
    .sort((a, b) => b.count - a.count || (a.conceptId < b.conceptId ? -1 : 1));
}
