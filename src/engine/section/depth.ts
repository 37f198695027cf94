/** How deep a concept lies: the longest *rests on* path from above. */
import { restingOrder } from '../graph/loop';
import type { ConceptGraph } from '../graph/concept-graph';

/**
 * For each concept, the number of links on the longest path that leads down to
 * it from a concept nothing rests on; 0 at the surface.
 *
 * Each concept and link is looked at once.
 *
 * @returns shape (concepts,)
 *
 * @example
 * // a rests on b and c, b rests on c: depths a 0, b 1, c 2
 */
export function findDepths(graph: ConceptGraph): Int32Array {
  const { linkStart, linkTarget } = graph;
  const depth = new Int32Array(graph.ids.length);
  // What is rested on comes first in this order, so its end is the surface.
  const order = restingOrder(linkStart, linkTarget);
  for (let k = order.length - 1; k >= 0; k--) {
    const concept = order[k]!;
    for (let link = linkStart[concept]!; link < linkStart[concept + 1]!; link++) {
      const below = linkTarget[link]!;
      depth[below] = Math.max(depth[below]!, depth[concept]! + 1);
    }
  }
  return depth;
}
