import { describe, expect, it } from 'vitest';
import {
  averagePrecision,
  normalisedGain,
  precisionAt,
  rankedByScore,
} from '../../../../bench/roots/metrics/ranking';

describe('ranking metrics', () => {
  it('count the relevant among the first places, however few there are', () => {
    expect(precisionAt([true, false, true, true], 3)).toBeCloseTo(2 / 3, 12);
    expect(precisionAt([true], 10)).toBe(0.1);
  });

  it('are 1 for the best order, and NaN where there is nothing to find', () => {
    expect(normalisedGain([5, 2.5, 1, 0], 2)).toBe(1);
    expect(averagePrecision([true, true, false])).toBe(1);
    expect(normalisedGain([0, 0], 2)).toBeNaN();
    expect(averagePrecision([false, false])).toBeNaN();
  });

  it('average the precision at each hit, by hand', () => {
    expect(averagePrecision([true, false, true, false])).toBeCloseTo(5 / 6, 12);
  });
});

describe('the ranking by score', () => {
  it('puts the largest first and breaks ties by the given order', () => {
    expect(rankedByScore([2, 7, 2, 5], [3, 0, 1, 2])).toEqual([1, 3, 2, 0]);
  });

  it('keeps endless scores apart from NaN, which it refuses by place', () => {
    const scores = [Number.NEGATIVE_INFINITY, 1, Number.NEGATIVE_INFINITY];
    expect(rankedByScore(scores, [0, 1, 2])).toEqual([1, 0, 2]);
    expect(() => rankedByScore([1, Number.NaN], [0, 1])).toThrow('score 1');
  });
});
