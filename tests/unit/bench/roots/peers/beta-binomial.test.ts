import { describe, expect, it } from 'vitest';
import {
  betaBinomialLogLikelihood,
  fitBetaBinomial,
  shrunkRate,
} from '../../../../bench/roots/peers/beta-binomial';

describe('the beta-binomial', () => {
  it('gives the closed-form chances of a = 2, b = 3 and five tries', () => {
    // 1/6, 5/21, 5/21, 4/21, 5/42, 1/21: exact fractions.
    const coefficients = [1, 5, 10, 10, 5, 1];
    const expected = [1 / 6, 5 / 21, 5 / 21, 4 / 21, 5 / 42, 1 / 21];
    expected.forEach((chance, events) => {
      const height = betaBinomialLogLikelihood([{ events, tries: 5 }], 2, 3);
      expect(coefficients[events]! * Math.exp(height)).toBeCloseTo(chance, 12);
    });
  });

  it('sums one logarithm for each event, other try and try, for groups of any size', () => {
    const groups = [
      { events: 5_321, tries: 9_000 },
      { events: 33, tries: 8_001 },
      { events: 0, tries: 64 },
    ];
    const rise = (count: number, x: number) => {
      let sum = 0;
      for (let j = 0; j < count; j++) sum += Math.log(x + j);
      return sum;
    };
    for (const [a, b] of [
      [2.5, 7],
      [0.01, 9_999],
    ] as const) {
      const expected = groups.reduce(
        (sum, { events, tries }) =>
          sum + rise(events, a) + rise(tries - events, b) - rise(tries, a + b),
        0,
      );
      const height = betaBinomialLogLikelihood(groups, a, b);
      expect(Math.abs(height / expected - 1)).toBeLessThan(1e-12);
    }
  });

  it('says that it did not settle where groups scatter less than chance', () => {
    const even = Array.from({ length: 12 }, () => ({ events: 5, tries: 20 }));
    const fit = fitBetaBinomial(even);
    expect(fit.converged).toBe(false);
    expect(fit.a / (fit.a + fit.b)).toBeCloseTo(0.25, 6);
  });

  it('is not moved by any small step from where it stopped', () => {
    const groups = [
      { events: 1, tries: 9 },
      { events: 6, tries: 11 },
      { events: 0, tries: 14 },
      { events: 12, tries: 15 },
      { events: 2, tries: 3 },
    ];
    const { a, b } = fitBetaBinomial(groups);
    const top = betaBinomialLogLikelihood(groups, a, b);
    for (const [factorA, factorB] of [
      [1.01, 1],
      [0.99, 1],
      [1, 1.01],
      [1, 0.99],
      [1.01, 1.01],
      [0.99, 1.01],
    ] as const) {
      expect(betaBinomialLogLikelihood(groups, a * factorA, b * factorB)).toBeLessThan(top);
    }
  });

  it('keeps a group with no tries at the mean', () => {
    expect(shrunkRate({ a: 3, b: 9 }, { events: 0, tries: 0 })).toBe(0.25);
  });

  it('refuses groups where nothing or everything happened', () => {
    expect(() => fitBetaBinomial([{ events: 0, tries: 7 }])).toThrow(RangeError);
    expect(() => fitBetaBinomial([{ events: 7, tries: 7 }])).toThrow('7 events in 7 tries');
  });
});
