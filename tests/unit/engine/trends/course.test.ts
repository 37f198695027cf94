/** Weeks, smoothing, pace, settled misses, expectations. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findIsoDay } from '../../../../src/model/time';
import { randomFrom } from '../../../../src/engine/numeric/random';
import { wilsonInterval } from '../../../../src/engine/numeric/wilson';
import { calibrationBins, expectBlock } from '../../../../src/engine/trends/expected';
import { fadeOf, fifthOf, meanInterval } from '../../../../src/engine/trends/pace';
import { settledByWeek } from '../../../../src/engine/trends/settled';
import { chooseWidth, smoothShares } from '../../../../src/engine/trends/smooth';
import { accuracyByWeek, mondayOf, weekOf } from '../../../../src/engine/trends/weeks';

describe('weeks', () => {
  it('begin on Monday', () => {
    // 2 March 2026 is a Monday (any calendar).
    const monday = findIsoDay('2026-03-02')!;
    expect(weekOf(monday - 1)).toBe(weekOf(monday) - 1);
    expect(weekOf(monday + 6)).toBe(weekOf(monday));
    expect(mondayOf(weekOf(monday + 3))).toBe(monday);
  });

  it('add their blocks, with the interval of Wilson, and skip weeks without items', () => {
    const found = accuracyByWeek([
      { day: 30, items: 40, right: 28 },
      { day: 4, items: 200, right: 50 },
      { day: 5, items: 63, right: 31 },
      { day: 12, items: 0, right: 0 },
    ]);
    expect(found.map(({ week, right, items }) => [week, right, items])).toEqual([
      [1, 81, 263],
      [4, 28, 40],
    ]);
    // Newcombe 1998, Table I: 81/263.
    expect(found[0]!.interval[0]).toBeCloseTo(0.2553, 4);
    expect(found[0]!.interval[1]).toBeCloseTo(0.3662, 4);
    expect(() => accuracyByWeek([{ day: 1, items: 1.5, right: 1 }])).toThrow(/counts\[0\]\.items/);
  });
});

describe('smoothShares', () => {
  const weeks = (shares: number[], items = 80) =>
    shares.map((share, week) => ({ week, items, right: Math.round(share * items) }));

  it('leaves a steady share as it is, and stays within what was seen', () => {
    for (const { share } of smoothShares(weeks([0.5, 0.5, 0.5, 0.5]), 2))
      expect(share).toBeCloseTo(0.5, 12);
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 20 }), { minLength: 2, maxLength: 15 }),
        fc.constantFrom(1, 3, 9),
        (right, width) => {
          const counts = right.map((each, week) => ({ week: week * 2, items: 20, right: each }));
          const smooth = smoothShares(counts, width);
          expect(smooth).toHaveLength(2 * right.length - 1);
          for (const { share, low, high } of smooth) {
            expect(share).toBeGreaterThanOrEqual(Math.min(...right) / 20 - 1e-12);
            expect(share).toBeLessThanOrEqual(Math.max(...right) / 20 + 1e-12);
            expect(low).toBeLessThanOrEqual(share + 1e-12);
            expect(high).toBeGreaterThanOrEqual(share - 1e-12);
          }
        },
      ),
      { seed: 4, numRuns: 50 },
    );
  });

  it('is the weighted mean, by hand', () => {
    // Weight exp(-1/2) on the neighbour: (20 + 10 e^-.5) / (40 + 40 e^-.5).
    const [first] = smoothShares(
      [
        { week: 0, items: 40, right: 20 },
        { week: 1, items: 40, right: 10 },
      ],
      1,
    );
    const neighbour = Math.exp(-0.5);
    expect(first?.share).toBeCloseTo((20 + 10 * neighbour) / (40 + 40 * neighbour), 12);
    // Its band is Wilson's at as many items as have the same spread: (sum of w)^2 / sum of w^2.
    const worth = (40 * (1 + neighbour) ** 2) / (1 + neighbour ** 2);
    const [low, high] = wilsonInterval(first!.share * worth, worth);
    expect(first?.low).toBeCloseTo(low, 12);
    expect(first?.high).toBeCloseTo(high, 12);
  });

  it('smooths noise widely and a jump narrowly', () => {
    const random = randomFrom(3);
    const noise = Array.from({ length: 30 }, () => 0.6 + 0.08 * (random.uniform() - 0.5));
    expect(chooseWidth(weeks(noise))).toBeGreaterThanOrEqual(9);
    const jump = noise.map((share, week) => (week < 15 ? share - 0.25 : share + 0.25));
    expect(chooseWidth(weeks(jump, 400))).toBeLessThanOrEqual(1.5);
  });

  it('is empty without weeks', () => {
    expect(smoothShares([], 2)).toEqual([]);
  });
});

describe('pace', () => {
  it('gives a mean with an interval, and none for a single number', () => {
    expect(meanInterval([])).toBeUndefined();
    expect(meanInterval([90])).toEqual({ count: 1, mean: 90, interval: undefined });
    // 80, 90, 100: standard error 10 / sqrt 3, t of 2 degrees 4.303 (from memory of any table).
    const [low, high] = meanInterval([80, 90, 100])!.interval!;
    expect(high - low).toBeCloseTo((2 * 4.303 * 10) / Math.sqrt(3), 2);
  });

  it('cuts every block into fifths of its own length', () => {
    expect([1, 8, 9, 40].map((place) => fifthOf(place, 40))).toEqual([0, 0, 1, 4]);
    expect([1, 2, 3].map((place) => fifthOf(place, 3))).toEqual([0, 1, 3]);
    const fade = fadeOf([
      { items: 40, missedAt: [1, 39, 40] },
      { items: 10, missedAt: [10] },
    ]);
    expect(fade.map(({ right, items }) => [right, items])).toEqual([
      [9, 10],
      [10, 10],
      [10, 10],
      [10, 10],
      [7, 10],
    ]);
  });
});

describe('settledByWeek', () => {
  it('counts a miss as settled while its latest look was had', () => {
    const look = (item: string, day: number, had: boolean, at = day) => ({ item, day, at, had });
    const found = settledByWeek(
      [
        { id: 'a', day: 4 },
        { id: 'b', day: 5 },
        { id: 'c', day: 20 },
      ],
      [
        look('a', 12, true),
        look('b', 12, true, 11),
        look('b', 12, false, 13),
        look('a', 26, false),
        look('gone', 40, true),
      ],
    );
    expect(found.map(({ settled, open }) => [settled, open])).toEqual([
      [0, 2],
      [1, 1],
      [1, 2],
      [0, 3],
    ]);
    expect(settledByWeek([], [])).toEqual([]);
  });

  it('always adds up to the misses so far', () => {
    const day = fc.integer({ min: 0, max: 60 });
    fc.assert(
      fc.property(
        fc.array(day, { minLength: 1, maxLength: 8 }),
        fc.array(
          fc.record({
            item: fc.integer({ min: 0, max: 9 }).map(String),
            day,
            at: fc.nat(),
            had: fc.boolean(),
          }),
          { maxLength: 20 },
        ),
        (days, looks) => {
          const misses = days.map((each, i) => ({ id: String(i), day: each }));
          for (const { week, settled, open } of settledByWeek(misses, looks)) {
            expect(settled).toBeGreaterThanOrEqual(0);
            expect(settled + open).toBe(days.filter((each) => weekOf(each) <= week).length);
          }
        },
      ),
      { seed: 6, numRuns: 100 },
    );
  });
});

describe('expectBlock', () => {
  const msPerDay = 86_400_000;
  const block = (days: number, error: number) => ({
    madeAt: 0,
    at: days * msPerDay,
    items: 100,
    right: 70 + 100 * error,
    expectedRight: 70,
  });

  it('adds the errors that earlier predictions made', () => {
    // Nineteen errors of -9 to +9 points: 90 % runs from the least to the greatest.
    const past = Array.from({ length: 19 }, (_, i) => block(3, (i - 9) / 100));
    const found = expectBlock(0.7, past, 0);
    expect(found.interval![0]).toBeCloseTo(0.61, 12);
    expect(found.interval![1]).toBeCloseTo(0.79, 12);
    expect(found).toMatchObject({ errors: 19, reachDays: undefined });
    expect(found.bias).toBeCloseTo(0, 12);
  });

  it('uses errors of the same reach, and says when none reached so far', () => {
    const near = Array.from({ length: 20 }, () => block(3, 0.01));
    const far = Array.from({ length: 20 }, () => block(60, -0.2));
    expect(expectBlock(0.7, [...near, ...far], 50).bias).toBeCloseTo(-0.2, 12);
    expect(expectBlock(0.7, [...near, ...far], 200)).toMatchObject({ reachDays: 60 });
    expect(expectBlock(0.7, near.slice(0, 9), 0).interval).toBeUndefined();
  });

  it('leaves out blocks without items, and foretells no share below 0 or above 1', () => {
    const past = Array.from({ length: 12 }, (_, i) => block(3, (i - 6) / 20));
    const empty = { ...block(3, 0), items: 0, right: 0, expectedRight: 0 };
    expect(expectBlock(0.7, [...past, empty], 0)).toMatchObject({ errors: 12 });
    expect(expectBlock(0.95, past, 0).interval?.[1]).toBe(1);
    expect(expectBlock(0.1, past, 0).interval?.[0]).toBe(0);
  });

  it('holds a new block about nine times in ten', () => {
    const random = randomFrom(12);
    const error = () => 0.2 * (random.uniform() + random.uniform() - 1);
    let held = 0;
    const rounds = 1000;
    for (let round = 0; round < rounds; round++) {
      const past = Array.from({ length: 30 }, () => block(3, error()));
      const [low, high] = expectBlock(0.7, past, 0).interval!;
      const came = 0.7 + error();
      if (came >= low && came <= high) held += 1;
    }
    // At least 90 % of 1,000, up to two thirty-firsts more; four standard deviations (38) either way.
    expect(held).toBeGreaterThan(862);
    expect(held).toBeLessThan(990);
  });
});

describe('calibrationBins', () => {
  it('holds every item once, in order of what was foretold', () => {
    const items = Array.from({ length: 21 }, (_, i) => ({
      chance: ((i * 8) % 21) / 21,
      right: i % 3 === 0,
    }));
    const bins = calibrationBins(items, 4);
    expect(bins.map(({ items: count }) => count).reduce((sum, each) => sum + each, 0)).toBe(21);
    expect(bins.map(({ expected }) => expected)).toEqual(
      bins.map(({ expected }) => expected).toSorted((a, b) => a - b),
    );
    const right = bins.reduce((sum, bin) => sum + bin.share * bin.items, 0);
    expect(right).toBeCloseTo(7, 9);
    for (const { share, interval } of bins) {
      expect(interval[0]).toBeLessThanOrEqual(share);
      expect(interval[1]).toBeGreaterThanOrEqual(share);
    }
    expect(calibrationBins([], 4)).toEqual([]);
  });
});
