/**
 * Where items known only by count are taken to lie.
 *
 * Half follow the topic sets of the itemised items of their system, half lie evenly over the
 * leaves of the map seen in it (over all systems where none is given). Where one half has
 * nothing to go by the other takes all; where neither has, all systems are used.
 */
import { restedOn, type ConceptGraph } from '../graph/concept-graph';
import type { TopicSetBuilder } from './topic-sets';
import type { TraceConcept } from './tracing';

/** A distribution over topic sets; shares sum to 1, or the arrays are empty. */
export interface Spread {
  readonly sets: readonly number[];
  readonly shares: readonly number[];
  /** Those of `sets` that are single leaves. */
  readonly leafSets: ReadonlySet<number>;
}

/**
 * The spread of each system by name, `undefined` standing for a mix of all.
 *
 * @param itemSets per itemised item with topics, its set and system
 */
export function spreadFinder(
  concepts: readonly TraceConcept[],
  graph: ConceptGraph,
  sets: TopicSetBuilder,
  itemSets: readonly { readonly set: number; readonly system: string | undefined }[],
): (system: string | undefined) => Spread {
  const isRestedOn = restedOn(graph);
  const leavesOf = (system: string | undefined): number[] => {
    const leaves: number[] = [];
    concepts.forEach((concept, i) => {
      if (isRestedOn[i] === 0 && (system === undefined || concept.systems.includes(system)))
        leaves.push(i);
    });
    return leaves;
  };
  const countsOf = (system: string | undefined): Map<number, number> => {
    const counts = new Map<number, number>();
    for (const item of itemSets)
      if (system === undefined || item.system === system)
        counts.set(item.set, (counts.get(item.set) ?? 0) + 1);
    return counts;
  };

  const found = new Map<string | undefined, Spread>();
  const find = (system: string | undefined): Spread => {
    const known = found.get(system);
    if (known) return known;
    const spread = blend(
      countsOf(system),
      leavesOf(system).map((leaf) => sets.setOfConcept(leaf)),
    );
    // Nothing is known of this system: it is taken as like the rest.
    const answer = spread.sets.length === 0 && system !== undefined ? find(undefined) : spread;
    found.set(system, answer);
    return answer;
  };
  return find;
}

function blend(counts: ReadonlyMap<number, number>, leafSets: readonly number[]): Spread {
  let total = 0;
  for (const count of counts.values()) total += count;
  const byItems = total === 0 ? 0 : leafSets.length === 0 ? 1 : 0.5;
  const byLeaves = 1 - byItems;
  const shares = new Map<number, number>();
  for (const [set, count] of counts) shares.set(set, (byItems * count) / total);
  for (const set of leafSets) shares.set(set, (shares.get(set) ?? 0) + byLeaves / leafSets.length);
  return { sets: [...shares.keys()], shares: [...shares.values()], leafSets: new Set(leafSets) };
}
