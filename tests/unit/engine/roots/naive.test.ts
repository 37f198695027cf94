/** Flat arrays against objects and maps: the same answers from code that shares nothing. */
import { describe, expect, test } from 'vitest';
import { sampleRoots, traceRoots, type TraceLog } from '../../../../src/engine/index';
import { randomFrom } from '../../../../src/engine/numeric/random';
import { naiveQuick } from '../../../oracles/engine/naive-quick';
import { naiveSampler } from '../../../oracles/engine/naive-sampler';
import { randomLog } from '../../../oracles/engine/random-log';

const day = 86_400_000;

function logs(count: number, seed: number): TraceLog[] {
  const random = randomFrom(seed);
  return Array.from({ length: count }, () => {
    const log = randomLog(random, { concepts: 8, right: 60, missed: 30 });
    return {
      ...log,
      readings: [
        { at: -50 * day, concepts: ['c2', 'c5'] },
        { at: -9 * day, concepts: ['c5'] },
      ],
    };
  });
}

// Plain versions are slow, and more so on a busy machine.
const patient = { timeout: 120_000 };

describe('the quick pass', patient, () => {
  test('settles where the plain version settles, on 20 random logs with readings', () => {
    for (const log of logs(20, 81)) {
      const plain = naiveQuick(log, 60, 1e-7);
      const quick = traceRoots(log, {
        halfLifeDays: 60,
        tolerance: 1e-7,
        mostPasses: 1_000,
        heals: false,
      });
      expect(Math.abs(quick.slipRate / plain.slipRate - 1)).toBeLessThan(0.02);
      for (const root of quick.roots) {
        // Small contributions are taken out by interpolation: worth a hundredth or two at most.
        expect(Math.abs(root.gapChance - plain.gapChance.get(root.conceptId)!)).toBeLessThan(0.02);
        expect(Math.abs(root.faultRate - plain.faultRate.get(root.conceptId)!)).toBeLessThan(0.02);
        expect(Math.abs(root.traced - (plain.traced.get(root.conceptId) ?? 0))).toBeLessThan(
          0.03 + 0.02 * root.traced,
        );
      }
    }
  });
});

describe('the sampler', patient, () => {
  test('agrees with the plain version to Monte Carlo error', async () => {
    const log = logs(1, 82)[0]!;
    const result = await sampleRoots(log, {
      halfLifeDays: 60,
      sweeps: 2_000,
      mostDoublings: 0,
      warmUp: 400,
      learn: false,
      heals: false,
    });
    const plain = naiveSampler(log, 60, randomFrom(83));
    for (let sweep = 0; sweep < 400; sweep++) plain.sweep();
    const sums = new Map<string, number>();
    const sweeps = 5_000;
    for (let sweep = 0; sweep < sweeps; sweep++) {
      plain.sweep();
      for (const [id, chance] of plain.gapChance) sums.set(id, (sums.get(id) ?? 0) + chance);
    }
    // Both are worth at least several hundred independent draws: five standard errors of chances.
    for (const root of result.roots) {
      const chance = (sums.get(root.conceptId) ?? 0) / sweeps;
      if (root.exposure === 0) continue;
      const error = Math.sqrt((chance * (1 - chance)) / 300);
      expect(Math.abs(root.gapChance - chance)).toBeLessThan(5 * error + 1e-3);
    }
  });
});
