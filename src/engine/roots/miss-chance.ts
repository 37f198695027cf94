/** The chance of missing an item, by its topics. */
import type { CompiledLog } from './compiled';

/**
 * A function that gives the chance of missing an item on given topics,
 * 1 - exp(-level * (sigma + sum of w lambda)).
 *
 * @param levelOf asked when the first chance is: see level.ts
 *
 * The function throws a RangeError naming a topic that is no concept of the map.
 */
export function missChanceOf(
  compiled: CompiledLog,
  faultRate: Float64Array,
  slipRate: number,
  levelOf: () => number = () => 1,
): (item: { readonly topics: readonly string[] }) => number {
  const { closures, graph } = compiled;
  let level: number | undefined;
  return ({ topics }) => {
    const weights = new Map<number, number>();
    for (const topic of topics) {
      const index = graph.indexOf.get(topic);
      if (index === undefined)
        throw new RangeError(`missChance: got topic "${topic}"; need the id of a concept`);
      for (let k = closures.start[index]!; k < closures.start[index + 1]!; k++) {
        const concept = closures.concept[k]!;
        weights.set(concept, Math.max(weights.get(concept) ?? 0, closures.weight[k]!));
      }
    }
    let total = slipRate;
    for (const [concept, weight] of weights) total += weight * faultRate[concept]!;
    return -Math.expm1(-(level ??= levelOf()) * total);
  };
}
