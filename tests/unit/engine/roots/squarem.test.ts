import { describe, expect, test } from 'vitest';
import { setPoint, startPoint, stepBeyond } from '../../../../src/engine/roots/squarem';

/** x -> 10 + 0.9 (x - 10): every pass leaves nine tenths of the way to 10. */
const pass = (x: number): number => 10 + 0.9 * (x - 10);

function pointAt(x: number, logOdds: number) {
  const point = startPoint(new Float64Array(3));
  setPoint(point, Float64Array.of(x, x / 2, 7), 0.1, 1 / (1 + Math.exp(-logOdds)));
  return point;
}

describe('stepBeyond', () => {
  test('goes the whole rest of a way that shrinks by a half each pass', () => {
    // 8, 4, 2, ... ends at 0, a step of length 2 beyond.
    const to = pointAt(2, 0.25);
    stepBeyond(pointAt(8, 1), pointAt(4, 0.5), to);
    expect(to.counts[0]).toBeCloseTo(0, 12);
    expect(to.logOdds).toBeCloseTo(0, 12);
    // The third moment is left as the last pass gave it.
    expect(to.counts[2]).toBe(7);
  });

  test('goes at most eight steps at once, and never below an expected count of 0', () => {
    const [x0, x1, x2] = [1, pass(1), pass(pass(1))];
    const to = pointAt(x2, 0);
    stepBeyond(pointAt(x0, 0), pointAt(x1, 0), to);
    // By hand: r = 0.9, v = -0.09, length 8: 1 + 16 * 0.9 - 64 * 0.09.
    expect(to.counts[0]).toBeCloseTo(9.64, 12);
    const down = pointAt(0.1, 0);
    stepBeyond(pointAt(0.3, 0), pointAt(0.19, 0), down);
    expect(down.counts[0]).toBe(0);
  });

  test('stays where nothing bends', () => {
    const to = pointAt(3, 0);
    stepBeyond(pointAt(1, 0), pointAt(2, 0), to);
    expect(to.counts[0]).toBe(3);
  });

  test('moves what all rows hang on by a factor of e at most', () => {
    const to = pointAt(2, -4);
    stepBeyond(pointAt(8, 4), pointAt(4, 0), to);
    expect(to.logOdds).toBe(-1);
  });
});
