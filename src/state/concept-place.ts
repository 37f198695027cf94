/** Where a concept that is added in the middle of a review belongs, guessed from its neighbours. */
import type { Concept } from '../model/concept-map';
import { foldName } from '../model/fold-name';
import type { DisciplineId, SystemId } from '../model/ids';
import { nameIndex } from '../model/nearest-names';

export interface ConceptPlace {
  readonly disciplines: readonly DisciplineId[];
  readonly systems: readonly SystemId[];
}

/** Concepts of similar names that are asked at most. */
const mostNear = 5;
/** What a concept of the same item says, against one of a name just as like. */
const sameItemWeight = 1;

/**
 * The discipline and the organ system that most neighbours share: the other
 * concepts of the item in full, concepts of similar names by how alike they are.
 *
 * @param beside concepts of the same item
 * @param system the item's own or its block's, which is known and not guessed
 * @returns at most one of each; none where no neighbour says any
 */
export function guessPlace(
  name: string,
  beside: readonly Concept[],
  concepts: Iterable<Concept>,
  system: SystemId | undefined,
): ConceptPlace {
  const index = nameIndex(
    [...concepts].flatMap((concept) =>
      [concept.name, ...concept.aliases].map((each) => [foldName(each), concept] as const),
    ),
  );
  const weights = new Map<Concept, number>(beside.map((concept) => [concept, sameItemWeight]));
  for (const { value, closeness } of index.findNearest(foldName(name), mostNear)) {
    weights.set(value, Math.max(closeness, weights.get(value) ?? 0));
  }
  const discipline = heaviest(weights, ({ disciplines }) => disciplines);
  const guessed = system ?? heaviest(weights, ({ systems }) => systems);
  return { disciplines: discipline ? [discipline] : [], systems: guessed ? [guessed] : [] };
}

/** What most weight speaks for; a concept with several shares its weight among them. */
function heaviest<T extends string>(
  weights: ReadonlyMap<Concept, number>,
  of: (concept: Concept) => readonly T[],
): T | undefined {
  const sums = new Map<T, number>();
  for (const [concept, weight] of weights) {
    const all = of(concept);
    for (const each of all) sums.set(each, (sums.get(each) ?? 0) + weight / all.length);
  }
  let best: T | undefined;
  for (const [each, sum] of sums) {
    if (best === undefined || sum > sums.get(best)!) best = each;
  }
  return best;
}
