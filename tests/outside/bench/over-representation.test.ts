/** Hypergeometric tails and Benjamini-Hochberg against published worked examples. */
import { describe, expect, it } from 'vitest';
import {
  adjustedPValues,
  hypergeometricUpperTail,
  logFactorials,
} from '../../bench/roots/peers/over-representation';

const logs = logFactorials(30_000);

describe('the hypergeometric upper tail', () => {
  it('is 17/70 for three of four cups (Fisher 1935, ch. II; Agresti 1990)', () => {
    expect(hypergeometricUpperTail(3, 8, 4, 4, logs)).toBeCloseTo(17 / 70, 12);
    expect(hypergeometricUpperTail(4, 8, 4, 4, logs)).toBeCloseTo(1 / 70, 12);
    expect(hypergeometricUpperTail(0, 8, 4, 4, logs)).toBeCloseTo(1, 12);
  });

  it("is that of Fisher's twins: convictions among 13 monozygotic of 30 (R fisher.test help)", () => {
    // [[2, 15], [10, 3]]: at least 10 of the 12 convicted among the 13; one-sided p.
    expect(hypergeometricUpperTail(10, 30, 12, 13, logs)).toBeCloseTo(0.0004651809434, 12);
  });

  it('adds up the published point chances of 12 drawn from 20 with 7 marked (SciPy manual)', () => {
    const points = [
      0.0001031991744, 0.004334365325, 0.04767801858, 0.1986584107, 0.3575851393, 0.2860681115,
      0.09535603715, 0.01021671827,
    ];
    points.forEach((_, k) => {
      const tail = points.slice(k).reduce((a, b) => a + b, 0);
      // Eight terms printed to ten digits each.
      expect(Math.abs(hypergeometricUpperTail(k, 20, 7, 12, logs) - tail)).toBeLessThan(1e-9);
    });
  });

  it('tells the readings of the pathway example apart (Hosack 2003; Huang 2009; recomputed)', () => {
    expect(hypergeometricUpperTail(3, 30_000, 40, 300, logs)).toBeCloseTo(0.0074425330818, 10);
    expect(hypergeometricUpperTail(2, 29_999, 39, 299, logs)).toBeCloseTo(0.0576320559436, 10);
  });
});

describe('Benjamini-Hochberg', () => {
  /** Benjamini & Hochberg (1995), JRSS B 57:289-300; adjusted values by R p.adjust. */
  const pValues = [
    0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719,
    0.6528, 0.759, 1,
  ];
  const expected = [
    0.0015, 0.003, 0.0095, 0.035625, 0.0603, 0.0638571428571, 0.0638571428571, 0.0645, 0.0765,
    0.486, 0.581181818182, 0.714875, 0.753230769231, 0.813214285714, 1,
  ];

  it('adjusts the fifteen p-values of the paper, and rejects four', () => {
    const adjusted = adjustedPValues(pValues);
    adjusted.forEach((value, index) => expect(value).toBeCloseTo(expected[index]!, 11));
    expect(adjusted.filter((value) => value <= 0.05).length).toBe(4);
  });

  it('does not depend on the order they come in', () => {
    const reversed = adjustedPValues(pValues.toReversed());
    reversed.forEach((value, index) => expect(value).toBeCloseTo(expected.at(-1 - index)!, 11));
  });

  it('steps up: a p-value above its own limit is rescued by a later one', () => {
    expect(adjustedPValues([0.04, 0.03])).toEqual([0.04, 0.04]);
  });

  it('has nothing to say about nothing', () => {
    expect(adjustedPValues([])).toEqual([]);
  });
});
