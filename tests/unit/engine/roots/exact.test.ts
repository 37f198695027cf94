/** The quick pass against the exact posterior of the same model on tiny logs. */
import { describe, expect, test } from 'vitest';
import { traceRoots, type TraceLog, type TraceResult } from '../../../../src/engine/index';
import { randomFrom } from '../../../../src/engine/numeric/random';
import { exactPosterior } from '../../../oracles/engine/exact-posterior';
import { randomLog } from '../../../oracles/engine/random-log';

function shareOf(result: TraceResult, conceptId: string, itemId: string): number {
  const root = result.roots.find((each) => each.conceptId === conceptId);
  return root?.evidence.find((each) => each.itemId === itemId)?.share ?? 0;
}

describe('the exact posterior (the oracle itself)', () => {
  test('is what integrating on a grid gives for one concept, one miss and two right', () => {
    const item = (id: string, missed: boolean) => ({
      id,
      at: 0,
      missed,
      topics: ['a'],
      causes: missed ? ['a'] : [],
    });
    const log: TraceLog = {
      now: 0,
      concepts: [{ id: 'a', systems: [], restsOn: [] }],
      items: [item('m', true), item('r1', false), item('r2', false)],
      unitemised: [],
      readings: [],
    };
    const exact = exactPosterior(log);
    // The only concept there is can only be named: chance 1, of a slip as well. Prior mean of pi 2/22.
    let evidence = 0;
    let gap = 0;
    const step = 0.004;
    for (let rate = step / 2; rate < 12; rate += step) {
      const asGap = (2 / 22) * 4 * rate * Math.exp(-2 * rate);
      const asSound = (20 / 22) * 25 * Math.exp(-25 * rate);
      for (let slip = step / 2; slip < 1.6; slip += step) {
        const total = rate + slip;
        const likelihood =
          ((1 - Math.exp(-total)) / total) *
          (rate + slip) *
          Math.exp(-2 * total) *
          (400 * slip * Math.exp(-20 * slip)) *
          step *
          step;
        evidence += (asGap + asSound) * likelihood;
        gap += asGap * likelihood;
      }
    }
    // The midpoint rule on this grid is good to some 1e-4 of the value.
    expect(exact.evidence / evidence).toBeCloseTo(1, 3);
    expect(exact.gapChance[0]).toBeCloseTo(gap / evidence, 3);
  });

  test('shares each miss out completely', () => {
    const log = randomLog(randomFrom(31), { concepts: 4, right: 6, missed: 3 });
    for (const shares of exactPosterior(log).shares)
      expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
  });
});

describe('traceRoots against the exact posterior', () => {
  test('is exact for a single miss that only one concept or a slip can explain, but for the slip rate', () => {
    const log: TraceLog = {
      now: 0,
      concepts: [{ id: 'a', systems: [], restsOn: [] }],
      items: [
        { id: 'm', at: 0, missed: true, topics: ['a'], causes: [] },
        ...Array.from({ length: 5 }, (_, i) => ({
          id: `r${i}`,
          at: 0,
          missed: false,
          topics: ['a'],
          causes: [],
        })),
      ],
      unitemised: [],
      readings: [],
    };
    const exact = exactPosterior(log);
    const quick = traceRoots(log, { halfLifeDays: Infinity, tolerance: 1e-10 });
    // What is left is the mean of a ratio taken as the ratio of means.
    expect(Math.abs(quick.roots[0]!.gapChance - exact.gapChance[0]!)).toBeLessThan(0.01);
    expect(Math.abs(quick.roots[0]!.traced - exact.traced[0]!)).toBeLessThan(0.02);
    expect(Math.abs(shareOf(quick, 'a', 'm') - exact.shares[0]![0]!)).toBeLessThan(0.02);
  });

  /*
   * Tiny logs are the hardest case for it: nothing averages out, and the counts of two
   * concepts that share a miss are strongly tied, which the pass takes as independent. What is
   * asked is that it is right on the average and never far off in shares by which misses are
   * told; the sampler is the one held to Monte Carlo error.
   */
  test('comes near it on 60 random networks of two to four concepts', () => {
    const random = randomFrom(9);
    const below = (n: number) => Math.floor(random.uniform() * n);
    let concepts = 0;
    let gapError = 0;
    let gapBias = 0;
    let logRateError = 0;
    let shares = 0;
    let shareError = 0;
    for (let round = 0; round < 60; round++) {
      const log = randomLog(random, {
        concepts: 2 + below(3),
        right: below(12),
        missed: 1 + below(3),
      });
      const exact = exactPosterior(log);
      const quick = traceRoots(log, { halfLifeDays: Infinity, tolerance: 1e-7, mostPasses: 2_000 });
      expect(quick.diagnostics.converged).toBe(true);
      const misses = log.items.filter((item) => item.missed);
      for (const root of quick.roots) {
        const c = log.concepts.findIndex((concept) => concept.id === root.conceptId);
        concepts += 1;
        gapError += Math.abs(root.gapChance - exact.gapChance[c]!);
        gapBias += root.gapChance - exact.gapChance[c]!;
        logRateError += Math.abs(Math.log(root.faultRate / exact.faultRate[c]!));
        misses.forEach((miss, m) => {
          shares += 1;
          shareError += Math.abs(shareOf(quick, root.conceptId, miss.id) - exact.shares[m]![c]!);
        });
      }
      expect(Math.abs(quick.slipRate / exact.slipRate - 1)).toBeLessThan(0.15);
    }
    expect(gapError / concepts).toBeLessThan(0.04);
    expect(Math.abs(gapBias / concepts)).toBeLessThan(0.01);
    expect(logRateError / concepts).toBeLessThan(0.2);
    expect(shareError / shares).toBeLessThan(0.035);
  });
});
