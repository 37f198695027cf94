import { describe, expect, test } from 'vitest';
import { setPoint, startPoint, stepBeyond } from '../../../../src/engine/roots/aitken';

function pointAt(counts: readonly number[], logOdds = 0) {
  const point = startPoint(new Float64Array(3 * counts.length));
  setPoint(
    point,
    Float64Array.from(counts.flatMap((count) => [count, count / 2, 7])),
    0.1,
    1 / (1 + Math.exp(-logOdds)),
  );
  return point;
}

describe('stepBeyond', () => {
  test('goes the whole rest of a way that shrinks by the same part each pass, for each count its own', () => {
    // 8, 4, 2, ... ends at 0; 10 (1 - 0.8^n) = 0, 2, 3.6, ... ends at 10.
    const to = pointAt([2, 3.6], 0.25);
    stepBeyond(pointAt([8, 0], 1), pointAt([4, 2], 0.5), to);
    expect(to.counts[0]).toBeCloseTo(0, 12);
    expect(to.counts[1]).toBeCloseTo(0, 12);
    expect(to.counts[3]).toBeCloseTo(10, 12);
    expect(to.logOdds).toBeCloseTo(0, 12);
    // The third moment is left as the last pass gave it.
    expect(to.counts[2]).toBe(7);
  });

  test('ends what goes to and fro half way, and says that it does', () => {
    const to = pointAt([5]);
    expect(stepBeyond(pointAt([5]), pointAt([3]), to)).toBeCloseTo(-1, 12);
    expect(to.counts[0]).toBeCloseTo(4, 12);
  });

  test('goes eight changes on at most, four where they do not shrink, and never below 0', () => {
    const to = pointAt([1.95, 3, 0.1]);
    // By hand: ratio 0.95, which would be 19 changes; ratio 1; -0.9 and -1 from 2 to 0.1.
    expect(stepBeyond(pointAt([0, 1, 2]), pointAt([1, 2, 1.1]), to)).toBeGreaterThan(0.9);
    expect(to.counts[0]).toBeCloseTo(1.95 + 8 * 0.95, 12);
    expect(to.counts[3]).toBeCloseTo(3 + 4, 12);
    expect(to.counts[6]).toBe(0);
  });

  test('stays where nothing has changed', () => {
    const to = pointAt([3]);
    expect(stepBeyond(pointAt([3]), pointAt([3]), to)).toBe(0);
    expect(to.counts[0]).toBe(3);
  });

  test('moves what all rows hang on by a factor of e at most', () => {
    const to = pointAt([2], -4);
    stepBeyond(pointAt([8], 4), pointAt([4], 0), to);
    expect(to.logOdds).toBe(-1);
  });
});
