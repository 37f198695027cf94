/**
 * The concept map as flat arrays.
 *
 * Concept i rests on `linkTarget[linkStart[i] .. linkStart[i + 1])`, each with
 * its strength (compressed sparse rows):
 *
 *     linkStart   0     2  3        concept 0 rests on 1 and 2, concept 1 on 2
 *     linkTarget  1  2  2
 */
import { defaultStrength } from '../../model/concept-map';
import { findLoop } from './loop';

export interface ConceptGraph {
  readonly ids: readonly string[];
  readonly indexOf: ReadonlyMap<string, number>;
  /** Shape (concepts + 1,). */
  readonly linkStart: Int32Array;
  /** Shape (links,): the concept rested on. */
  readonly linkTarget: Int32Array;
  /** Shape (links,), each in (0, 1]. */
  readonly linkStrength: Float64Array;
}

/** What the graph needs of a concept. */
export interface GraphConcept {
  readonly id: string;
  readonly restsOn: readonly { readonly id: string; readonly strength?: number }[];
}

/**
 * The map's links as flat arrays, checked.
 *
 * @param where the caller's name, for messages
 * @param strengthUnlessGiven strength of a link that states none
 * @throws {RangeError} naming a repeated id, a link to an unknown id, a strength outside (0, 1], or
 *   the concepts of a loop
 */
export function buildConceptGraph(
  where: string,
  concepts: readonly GraphConcept[],
  strengthUnlessGiven: number = defaultStrength,
): ConceptGraph {
  const indexOf = new Map<string, number>();
  let linkCount = 0;
  concepts.forEach((concept, i) => {
    if (indexOf.has(concept.id))
      throw new RangeError(`${where}: got concept "${concept.id}" twice; need every id once`);
    indexOf.set(concept.id, i);
    linkCount += concept.restsOn.length;
  });

  const linkStart = new Int32Array(concepts.length + 1);
  const linkTarget = new Int32Array(linkCount);
  const linkStrength = new Float64Array(linkCount);
  let link = 0;
  concepts.forEach((concept, i) => {
    for (const { id, strength = strengthUnlessGiven } of concept.restsOn) {
      const target = indexOf.get(id);
      if (target === undefined)
        throw new RangeError(
          `${where}: concept "${concept.id}" rests on "${id}"; need the id of a concept`,
        );
      if (!(strength > 0 && strength <= 1))
        throw new RangeError(
          `${where}: got strength ${strength} for "${concept.id}" on "${id}"; need above 0 and at most 1`,
        );
      linkTarget[link] = target;
      linkStrength[link] = strength;
      link += 1;
    }
    linkStart[i + 1] = link;
  });

  const loop = findLoop(linkStart, linkTarget);
  if (loop) {
    const names = [...loop, loop[0]!].map((i) => `"${concepts[i]!.id}"`).join(' on ');
    throw new RangeError(`${where}: concepts rest on each other in a loop: ${names}`);
  }
  return {
    ids: concepts.map((concept) => concept.id),
    indexOf,
    linkStart,
    linkTarget,
    linkStrength,
  };
}

/**
 * Per concept, whether another concept rests on it (1) or none does (0: it is a leaf, at the surface).
 */
export function restedOn(graph: ConceptGraph): Uint8Array {
  const flags = new Uint8Array(graph.ids.length);
  for (const target of graph.linkTarget) flags[target] = 1;
  return flags;
}
