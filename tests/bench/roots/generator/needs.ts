/** What one item needs: its topics, and what is drawn from under them. */
import type { SimulatedMap } from './map';
import type { Uniform } from './random';

/**
 * The concepts one item needs, each once, its topics first.
 *
 * From every needed concept each link is followed with the same chance, so a concept two links
 * down one path is needed with the square of it, and more where paths meet.
 */
export function drawNeeds(
  map: SimulatedMap,
  topics: readonly number[],
  needChance: number,
  uniform: Uniform,
): number[] {
  const needs = [...topics];
  const seen = new Set(needs);
  // `needs` grows while it is walked: each concept passes on its own draws once.
  for (const concept of needs) {
    for (const below of map.restsOn[concept]!) {
      if (uniform() < needChance && !seen.has(below)) {
        seen.add(below);
        needs.push(below);
      }
    }
  }
  return needs;
}

/**
 * The topic, and with a chance a second: the next draw by popularity in the same system.
 * Gives up after 200 draws, for a topic that is all but alone in its system.
 */
export function withSecondTopic(
  map: SimulatedMap,
  first: number,
  draw: (uniform: Uniform) => number,
  uniform: Uniform,
  secondTopicChance: number,
): number[] {
  if (uniform() >= secondTopicChance) return [first];
  const system = map.systems[first]![0];
  for (let attempt = 0; attempt < 200; attempt++) {
    const second = draw(uniform);
    if (second !== first && map.systems[second]![0] === system) return [first, second];
  }
  return [first];
}
