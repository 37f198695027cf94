/** What a topic reaches: the concepts it rests on, and how strongly. */
import type { ConceptGraph } from './concept-graph';

/** Deepest reach of a miss below its topic, in links. */
export const mostLinksDeep = 3;

/**
 * All closures as compressed sparse rows: concept i reaches `concept[start[i] .. start[i + 1])`,
 * itself first with weight 1.
 */
export interface Closures {
  readonly start: Int32Array;
  readonly concept: Int32Array;
  readonly weight: Float64Array;
}

/**
 * For every concept, the best product of link strengths along a path of at most `depth`
 * links to each concept it rests on.
 *
 * Level by level from each concept; a path is followed on only where it beats every path
 * of fewer links, so that shared foundations are expanded once a level. Time grows with
 * the sum over concepts of the links within `depth` below them.
 *
 * @example
 * // a rests on b (0.5), b on c (0.4): a reaches a 1, b 0.5, c 0.2
 */
export function buildClosures(graph: ConceptGraph, depth: number = mostLinksDeep): Closures {
  const { linkStart, linkTarget, linkStrength } = graph;
  const count = graph.ids.length;
  const start = new Int32Array(count + 1);
  const concepts: number[] = [];
  const weights: number[] = [];

  const best = new Float64Array(count);
  const reachedOn = new Int32Array(count).fill(-1);
  let level = 0;
  let frontier: number[] = [];
  let next: number[] = [];
  for (let topic = 0; topic < count; topic++) {
    const reached = [topic];
    best[topic] = 1;
    frontier.length = 0;
    frontier.push(topic);
    for (let links = 0; links < depth && frontier.length > 0; links++) {
      level += 1;
      // Values as they were when the level began: one improved meanwhile has a link more.
      const valueBefore = frontier.map((node) => best[node]!);
      next.length = 0;
      frontier.forEach((node, k) => {
        for (let link = linkStart[node]!; link < linkStart[node + 1]!; link++) {
          const target = linkTarget[link]!;
          const value = valueBefore[k]! * linkStrength[link]!;
          if (value <= best[target]!) continue;
          if (best[target] === 0) reached.push(target);
          best[target] = value;
          if (reachedOn[target] !== level) {
            reachedOn[target] = level;
            next.push(target);
          }
        }
      });
      [frontier, next] = [next, frontier];
    }
    for (const concept of reached) {
      concepts.push(concept);
      weights.push(best[concept]!);
      best[concept] = 0;
    }
    start[topic + 1] = concepts.length;
  }
  return { start, concept: Int32Array.from(concepts), weight: Float64Array.from(weights) };
}
