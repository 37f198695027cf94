import { describe, expect, test } from 'vitest';
import type { TraceItem, TraceLog } from '../../../../src/engine/index';
import { randomFrom } from '../../../../src/engine/numeric/random';
import { compileLog } from '../../../../src/engine/roots/compile';
import { defaultParameters } from '../../../../src/engine/roots/parameters';
import { rightShares } from '../../../../src/engine/roots/popularity';

const item = (id: string, missed: boolean, topic: string): TraceItem => ({
  id,
  at: 0,
  missed,
  topics: [topic],
  causes: [],
});

/** Three leaves, one deep concept; 4 misses on a, 1 on b; 95 right known by count. */
const log: TraceLog = {
  now: 0,
  concepts: [
    { id: 'a', systems: [], restsOn: [{ id: 'deep', strength: 0.5 }] },
    { id: 'b', systems: [], restsOn: [] },
    { id: 'c', systems: [], restsOn: [] },
    { id: 'deep', systems: [], restsOn: [] },
  ],
  items: [...['1', '2', '3', '4'].map((id) => item(id, true, 'a')), item('5', true, 'b')],
  unitemised: [{ at: 0, right: 95, missed: 0 }],
  readings: [],
};

function sharesById(rate: number[], slipRate: number, seed?: number): Map<string, number> {
  const compiled = compileLog(log, {}, defaultParameters);
  const random = seed === undefined ? undefined : randomFrom(seed);
  const shares = rightShares(compiled, Float64Array.from(rate), slipRate, random)[0]!;
  const { sets } = compiled.counted[0]!;
  const idOf = new Map<number, string>();
  compiled.topicSets.ofConcept.forEach((set, c) => idOf.set(set, compiled.graph.ids[c]!));
  return new Map(Array.from(sets, (set, k) => [idOf.get(set)!, shares[k]!]));
}

describe('rightShares', () => {
  test('agrees with the integral over Zipf’s law, worked out on a fine mesh', () => {
    const shares = sharesById([0.6, 0.02, 0.02, 0.4], 0.1);
    // 100 items over 3 leaves: density x^-2 between `least` and 3 times that, with mean 100 / 3.
    const leaves = 3;
    const least = ((100 / leaves) * (leaves - 1)) / (leaves * Math.log(leaves));
    // All misses are itemised and no right one is, so an item is seen with its chance of a miss.
    const items = (seen: number, missed: number) => {
      let mass = 0;
      let mean = 0;
      const steps = 20_000;
      for (let i = 0; i < steps; i++) {
        const x = least + ((i + 0.5) * least * (leaves - 1)) / steps;
        const density = x ** (missed - 2) * Math.exp(-x * seen);
        mass += density;
        mean += density * x;
      }
      return mean / mass;
    };
    // A miss on a: 1 - exp(-0.1 - 0.6 - 0.5 * 0.4), on the others 1 - exp(-0.12).
    const ofA = items(1 - Math.exp(-0.9), 4) * Math.exp(-0.9);
    const ofB = items(1 - Math.exp(-0.12), 1) * Math.exp(-0.12);
    const ofC = items(1 - Math.exp(-0.12), 0) * Math.exp(-0.12);
    const total = ofA + ofB + ofC;
    // The method's own grid has 24 points, ends counted whole: a few parts in a hundred.
    expect(Math.abs((shares.get('a') ?? NaN) - ofA / total)).toBeLessThan(0.02);
    expect(Math.abs((shares.get('b') ?? NaN) - ofB / total)).toBeLessThan(0.02);
    expect(Math.abs((shares.get('c') ?? NaN) - ofC / total)).toBeLessThan(0.02);
  });

  test('draws scatter about the expected shares and add to 1', () => {
    const rate = [0.6, 0.02, 0.02, 0.4];
    const sums = new Map<string, number>();
    const draws = 2_000;
    for (let k = 0; k < draws; k++) {
      const shares = sharesById(rate, 0.1, 900 + k);
      let total = 0;
      for (const [id, share] of shares) {
        total += share;
        sums.set(id, (sums.get(id) ?? 0) + share / draws);
      }
      expect(total).toBeCloseTo(1, 12);
    }
    const expected = sharesById(rate, 0.1);
    // The mean of a ratio is not the ratio of means: what is asked is that they are near.
    for (const [id, share] of expected) expect(Math.abs(sums.get(id)! - share)).toBeLessThan(0.06);
  });

  test('the more surely a topic is missed, the fewer right items lie on it for its misses', () => {
    const mild = sharesById([0.05, 0.02, 0.02, 0.02], 0.1).get('a')!;
    const bad = sharesById([1.5, 0.02, 0.02, 0.02], 0.1).get('a')!;
    expect(bad).toBeLessThan(mild / 3);
  });
});
