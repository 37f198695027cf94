/** What a perfect ranking would know about a simulated candidate. */
import type { Candidate } from './candidate';
import { drawNeeds, withSecondTopic } from './needs';
import { uniformStream, weightedDraw } from './random';

export interface Truth {
  /** Concept -> misses fewer per 100 items of the mix, were it sound; the ranking to be found. */
  readonly avoidable: Float64Array;
  /** Concept -> -ln(1 - failure chance): the fault rate that gives the same chance of a failure. */
  readonly faultRate: Float64Array;
  /** Concept -> whether it is a gap at the end. */
  readonly isGap: readonly boolean[];
}

/**
 * The truth at the end of the log, in expectation over the mix of items.
 *
 * Mending c to its sound chance spares the items that need c, whose other needs all hold, with
 * no slip: (failure - sound) * (1 - slip) * prod over other needs d of (1 - failure_d). The mean
 * over needs and second topics is taken by simulation with `drawsPerTopic` draws for each first
 * topic (weighed by its popularity, so that rare topics are as exact as common ones).
 */
export function truthOf(candidate: Candidate, drawsPerTopic = 400): Truth {
  const { map, recipe, failureAfter, soundFailure } = candidate;
  const uniform = uniformStream(candidate.seed, 'truth');
  const drawTopic = weightedDraw(map.popularity);
  const avoidable = new Float64Array(map.conceptCount);

  for (let first = 0; first < map.surfaceCount; first++) {
    const weight = (100 * map.popularity[first]!) / drawsPerTopic;
    for (let draw = 0; draw < drawsPerTopic; draw++) {
      const topics = withSecondTopic(map, first, drawTopic, uniform, recipe.secondTopicChance);
      const needs = drawNeeds(map, topics, recipe.needChance, uniform);
      let allHold = 1 - recipe.slipChance;
      for (const concept of needs) allHold *= 1 - failureAfter[concept]!;
      for (const concept of needs) {
        const failure = failureAfter[concept]!;
        avoidable[concept]! +=
          (weight * allHold * (failure - soundFailure[concept]!)) / (1 - failure);
      }
    }
  }
  return {
    avoidable,
    faultRate: Float64Array.from(failureAfter, (chance) => -Math.log1p(-chance)),
    isGap: candidate.isGap,
  };
}
