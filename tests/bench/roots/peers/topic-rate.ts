/** Topic error rates with shrinkage: the report most question sources give, done with care. */
import { fitBetaBinomial, shrunkRate, type Group } from './beta-binomial';
import type { ItemTable } from './item-table';

/** Items and misses of each concept as a topic. */
export function topicGroups(table: ItemTable): Group[] {
  const groups = Array.from({ length: table.conceptCount }, () => ({ events: 0, tries: 0 }));
  for (const { topics, missed } of table.items) {
    for (const topic of topics) {
      groups[topic]!.tries++;
      if (missed) groups[topic]!.events++;
    }
  }
  return groups;
}

/**
 * Shrunk miss rate of each topic, in [0, 1]; a concept never asked has the rate 0, since a
 * report of topics does not list it. A log without misses or without right items ranks nothing.
 */
export function shrunkTopicRates(table: ItemTable): Float64Array {
  const groups = topicGroups(table);
  const asked = groups.filter((group) => group.tries > 0);
  const anyMissed = asked.some((group) => group.events > 0);
  const anyRight = asked.some((group) => group.events < group.tries);
  if (!anyMissed || !anyRight) return new Float64Array(table.conceptCount);
  const fit = fitBetaBinomial(asked);
  return Float64Array.from(groups, (group) => (group.tries > 0 ? shrunkRate(fit, group) : 0));
}

/**
 * Misses of each topic above what the overall rate would give, with the shrunk rate:
 * items * (shrunk rate - overall rate). The same report, turned towards what costs marks.
 */
export function shrunkTopicExcess(table: ItemTable): Float64Array {
  const groups = topicGroups(table);
  const rates = shrunkTopicRates(table);
  const tries = groups.reduce((sum, group) => sum + group.tries, 0);
  const events = groups.reduce((sum, group) => sum + group.events, 0);
  const overall = tries > 0 ? events / tries : 0;
  return Float64Array.from(groups, (group, c) => group.tries * (rates[c]! - overall));
}
