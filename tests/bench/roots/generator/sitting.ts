/** The items a candidate answers: what was needed, what failed, what was written down. */
import type { Candidate } from './candidate';
import { drawNeeds, withSecondTopic } from './needs';
import { drawBelow, uniformStream, weightedDraw, type Uniform } from './random';

/** The true cause of a miss that no concept explains. */
export const slipCause = -1;

export interface SimulatedItem {
  /** As the item truly is, first topic first. */
  readonly topics: readonly number[];
  /** As the candidate wrote them down. */
  readonly loggedTopics: readonly number[];
  readonly missed: boolean;
  /** For a miss: one of the concepts that failed, drawn alike, or `slipCause`. */
  readonly trueCause: number | undefined;
  readonly namedCause: number | undefined;
}

/**
 * Draws `count` items. A shorter run is the beginning of a longer one, save where gaps heal (they
 * heal halfway).
 */
export function drawItems(candidate: Candidate, count: number): SimulatedItem[] {
  const { map, recipe, seed } = candidate;
  const mix = uniformStream(seed, 'mix');
  const needing = uniformStream(seed, 'needs');
  const failing = uniformStream(seed, 'failures');
  const naming = uniformStream(seed, 'names');
  const mislogging = uniformStream(seed, 'wrong topics');
  const drawTopic = weightedDraw(map.popularity);

  return Array.from({ length: count }, (_, index) => {
    const first = drawTopic(mix);
    const topics = withSecondTopic(map, first, drawTopic, mix, recipe.secondTopicChance);
    const failure = 2 * index < count ? candidate.failureBefore : candidate.failureAfter;
    const needs = drawNeeds(map, topics, recipe.needChance, needing);
    const failed = needs.filter((concept) => failing() < failure[concept]!);
    const slipped = failing() < recipe.slipChance;
    const missed = slipped || failed.length > 0;
    const loggedTopics = logTopics(topics, recipe.wrongTopicShare, map.surfaceCount, mislogging);
    const trueCause =
      failed.length > 0
        ? failed[drawBelow(failing, failed.length)]
        : missed
          ? slipCause
          : undefined;
    const namedCause =
      trueCause === undefined ? undefined : nameCause(candidate, trueCause, loggedTopics, naming);
    return { topics, loggedTopics, missed, trueCause, namedCause };
  });
}

/** With the given chance the whole entry is wrong: one surface concept at random instead. */
function logTopics(
  topics: readonly number[],
  wrongShare: number,
  surfaceCount: number,
  uniform: Uniform,
): readonly number[] {
  return uniform() < wrongShare ? [drawBelow(uniform, surfaceCount)] : topics;
}

/**
 * The cause the candidate writes down, by the recipe's shares. A slip has no true cause to name,
 * so where another miss would be named rightly a slip is put down to its topic (the engine's own
 * label model makes the same choice: a slip's label is a topic or a stray).
 */
function nameCause(
  candidate: Candidate,
  trueCause: number,
  loggedTopics: readonly number[],
  uniform: Uniform,
): number | undefined {
  const { labels } = candidate.recipe;
  const written = uniform() >= labels.none;
  const manner = uniform() * (labels.right + labels.topic + labels.random);
  const topic = loggedTopics[drawBelow(uniform, loggedTopics.length)];
  const stray = drawBelow(uniform, candidate.map.conceptCount);
  if (!written) return undefined;
  if (manner < labels.right) return trueCause === slipCause ? topic : trueCause;
  return manner < labels.right + labels.topic ? topic : stray;
}
