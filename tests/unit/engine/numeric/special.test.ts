import { describe, expect, test } from 'vitest';
import { digamma, logGamma } from '../../../../src/engine/numeric/special';

/** Abramowitz & Stegun (1964) table 6.1; NIST DLMF 5.4; other digits recomputed with SciPy 1.17.1. */
const published: readonly (readonly [number, number, number])[] = [
  [0.1, 2.25271265173421, -10.4237549404111],
  [0.25, 1.28802252469808, -4.22745353337627],
  [1 / 3, 0.985420646927767, -3.13203378002081],
  [0.5, 0.5723649429247, -1.96351002602142],
  [1, 0, -0.577215664901533],
  [1.5, -0.120782237635245, 0.0364899739785765],
  [2, 0, 0.422784335098467],
  [3, 0.693147180559945, 0.922784335098467],
  [5, 3.17805383034795, 1.5061176684318],
  [10, 12.8018274800815, 2.25175258906672],
  [100, 359.134205369575, 4.60016185273809],
];

/** Relative 1e-12 as the table's digits allow, absolute near zero. */
function near(actual: number, expected: number): void {
  expect(Math.abs(actual - expected)).toBeLessThan(1e-12 * Math.max(1, Math.abs(expected)) + 1e-13);
}

describe('logGamma and digamma', () => {
  test.each(published)('have the published values at %d', (x, lnGamma, psi) => {
    near(logGamma(x), lnGamma);
    near(digamma(x), psi);
  });

  test('obey their recurrences', () => {
    for (let x = 0.003; x < 60; x = x * 1.37 + 0.001) {
      near(logGamma(x + 1), logGamma(x) + Math.log(x));
      near(digamma(x + 1), digamma(x) + 1 / x);
    }
  });

  test('digamma at -0.5 equals digamma at 1.5 by reflection', () => {
    near(digamma(-0.5), digamma(1.5));
  });

  test('say NaN or Infinity where they are not defined', () => {
    expect(logGamma(0)).toBe(Infinity);
    expect(logGamma(-1)).toBeNaN();
    expect(digamma(-3)).toBeNaN();
  });
});
