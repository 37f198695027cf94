import { describe, expect, test } from 'vitest';
import { betaQuantile, incompleteBeta } from '../../../../src/engine/numeric/incomplete-beta';
import { lowerGamma, upperGamma } from '../../../../src/engine/numeric/incomplete-gamma';
import { normalCdf, normalQuantile } from '../../../../src/engine/numeric/normal';

describe('incompleteBeta', () => {
  // Integer rows are exact binomial sums; the others recomputed with SciPy 1.17.1.
  test.each([
    [1 / 2, 2, 3, 11 / 16],
    [1 / 4, 2, 2, 5 / 32],
    [3 / 10, 5, 3, 57591 / 2000000],
    [1 / 10, 1, 9, 0.612579511],
    [4 / 5, 7, 2, 196608 / 390625],
    [9 / 10, 20, 3, 0.620040938411903],
    [1 / 4, 0.5, 0.5, 1 / 3],
    [0.01, 0.5, 5, 0.242841890898437],
    [0.2, 1.4, 8.6, 0.758078930140411],
    [0.223, 5.4, 18.6, 0.526728450957078],
    [0.5, 50, 50, 0.5],
    [0.42, 200.5, 300.25, 0.81495680153291],
  ])('of %d, %d, %d has its published value', (x, a, b, expected) => {
    expect(incompleteBeta(x, a, b)).toBeCloseTo(expected, 12);
  });

  test('is its own mirror image', () => {
    for (let x = 0.01; x < 1; x += 0.07)
      expect(incompleteBeta(x, 2.3, 7.1) + incompleteBeta(1 - x, 7.1, 2.3)).toBeCloseTo(1, 13);
  });

  test('has the published quantiles', () => {
    expect(betaQuantile(0.025, 2, 3)).toBeCloseTo(0.0675859864885, 12);
    expect(betaQuantile(0.975, 2, 3)).toBeCloseTo(0.805879550317, 12);
    expect(betaQuantile(0.025, 5.5, 15.5)).toBeCloseTo(0.102398485683, 12);
    expect(betaQuantile(0.975, 5.5, 15.5)).toBeCloseTo(0.464194629241, 12);
    expect(betaQuantile(0.975, 0.5, 20.5)).toBeCloseTo(0.116638982905, 12);
  });

  test('is NaN for arguments out of range', () => {
    expect(incompleteBeta(1.1, 2, 3)).toBeNaN();
    expect(incompleteBeta(0.5, 0, 3)).toBeNaN();
    expect(betaQuantile(-0.1, 2, 3)).toBeNaN();
  });
});

describe('lowerGamma', () => {
  test('is the closed form for whole shapes', () => {
    // P(k, x) = 1 - exp(-x) * sum over j < k of x^j / j!
    for (const k of [1, 2, 3, 7]) {
      for (const x of [0.01, 0.5, 1.7, 4, 9, 20]) {
        let term = 1;
        let sum = 0;
        for (let j = 0; j < k; j++) {
          sum += term;
          term *= x / (j + 1);
        }
        expect(lowerGamma(k, x)).toBeCloseTo(1 - Math.exp(-x) * sum, 13);
      }
    }
  });

  test('and upperGamma make one', () => {
    for (const shape of [0.2, 1.5, 40, 900])
      for (const x of [0.1, 1, 30, 850, 1000])
        expect(lowerGamma(shape, x) + upperGamma(shape, x)).toBeCloseTo(1, 13);
  });
});

describe('the normal distribution', () => {
  test('has the published quantiles', () => {
    const published = [
      [0.9, 1.281551565545],
      [0.95, 1.644853626951],
      [0.975, 1.95996398454],
      [0.99, 2.326347874041],
      [0.995, 2.575829303549],
    ] as const;
    for (const [p, z] of published) expect(normalQuantile(p)).toBeCloseTo(z, 11);
  });

  test('has the published chances', () => {
    expect(normalCdf(1)).toBeCloseTo(0.841344746069, 12);
    expect(normalCdf(1.96)).toBeCloseTo(0.975002104852, 12);
  });

  test('quantile and chance undo each other out to the far tail', () => {
    for (const p of [1e-300, 1e-30, 1e-9, 0.001, 0.074, 0.076, 0.3, 0.5]) {
      expect(Math.abs(normalCdf(normalQuantile(p)) / p - 1)).toBeLessThan(1e-11);
      expect(normalQuantile(1 - 0.25)).toBeCloseTo(-normalQuantile(0.25), 14);
    }
  });

  test('ends in infinity and is NaN beyond', () => {
    expect(normalQuantile(0)).toBe(-Infinity);
    expect(normalQuantile(1)).toBe(Infinity);
    expect(normalQuantile(1.01)).toBeNaN();
  });
});
