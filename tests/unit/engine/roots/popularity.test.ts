import { describe, expect, test } from 'vitest';
import type { TraceItem, TraceLog } from '../../../../src/engine/index';
import { randomFrom } from '../../../../src/engine/numeric/random';
import { compileLog } from '../../../../src/engine/roots/compile';
import { defaultParameters } from '../../../../src/engine/roots/parameters';
import { popularityShape, rightShares } from '../../../../src/engine/roots/popularity';

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
  test('has its closed form, worked out by hand', () => {
    const shares = sharesById([0.6, 0.02, 0.02, 0.4], 0.1);
    // 100 items over 3 leaves; all misses are itemised and no right one is, so an item is seen
    // with its chance of a miss: 1 - exp(-0.1 - 0.6 - 0.5 * 0.4), and 1 - exp(-0.12).
    const items = (seen: number, missed: number) =>
      (popularityShape + missed) / (popularityShape / (100 / 3) + seen);
    const ofA = items(1 - Math.exp(-0.9), 4) * Math.exp(-0.9);
    const ofB = items(1 - Math.exp(-0.12), 1) * Math.exp(-0.12);
    const ofC = items(1 - Math.exp(-0.12), 0) * Math.exp(-0.12);
    const total = ofA + ofB + ofC;
    expect(shares.get('a')).toBeCloseTo(ofA / total, 12);
    expect(shares.get('b')).toBeCloseTo(ofB / total, 12);
    expect(shares.get('c')).toBeCloseTo(ofC / total, 12);
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
