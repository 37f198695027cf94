import { describe, expect, it } from 'vitest';
import type { Score } from '../../../bench/roots/evaluate';
import { shareOfTheWay, summarise } from '../../../bench/roots/summary';

function scoreOf(value: number, more: Partial<Score> = {}): Score {
  return {
    seed: 1,
    gain: value,
    precision: value,
    averagePrecision: value,
    milliseconds: 1,
    settled: undefined,
    forecasts: undefined,
    gapCoverage: undefined,
    surfaceGapCoverage: undefined,
    deepGapCoverage: undefined,
    surfaceCoverage: undefined,
    called: undefined,
    falselyCalled: undefined,
    healedChance: undefined,
    ...more,
  };
}

describe('the share of the way', () => {
  const counting = [0.4, 0.6].map((value) => scoreOf(value));
  const ceiling = [0.8, 0.9].map((value) => scoreOf(value));

  it('is 0 for counting, 1 for the ceiling, and takes means before it divides', () => {
    expect(shareOfTheWay(counting, counting, ceiling).share).toBe(0);
    expect(shareOfTheWay(ceiling, counting, ceiling).share).toBe(1);
    const between = [0.5, 0.9].map((value) => scoreOf(value));
    // (.7 - .5) / (.85 - .5)
    expect(shareOfTheWay(between, counting, ceiling).share).toBeCloseTo(4 / 7, 12);
  });

  it('has the jackknife error, by hand for two candidates', () => {
    const between = [0.5, 0.9].map((value) => scoreOf(value));
    // Without the first: (.9 - .6) / .3 = 1; without the second: .1 / .4 = .25. Half their distance.
    expect(shareOfTheWay(between, counting, ceiling).shareError).toBeCloseTo(0.375, 12);
  });

  it('weighs the three scores alike', () => {
    const uneven = counting.map((score) => ({ ...score, gain: score.gain + 0.3 }));
    expect(shareOfTheWay(uneven, counting, ceiling).share).toBeCloseTo(0.1 / 0.35, 12);
  });

  it('is unknown without counting or the ceiling', () => {
    expect(shareOfTheWay(counting, undefined, ceiling).share).toBeNaN();
  });
});

describe('a summary', () => {
  it('pools forecasts and intervals over candidates, and takes the middle time', () => {
    const scores = [
      scoreOf(0.5, {
        milliseconds: 9,
        forecasts: { stated: [0.9, 0.2], cameTrue: [true, false] },
        gapCoverage: { inside: 2, above: 1, below: 0 },
        surfaceGapCoverage: { inside: 1, above: 1, below: 0 },
        settled: true,
        called: 1,
      }),
      scoreOf(0.7, {
        milliseconds: 2,
        forecasts: { stated: [0.4], cameTrue: [true] },
        gapCoverage: { inside: 3, above: 0, below: 2 },
        deepGapCoverage: { inside: 3, above: 0, below: 2 },
        settled: false,
        called: 4,
      }),
      scoreOf(0.6, {
        milliseconds: 4,
        surfaceGapCoverage: { inside: 1, above: 0, below: 0 },
        called: 1,
      }),
    ];
    const summary = summarise(scores, undefined, undefined);
    expect(summary.gain).toBeCloseTo(0.6, 12);
    expect(summary.brier).toBeCloseTo((0.01 + 0.04 + 0.36) / 3, 12);
    expect(summary.gapCoverage).toEqual({ inside: 5, above: 1, below: 2 });
    expect(summary.surfaceGapCoverage).toEqual({ inside: 2, above: 1, below: 0 });
    expect(summary.surfaceCoverage).toBeUndefined();
    expect(summary.settled).toEqual({ hits: 1, of: 2 });
    expect(summary.milliseconds).toBe(4);
    expect(summary.called).toBe(2);
    expect(summary.largestChance).toBe(0.9);
    // No bin holds 50.
    expect(summary.worstBin).toBe(0);
  });
});
