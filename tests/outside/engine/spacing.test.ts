/** Gaps against the table of Cepeda et al. (2008), Psychological Science 19(11):1095-1102. */
import { describe, expect, it } from 'vitest';
import { bestFirstGapDays, interpolateLogLog } from '../../../src/engine/looks/gap';

describe('spacing', () => {
  it.each([
    [7, 1],
    [35, 11],
    [70, 21],
    [350, 21],
  ])('gives the gap observed to be best for a test %i days after: %i days', (days, gap) => {
    expect(bestFirstGapDays(days)).toBe(gap);
  });

  it('never shrinks as the test moves away', () => {
    let last = 0;
    for (let days = 1; days <= 400; days++) {
      const gap = bestFirstGapDays(days);
      expect(gap).toBeGreaterThanOrEqual(last);
      last = gap;
    }
  });

  // The paper's other row, 3, 8, 12, 27 days by interpolation; these values by NumPy, apart from us.
  it.each([
    [14, 4.576948],
    [21, 5.859899],
    [50, 9.856026],
    [90, 13.619924],
    [120, 15.744405],
    [180, 19.313076],
    [270, 23.690633],
  ])('interpolates on log-log axes: %i days', (days, gap) => {
    const row = [
      [7, 3],
      [35, 8],
      [70, 12],
      [350, 27],
    ] as const;
    // Six decimals were given.
    expect(interpolateLogLog(row, days)).toBeCloseTo(gap, 6);
  });
});
