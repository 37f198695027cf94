/** How far the strengths of links are to be believed. */
import type { CompiledLog } from './compiled';

/**
 * Standard deviation of the logarithm of a link's strength. Strengths are what the map's author
 * thought likely: taken as right within a third two times in three. Common practice, no source.
 */
export const linkDoubt = 0.3;

/** Per concept, the share of its exposure over the mix that comes through links. */
export function linkedShare({ topicSets, exposure }: CompiledLog): Float64Array {
  const own = new Float64Array(exposure.length);
  const all = new Float64Array(exposure.length);
  for (let set = 0; set < topicSets.count; set++) {
    const items = topicSets.mix[set]!;
    for (let k = topicSets.start[set]!; k < topicSets.start[set + 1]!; k++) {
      const concept = topicSets.concept[k]!;
      all[concept]! += items * topicSets.weight[k]!;
      // Only a topic itself is met in full, but for a link of strength 1, of which there is no doubt.
      if (topicSets.weight[k] === 1) own[concept]! += items;
    }
  }
  return all.map((total, c) => (total > 0 ? 1 - own[c]! / total : 0));
}
