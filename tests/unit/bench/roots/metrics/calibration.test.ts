import { describe, expect, it } from 'vitest';
import {
  brierScore,
  coverageOf,
  reliabilityBins,
  worstCalibration,
} from '../../../../bench/roots/metrics/calibration';

describe('the Brier score', () => {
  it('is the mean squared distance, by hand', () => {
    const forecasts = { stated: [0.8, 0.3, 1], cameTrue: [true, false, false] };
    expect(brierScore(forecasts)).toBeCloseTo((0.04 + 0.09 + 1) / 3, 12);
  });

  it('is 0 for certain and right, 1 for certain and wrong, 1/4 for a half throughout', () => {
    expect(brierScore({ stated: [1, 0], cameTrue: [true, false] })).toBe(0);
    expect(brierScore({ stated: [0, 1], cameTrue: [true, false] })).toBe(1);
    expect(brierScore({ stated: [0.5, 0.5, 0.5], cameTrue: [true, false, true] })).toBe(0.25);
  });
});

describe('reliability bins', () => {
  const stated = [0, 0.04, 0.1, 0.19, 0.5, 1];
  const cameTrue = [false, true, false, true, true, true];

  it('hold every forecast once, a bound in the upper bin, and 1 in the last', () => {
    const bins = reliabilityBins({ stated, cameTrue });
    expect(bins.map((bin) => bin.count)).toEqual([2, 2, 0, 0, 0, 1, 0, 0, 0, 1]);
    expect(bins[1]!.meanStated).toBeCloseTo(0.145, 12);
    expect(bins[1]!.shareTrue).toBe(0.5);
    expect(bins[2]!.shareTrue).toBeNaN();
  });

  it('name the worst distance among those with enough in them', () => {
    const bins = reliabilityBins({ stated, cameTrue });
    // Of the bins of two: |0.02 - 0.5| and |0.145 - 0.5|. Of all: |0.5 - 1| as well.
    expect(worstCalibration(bins, 2)).toBeCloseTo(0.48, 12);
    expect(worstCalibration(bins, 1)).toBeCloseTo(0.5, 12);
    expect(worstCalibration(bins, 3)).toBe(0);
  });
});

describe('coverage', () => {
  it('counts true values inside their interval, ends included, above and below it', () => {
    const intervals = [
      [0.1, 0.4],
      [0, 2],
      [1, 3],
      [1, 3],
      [5, 6],
      [2, 2],
    ] as const;
    const truths = [0.4, 2.1, 1, 0.9, 4, 2];
    expect(coverageOf(intervals, truths)).toEqual({ inside: 3, above: 1, below: 2 });
  });
});
