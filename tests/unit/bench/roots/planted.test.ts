/** What tracing says of candidates whose gaps are known: none, some that healed, and how large they are. */
import { describe, expect, it } from 'vitest';
import { drawCandidate } from '../../../bench/roots/generator/candidate';
import { caseOf, conceptIndex } from '../../../bench/roots/generator/log';
import { baseRecipe } from '../../../bench/roots/generator/recipe';
import { traceRoots, type TraceLog } from '../../../../src/engine';

/** Seeds below 100 are for tuning: nothing of them is reported. */
const seeds = [41, 42, 43, 44];

/** The engine's chance of a gap for every concept, in the map's order. */
function gapChances(log: TraceLog, heals = true): readonly number[] {
  const { roots } = traceRoots(log, { heals });
  const chances = new Map(roots.map(({ conceptId, gapChance }) => [conceptId, gapChance]));
  return log.concepts.map(({ id }) => chances.get(id) ?? 0);
}

const mean = (values: readonly number[]) =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

describe.each(['itemised', 'misses-only'] as const)('a log %s', (logging) => {
  it('of a candidate without a gap shows none', () => {
    for (const seed of seeds) {
      const sound = drawCandidate({ ...baseRecipe, deepGapCount: 0, surfaceGapCount: 0 }, seed);
      const { log } = caseOf(sound, 1_600, logging);
      expect(Math.max(...gapChances(log)), `seed ${seed}`).toBeLessThan(0.5);
    }
  });

  it('lets gaps that healed two weeks ago fall, and lasting ones stand', () => {
    const healed: number[] = [];
    const lingering: number[] = [];
    const lasting: number[] = [];
    const stood: number[] = [];
    for (const seed of seeds) {
      // 28 days of items, half of them after the healing.
      const recipe = { ...baseRecipe, healedShare: 0.5, itemsPerDay: 1_600 / 28 };
      const candidate = drawCandidate(recipe, seed);
      const { log } = caseOf(candidate, 1_600, logging);
      const chances = gapChances(log);
      const before = gapChances(log, false);
      candidate.isHealed.forEach((isHealed, concept) => {
        // Only a gap that showed can be seen to heal.
        if (before[concept]! < 0.5) return;
        if (isHealed) {
          healed.push(chances[concept]!);
          lingering.push(before[concept]!);
        } else if (candidate.isGap[concept]) {
          lasting.push(chances[concept]!);
          stood.push(before[concept]!);
        }
      });
    }
    expect(Math.min(healed.length, lasting.length)).toBeGreaterThanOrEqual(5);
    expect(mean(healed)).toBeLessThan(mean(lingering) / 2);
    expect(mean(lasting)).toBeGreaterThan(0.8 * mean(stood));
  });
});

it('states intervals of a gap’s rate that hold what was planted about nine times in ten', () => {
  let inside = 0;
  let planted = 0;
  for (const seed of seeds) {
    const candidate = drawCandidate(baseRecipe, seed);
    const { log, truth } = caseOf(candidate, 1_600, 'itemised');
    for (const { conceptId, gapFaultInterval } of traceRoots(log).roots) {
      const concept = conceptIndex(conceptId);
      if (!truth.isGap[concept]) continue;
      const rate = truth.faultRate[concept]!;
      planted += 1;
      if (rate >= gapFaultInterval[0] && rate <= gapFaultInterval[1]) inside += 1;
    }
  }
  // 90 % of 88 gaps, give or take three standard errors of .032.
  expect(planted).toBe(88);
  expect(inside / planted).toBeGreaterThan(0.8);
  expect(inside / planted).toBeLessThan(0.99);
});
