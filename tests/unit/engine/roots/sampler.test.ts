/** That the sampler draws from the model's posterior, shown three ways, and that faults are found. */
import { describe, expect, test } from 'vitest';
import { sampleRoots, type TraceLog } from '../../../../src/engine/index';
import { randomFrom } from '../../../../src/engine/numeric/random';
import { drawPoisson, drawZeroTruncatedPoisson } from '../../../../src/engine/numeric/sampling';
import { chainPieces } from '../../../../src/engine/roots/chain';
import type { CompiledLog } from '../../../../src/engine/roots/compiled';
import {
  calibrationRanks,
  chiSquareOf,
  jointDistributionScores,
  quantities,
  type Faults,
} from '../../../oracles/engine/calibration';
import { forwardItems } from '../../../oracles/engine/forward';
import { exactPosterior } from '../../../oracles/engine/exact-posterior';
import { randomLog } from '../../../oracles/engine/random-log';

/**
 * 99.99 % point of chi-square with 9 degrees of freedom (from memory: 33.72). Seven quantities
 * are looked at with a fixed seed, so a sound sampler passes with a chance above 99.9 %.
 */
const chiSquareLimit = 33.72;
/**
 * Largest of 21 scores, t with some 19 degrees of freedom as the chain's errors come from 20
 * batches: 5 is passed by chance about once in 600. Ten sound seeds tried stayed below.
 */
const scoreLimit = 5;

const faults: Record<string, Faults> = {
  // Label over weight leaves rate times label for the first event's source.
  'the weight is dropped where the source is drawn': {
    spoil: (compiled: CompiledLog) => ({
      ...compiled,
      rows: {
        ...compiled.rows,
        label: compiled.rows.label.map((label, e) => label / (compiled.rows.weight[e]! || 1)),
      },
    }),
  },
  'the weight is dropped from the exposure': {
    spoil: (compiled: CompiledLog) => ({
      ...compiled,
      exposure: compiled.exposure.map(
        (_, c) => forwardItems.filter((item) => item.weights[c]! > 0).length,
      ),
    }),
  },
  'the conjugate shape forgets the prior by one': {
    pieces: { ...chainPieces, rateShape: (prior, events) => Math.max(0.05, prior - 1) + events },
  },
  'the conjugate shape has an event too many': {
    pieces: { ...chainPieces, rateShape: (prior, events) => prior + events + 1 },
  },
  'the zero-truncated Poisson is one too many': {
    pieces: {
      ...chainPieces,
      drawEvents: (random, total) => drawZeroTruncatedPoisson(random, total) + 1,
    },
  },
  'the zero-truncated Poisson is one and a Poisson': {
    pieces: { ...chainPieces, drawEvents: (random, total) => 1 + drawPoisson(random, total) },
  },
};

// Long work on a busy machine: what is asked is what they find, not how long they take.
const patient = { timeout: 120_000 };

describe('simulation-based calibration', patient, () => {
  // 500 replications, 19 draws each, thinned; ranks in ten bins of two.
  test('ranks of the truth are even over 500 replications', () => {
    const counts = calibrationRanks(500, 19, 8, 61);
    counts.forEach((each, q) => {
      expect(chiSquareOf(each, 10), quantities[q]).toBeLessThan(chiSquareLimit);
    });
  });
});

describe('the joint-distribution test', patient, () => {
  test('a chain that redraws its data keeps to the prior', () => {
    for (const score of jointDistributionScores(20_000, 62))
      expect(Math.abs(score)).toBeLessThan(scoreLimit);
  });

  test.each(Object.keys(faults))('finds out when %s', (name) => {
    const scores = jointDistributionScores(12_000, 62, { ...faults[name], learn: false });
    expect(Math.max(...scores.map(Math.abs))).toBeGreaterThan(scoreLimit);
  });
});

