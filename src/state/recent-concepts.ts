/** The concepts a candidate named last, and those named most: what is likely to be named next. */
import type { ConceptId } from '../model/ids';
import type { Item } from '../model/log';

/**
 * The concepts named as topic or cause last, newest first, each once.
 *
 * "Last" is when the item was last written, not when it was sat: who reviews an old block goes on
 * with its concepts. What came in at one moment, from a file, goes by the day it was sat. Linear in
 * the items.
 *
 * @param dayOf the day of an item's block
 */
export function recentConcepts(
  items: Iterable<Item>,
  dayOf: (item: Item) => number,
  limit: number,
): ConceptId[] {
  const last = new Map<ConceptId, { readonly at: number; readonly day: number }>();
  for (const item of items) {
    const at = item.stamp.changedAt;
    for (const id of [...item.topics, ...item.causes]) {
      const before = last.get(id);
      if (before && before.at > at) continue;
      const day = dayOf(item);
      if (!before || before.at < at || before.day < day) last.set(id, { at, day });
    }
  }
  return [...last]
    .sort(([a, one], [b, other]) => other.at - one.at || other.day - one.day || (a < b ? -1 : 1))
    .slice(0, limit)
    .map(([id]) => id);
}

/** How many items name each concept as a topic. */
export function topicCounts(items: Iterable<Item>): Map<ConceptId, number> {
  const counts = new Map<ConceptId, number>();
  for (const { topics } of items)
    for (const topic of topics) counts.set(topic, (counts.get(topic) ?? 0) + 1);
  return counts;
}
