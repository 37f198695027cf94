/** A simulated candidate: a map, and how likely each concept is to fail when it is needed. */
import { drawMap, type SimulatedMap } from './map';
import { drawBetween, shuffledIndices, uniformStream } from './random';
import type { Recipe } from './recipe';

export interface Candidate {
  readonly seed: number;
  readonly recipe: Recipe;
  readonly map: SimulatedMap;
  /** Concept -> chance that it fails when needed, before and after the middle of the items. */
  readonly failureBefore: readonly number[];
  readonly failureAfter: readonly number[];
  /** Concept -> chance that it would fail were it sound. */
  readonly soundFailure: readonly number[];
  /** Concept -> whether it is a gap at the end. */
  readonly isGap: readonly boolean[];
  /** Concept -> whether it was a gap that healed. */
  readonly isHealed: readonly boolean[];
}

/** Draws a candidate: the same for the same seed and recipe. */
export function drawCandidate(recipe: Recipe, seed: number): Candidate {
  const map = drawMap(recipe, uniformStream(seed, 'map'));
  const uniform = uniformStream(seed, 'gaps');
  const deepCount = map.conceptCount - map.surfaceCount;
  const gaps = [
    ...shuffledIndices(uniform, map.surfaceCount).slice(0, recipe.surfaceGapCount),
    ...shuffledIndices(uniform, deepCount)
      .slice(0, recipe.deepGapCount)
      .map((index) => map.surfaceCount + index),
  ];
  const healing = uniformStream(seed, 'healing');
  const healed = new Set(
    shuffledIndices(healing, gaps.length)
      .slice(0, Math.round(gaps.length * recipe.healedShare))
      .map((index) => gaps[index]!),
  );
  const planted = new Set(gaps);
  const soundFailure = map.levels.map(() => drawBetween(uniform, ...recipe.soundFailure));
  const failureBefore = soundFailure.map((sound, concept) => {
    const asGap = drawBetween(uniform, ...recipe.gapFailure);
    return planted.has(concept) ? asGap : sound;
  });
  return {
    seed,
    recipe,
    map,
    failureBefore,
    failureAfter: failureBefore.map((chance, c) => (healed.has(c) ? soundFailure[c]! : chance)),
    soundFailure,
    isGap: map.levels.map((_, concept) => planted.has(concept) && !healed.has(concept)),
    isHealed: map.levels.map((_, concept) => healed.has(concept)),
  };
}
