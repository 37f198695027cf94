/**
 * How long to wait before a first second look, by the time left to the paper.
 *
 * N. J. Cepeda, E. Vul, D. Rohrer, J. T. Wixted & H. Pashler (2008), "Spacing effects in learning: a
 * temporal ridgeline of optimal retention", Psychological Science 19(11):1095-1102: the gaps that gave
 * the best recall, as observed.
 */

/** [days to the test, best gap in days]. */
export const observedBestGaps: readonly (readonly [number, number])[] = [
  [7, 1],
  [35, 11],
  [70, 21],
  [350, 21],
];

/**
 * The best first gap for a test some days away: the observed row, interpolated on log-log axes; 1 day
 * below 7 days, 21 beyond 350. It never shrinks as the test moves away.
 *
 * @example
 * bestFirstGapDays(35); // 11
 */
export function bestFirstGapDays(daysToTest: number): number {
  return interpolateLogLog(observedBestGaps, daysToTest);
}

/**
 * The value of a table at x, straight between its points on log-log axes, level outside them.
 *
 * @param points at least one, x and y above 0, x rising
 *
 * @example
 * interpolateLogLog([[1, 1], [100, 100]], 10); // 10
 */
export function interpolateLogLog(
  points: readonly (readonly [number, number])[],
  x: number,
): number {
  const first = points[0]!;
  if (x <= first[0]) return first[1];
  for (let k = 1; k < points.length; k++) {
    const [x0, y0] = points[k - 1]!;
    const [x1, y1] = points[k]!;
    if (x > x1) continue;
    if (x === x1) return y1;
    const share = Math.log(x / x0) / Math.log(x1 / x0);
    return y0 * (y1 / y0) ** share;
  }
  return points.at(-1)![1];
}
