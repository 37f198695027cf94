/** The simulated concept map: levels of concepts, each resting on some of the level below. */
import { drawBelow, shuffledIndices, type Uniform } from './random';
import type { Recipe } from './recipe';

export interface SimulatedMap {
  readonly conceptCount: number;
  readonly surfaceCount: number;
  /** Depth of each concept: 0 at the surface. */
  readonly levels: readonly number[];
  /** Concept -> the concepts it rests on, as indices. */
  readonly restsOn: readonly (readonly number[])[];
  /** Concept -> its systems, as indices: one at the surface, those it carries below. */
  readonly systems: readonly (readonly number[])[];
  /** Topic -> its share of the items; surface concepts only, summing to 1. */
  readonly popularity: readonly number[];
}

/**
 * Draws a map. Concepts are numbered level by level, the surface first.
 *
 *     level 0   o  o  o  o  o     topics, one system each
 *                \ | /  \ | \
 *     level 1     o       o  o    one or two links down from each, three from some topics
 *                  \     / \ |
 *     level 2       o   o    o
 */
export function drawMap(recipe: Recipe, uniform: Uniform): SimulatedMap {
  const levels = recipe.conceptsByLevel.flatMap((count, level) => Array<number>(count).fill(level));
  const surfaceCount = recipe.conceptsByLevel[0] ?? 0;
  const restsOn = levels.map((level) => drawLinks(recipe, level, uniform));
  return {
    conceptCount: levels.length,
    surfaceCount,
    levels,
    restsOn,
    systems: systemsOf(restsOn, surfaceCount, recipe.systemCount),
    popularity: drawPopularity(surfaceCount, recipe.popularityExponent, uniform),
  };
}

/** One to three distinct concepts of the level below; none from the deepest level. */
function drawLinks(recipe: Recipe, level: number, uniform: Uniform): number[] {
  const count = recipe.conceptsByLevel[level + 1] ?? 0;
  const start = recipe.conceptsByLevel.slice(0, level + 1).reduce((a, b) => a + b, 0);
  const wanted = Math.min(count, 1 + drawBelow(uniform, level === 0 ? 3 : 2));
  const chosen = new Set<number>();
  while (chosen.size < wanted) chosen.add(start + drawBelow(uniform, count));
  return [...chosen].sort((a, b) => a - b);
}

/** Surface concepts take turns through the systems; a deep concept has those of what rests on it. */
function systemsOf(
  restsOn: readonly (readonly number[])[],
  surfaceCount: number,
  systemCount: number,
): number[][] {
  const systems = restsOn.map(() => new Set<number>());
  restsOn.forEach((links, concept) => {
    if (concept < surfaceCount) systems[concept]!.add(concept % systemCount);
    // Links only lead to higher numbers, so a concept's own systems are complete by now.
    for (const below of links) for (const system of systems[concept]!) systems[below]!.add(system);
  });
  return systems.map((set) => [...set].sort((a, b) => a - b));
}

function drawPopularity(surfaceCount: number, exponent: number, uniform: Uniform): number[] {
  const rankOf = shuffledIndices(uniform, surfaceCount);
  const weights = rankOf.map((rank) => (rank + 1) ** -exponent);
  const total = weights.reduce((a, b) => a + b, 0);
  return weights.map((weight) => weight / total);
}
