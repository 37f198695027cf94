import { describe, expect, it } from 'vitest';
import { drawCandidate } from '../../../../bench/roots/generator/candidate';
import { drawNeeds, withSecondTopic } from '../../../../bench/roots/generator/needs';
import { uniformStream, weightedDraw } from '../../../../bench/roots/generator/random';
import { baseRecipe } from '../../../../bench/roots/generator/recipe';
import { truthOf } from '../../../../bench/roots/generator/truth';

const countTrue = (flags: readonly boolean[]) => flags.filter(Boolean).length;

describe('a simulated candidate', () => {
  const candidate = drawCandidate(baseRecipe, 3);
  const { map } = candidate;

  it('is the same for the same seed, and another for another', () => {
    expect(drawCandidate(baseRecipe, 3)).toEqual(candidate);
    expect(drawCandidate(baseRecipe, 4).isGap).not.toEqual(candidate.isGap);
  });

  it('has 260 concepts, 12 systems, 8 deep and 14 surface gaps, as the design says', () => {
    expect(map.conceptCount).toBe(260);
    expect(new Set(map.systems.flat()).size).toBe(12);
    expect(countTrue(candidate.isGap.slice(0, map.surfaceCount))).toBe(14);
    expect(countTrue(candidate.isGap.slice(map.surfaceCount))).toBe(8);
  });

  it('rests every concept on distinct ones of the level just below, the deepest on none', () => {
    map.restsOn.forEach((links, concept) => {
      const level = map.levels[concept]!;
      expect(new Set(links).size).toBe(links.length);
      expect(links.every((below) => map.levels[below] === level + 1)).toBe(true);
      expect(links.length > 0).toBe(level < 3);
    });
  });

  it('asks only about the surface, by a power law', () => {
    const sorted = map.popularity.toSorted((a, b) => b - a);
    expect(sorted.length).toBe(180);
    expect(sorted.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
    expect(sorted[0]! / sorted[9]!).toBeCloseTo(10 ** baseRecipe.popularityExponent, 9);
  });

  it('gives gaps and sound concepts failure chances within their bounds', () => {
    candidate.failureAfter.forEach((chance, concept) => {
      const [low, high] = candidate.isGap[concept]
        ? baseRecipe.gapFailure
        : baseRecipe.soundFailure;
      expect(chance).toBeGreaterThanOrEqual(low);
      expect(chance).toBeLessThan(high);
    });
  });

  it('keeps its map and failure chances where a variant changes something else', () => {
    const lazy = { ...baseRecipe, labels: { none: 0, right: 0, topic: 1, random: 0 } };
    const other = drawCandidate(lazy, 3);
    expect(other.map).toEqual(map);
    expect(other.failureAfter).toEqual(candidate.failureAfter);
  });

  it('heals half of its gaps where told to, to their sound chance', () => {
    const healing = drawCandidate({ ...baseRecipe, healedShare: 0.5 }, 3);
    expect(countTrue(healing.isHealed)).toBe(11);
    expect(countTrue(healing.isGap)).toBe(11);
    healing.isHealed.forEach((healed, concept) => {
      expect(candidate.isGap[concept]).toBe(healed || healing.isGap[concept]!);
      if (healed) expect(healing.failureAfter[concept]).toBe(healing.soundFailure[concept]);
      else expect(healing.failureAfter[concept]).toBe(healing.failureBefore[concept]);
    });
  });
});

describe('the needs of an item', () => {
  it('go down each link with the same chance, and more where paths meet', () => {
    // 0 -> 1 and 2; both -> 3.
    const map = {
      conceptCount: 4,
      surfaceCount: 1,
      levels: [0, 1, 1, 2],
      restsOn: [[1, 2], [3], [3], []],
      systems: [[0], [0], [0], [0]],
      popularity: [1],
    };
    const uniform = uniformStream(1, 'needs');
    const counts = [0, 0, 0, 0];
    for (let n = 0; n < 20_000; n++) {
      const needs = drawNeeds(map, [0], 0.45, uniform);
      expect(new Set(needs).size).toBe(needs.length);
      for (const concept of needs) counts[concept]!++;
    }
    expect(counts[0]).toBe(20_000);
    // Standard deviations at most 71. Concept 3 is reached by either path: 1 - (1 - .45^2)^2.
    expect(Math.abs(counts[1]! - 0.45 * 20_000)).toBeLessThan(280);
    expect(Math.abs(counts[2]! - 0.45 * 20_000)).toBeLessThan(280);
    expect(Math.abs(counts[3]! - (1 - (1 - 0.2025) ** 2) * 20_000)).toBeLessThan(280);
  });

  it('take a second topic of the same system, never the first again', () => {
    const { map } = drawCandidate(baseRecipe, 9);
    const draw = weightedDraw(map.popularity);
    const uniform = uniformStream(9, 'second');
    for (let first = 0; first < 40; first++) {
      const topics = withSecondTopic(map, first, draw, uniform, 1);
      expect(topics.length).toBe(2);
      expect(topics[1]).not.toBe(first);
      expect(map.systems[topics[1]!]).toEqual(map.systems[first]);
      expect(withSecondTopic(map, first, draw, uniform, 0)).toEqual([first]);
    }
  });
});

describe('the truth', () => {
  it('is that of the closed form on two topics over one deep concept', () => {
    const recipe = {
      ...baseRecipe,
      conceptsByLevel: [2, 1],
      systemCount: 1,
      surfaceGapCount: 1,
      deepGapCount: 1,
      secondTopicChance: 0,
    };
    const candidate = drawCandidate(recipe, 12);
    const { failureAfter: fail, soundFailure: sound, map } = candidate;
    const noSlip = 1 - recipe.slipChance;
    const { avoidable, faultRate } = truthOf(candidate, 20_000);
    let deep = 0;
    for (const topic of [0, 1]) {
      const share = 100 * map.popularity[topic]!;
      const expected = share * noSlip * (fail[topic]! - sound[topic]!) * (1 - 0.45 * fail[2]!);
      // 20,000 draws of whether the deep concept is needed: standard error below half a percent.
      expect(Math.abs(avoidable[topic]! - expected)).toBeLessThanOrEqual(0.02 * expected);
      deep += share * 0.45 * noSlip * (1 - fail[topic]!) * (fail[2]! - sound[2]!);
    }
    expect(Math.abs(avoidable[2]! - deep)).toBeLessThan(0.03 * deep);
    expect(faultRate[2]).toBeCloseTo(-Math.log(1 - fail[2]!), 12);
  });

  it('puts every gap that is ever needed above 0, and every sound concept at 0', () => {
    const candidate = drawCandidate(baseRecipe, 5);
    const { avoidable, isGap } = truthOf(candidate);
    const carried = new Set(candidate.map.restsOn.flat());
    avoidable.forEach((value, concept) => {
      const reached = concept < candidate.map.surfaceCount || carried.has(concept);
      if (isGap[concept] && reached) expect(value).toBeGreaterThan(0);
      if (!isGap[concept]) expect(value).toBe(0);
    });
  });
});