describe('sampleRoots', patient, () => {
  test('agrees with the exact posterior to Monte Carlo error on ten random networks', async () => {
    const random = randomFrom(9);
    const below = (n: number) => Math.floor(random.uniform() * n);
    for (let round = 0; round < 10; round++) {
      const log = randomLog(random, {
        concepts: 2 + below(3),
        right: below(12),
        missed: 1 + below(3),
      });
      const exact = exactPosterior(log);
      const result = await sampleRoots(log, {
        halfLifeDays: Infinity,
        learn: false,
        sweeps: 1_500,
        mostDoublings: 0,
        warmUp: 300,
        seed: round,
      });
      const { leastEssBulk } = result.diagnostics.sampling!;
      // Five standard errors at the least number of independent draws met.
      const near = (actual: number, expected: number, deviation: number) => {
        expect(Math.abs(actual - expected)).toBeLessThan(
          (5 * deviation) / Math.sqrt(leastEssBulk) + 1e-9,
        );
      };
      const misses = log.items.filter((item) => item.missed);
      log.concepts.forEach(({ id }, c) => {
        const root = result.roots.find((each) => each.conceptId === id)!;
        const chance = exact.gapChance[c]!;
        near(root.gapChance, chance, Math.sqrt(chance * (1 - chance)));
        near(
          root.faultRate,
          exact.faultRate[c]!,
          Math.sqrt(exact.faultSquare[c]! - exact.faultRate[c]! ** 2),
        );
        near(root.traced, exact.traced[c]!, misses.length / 2);
        misses.forEach((miss, m) => {
          const share = root.evidence.find((each) => each.itemId === miss.id)?.share ?? 0;
          near(share, exact.shares[m]![c]!, 0.5);
        });
      });
    }
  });

  const log = randomLog(randomFrom(63), { concepts: 12, right: 80, missed: 60 });

  test('repeats itself for a seed, whatever the order of concepts and items', async () => {
    const turned: TraceLog = {
      ...log,
      concepts: [...log.concepts].reverse(),
      items: [...log.items].reverse(),
    };
    const options = { seed: 5, sweeps: 60, warmUp: 20, chains: 2 };
    const once = await sampleRoots(log, options);
    const again = await sampleRoots(turned, options);
    expect(again.roots).toEqual(once.roots);
    const other = await sampleRoots(log, { ...options, seed: 6 });
    expect(other.roots).not.toEqual(once.roots);
  });

  test('shares of each miss add to 1, and first-ten chances to ten', async () => {
    const result = await sampleRoots(log, { sweeps: 60, warmUp: 20, chains: 2 });
    const sums = new Map<string, number>();
    for (const list of [...result.roots.map((root) => root.evidence), result.slipEvidence])
      for (const { itemId, share } of list) sums.set(itemId, (sums.get(itemId) ?? 0) + share);
    expect(sums.size).toBe(60);
    for (const sum of sums.values()) expect(sum).toBeCloseTo(1, 12);
    const places = result.roots.reduce((sum, root) => sum + root.firstTenChance!, 0);
    expect(places).toBeLessThanOrEqual(10 + 1e-9);
    expect(places).toBeGreaterThan(0);
  });

  test('says so when the chains have not settled, and gives figures for it', async () => {
    const result = await sampleRoots(log, { sweeps: 6, warmUp: 0, chains: 4 });
    expect(result.diagnostics).toMatchObject({ method: 'sampled', converged: false });
    expect(result.diagnostics.sampling!.leastEssBulk).toBeLessThan(400);
  });

  test('misses known only by count are drawn like as many misses without a label', async () => {
    const concepts = [
      { id: 'a', systems: [], restsOn: [] },
      { id: 'b', systems: [], restsOn: [] },
    ];
    const right = Array.from({ length: 6 }, (_, i) => ({
      id: `r${i}`,
      at: 0,
      missed: false,
      topics: ['a'],
      causes: [],
    }));
    const missed = Array.from({ length: 3 }, (_, i) => ({
      id: `m${i}`,
      at: 0,
      missed: true,
      topics: ['a'],
      causes: [],
    }));
    const base = { now: 0, concepts: concepts.slice(0, 1), readings: [] };
    const options = { sweeps: 3_000, warmUp: 200, mostDoublings: 0, halfLifeDays: Infinity };
    const itemised = await sampleRoots(
      { ...base, items: [...right, ...missed], unitemised: [] },
      options,
    );
    const counted = await sampleRoots(
      { ...base, items: right, unitemised: [{ at: 0, right: 0, missed: 3 }] },
      options,
    );
    // Both have thousands of independent draws: 0.03 is some four standard errors.
    expect(Math.abs(counted.roots[0]!.gapChance - itemised.roots[0]!.gapChance)).toBeLessThan(0.03);
    expect(Math.abs(counted.roots[0]!.traced - itemised.roots[0]!.traced)).toBeLessThan(0.12);
  });

  test('learns the spread of rates by itself where most right items are itemised, else not', async () => {
    const options = { seed: 5, sweeps: 40, warmUp: 20, chains: 2 };
    const counted = { ...log, unitemised: [{ at: 0, right: 81, missed: 0 }] };
    const roots = async (from: TraceLog, learn?: boolean) =>
      (await sampleRoots(from, learn === undefined ? options : { ...options, learn })).roots;
    expect(await roots(log)).toEqual(await roots(log, true));
    expect(await roots(log)).not.toEqual(await roots(log, false));
    // 80 right items are itemised: one more than that known by count alone tips it. Labels are
    // learned all the same.
    expect(await roots(counted)).not.toEqual(await roots(counted, true));
    expect(await roots(counted)).not.toEqual(await roots(counted, false));
  });

  test('tells how far it is, and stops when it is told to', async () => {
    const seen: number[] = [];
    await sampleRoots(log, {
      sweeps: 50,
      warmUp: 50,
      chains: 2,
      mostDoublings: 0,
      onProgress: ({ sweepsDone, sweepsTotal }) => {
        expect(sweepsTotal).toBe(200);
        seen.push(sweepsDone);
      },
    });
    expect(seen).toEqual([25, 50, 75, 100, 125, 150, 175, 200]);
    let pauses = 0;
    const run = sampleRoots(log, {
      pause: () => Promise.resolve(void (pauses += 1)),
      cancelled: () => pauses >= 3,
    });
    await expect(run).rejects.toThrow('cancelled');
    expect(pauses).toBe(3);
  });

  test('gives no NaN on the edges', async () => {
    const concepts = [
      { id: 'a', systems: ['s'], restsOn: [] },
      { id: 'b', systems: ['s'], restsOn: [{ id: 'a' }] },
    ];
    const item = (id: string, missed: boolean, topics: string[]) => ({
      id,
      at: 0,
      missed,
      topics,
      causes: [],
    });
    const base = { now: 0, concepts, items: [], unitemised: [], readings: [] };
    const logs: TraceLog[] = [
      { ...base, concepts: [] },
      base,
      { ...base, items: [item('1', false, ['a'])] },
      { ...base, items: [item('1', true, ['b'])] },
      { ...base, items: [item('1', true, [])] },
      { ...base, items: Array.from({ length: 50 }, (_, i) => item(`${i}`, true, ['b'])) },
      { ...base, unitemised: [{ at: 0, right: 9, missed: 4 }] },
    ];
    for (const each of logs) {
      const result = await sampleRoots(each, { sweeps: 8, warmUp: 4, chains: 2 });
      const numbers = (value: unknown): number[] =>
        typeof value === 'number'
          ? [value]
          : value !== null && typeof value === 'object'
            ? Object.values(value).flatMap(numbers)
            : [];
      expect(numbers(result).every(Number.isFinite)).toBe(true);
      expect(result.roots).toHaveLength(each.concepts.length);
      expect(
        result.missChance({ topics: each.concepts.map((concept) => concept.id) }),
      ).toBeLessThanOrEqual(1);
    }
  });

  test('names an option out of range', async () => {
    await expect(sampleRoots(log, { sweeps: 2 })).rejects.toThrow('sweeps = 2');
    await expect(sampleRoots(log, { chains: 0 })).rejects.toThrow('chains = 0');
    await expect(sampleRoots(log, { seed: NaN })).rejects.toThrow('seed = NaN');
  });
});
