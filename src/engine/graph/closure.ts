/** What a topic reaches: the concepts it rests on, and how strongly. */
import { createWorkspace } from '../numeric/workspace';
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

const workspace = createWorkspace();

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
  let concepts = new Int32Array(4 * count);
  let weights = new Float64Array(4 * count);

  workspace.begin();
  const best = workspace.floats(count);
  const reachedOn = workspace.ints(count);
  const reached = workspace.ints(count);
  // Values as they were when the level began: one improved meanwhile has a link more.
  const valueBefore = workspace.floats(count);
  let frontier = workspace.ints(count);
  let next = workspace.ints(count);
  let level = 0;
  let used = 0;
  for (let topic = 0; topic < count; topic++) {
    reached[0] = topic;
    let reachedCount = 1;
    best[topic] = 1;
    frontier[0] = topic;
    let frontierCount = 1;
    for (let links = 0; links < depth && frontierCount > 0; links++) {
      level += 1;
      for (let k = 0; k < frontierCount; k++) valueBefore[k] = best[frontier[k]!]!;
      let nextCount = 0;
      for (let k = 0; k < frontierCount; k++) {
        const node = frontier[k]!;
        for (let link = linkStart[node]!; link < linkStart[node + 1]!; link++) {
          const target = linkTarget[link]!;
          const value = valueBefore[k]! * linkStrength[link]!;
          if (value <= best[target]!) continue;
          if (best[target] === 0) reached[reachedCount++] = target;
          best[target] = value;
          if (reachedOn[target] !== level) {
            reachedOn[target] = level;
            next[nextCount++] = target;
          }
        }
      }
      [frontier, next] = [next, frontier];
      frontierCount = nextCount;
    }
    if (used + reachedCount > concepts.length) {
      const room = 2 * (used + reachedCount);
      const before = { concepts, weights };
      concepts = new Int32Array(room);
      concepts.set(before.concepts);
      weights = new Float64Array(room);
      weights.set(before.weights);
    }
    for (let k = 0; k < reachedCount; k++) {
      const concept = reached[k]!;
      concepts[used] = concept;
      weights[used] = best[concept]!;
      used += 1;
      best[concept] = 0;
    }
    start[topic + 1] = used;
  }
  return { start, concept: concepts.slice(0, used), weight: weights.slice(0, used) };
}
