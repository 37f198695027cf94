/**
 * Several comparisons at once: the false discovery rate of Y. Benjamini & Y. Hochberg (1995),
 * JRSS B 57:289-300.
 */
import { requireProbability } from '../numeric/check';

/**
 * The adjusted chances, in the order given: comparison i stands at rate q when its value is at
 * most q.
 *
 * @param chances p-values in [0, 1]
 * @throws {RangeError} for one outside
 *
 * @example
 * adjustedChances([0.04, 0.03]); // [0.04, 0.04]
 */
export function adjustedChances(chances: readonly number[]): number[] {
  chances.forEach((p, i) => requireProbability('adjustedChances', `chances[${i}]`, p));
  const order = chances.map((_, i) => i).sort((i, j) => chances[j]! - chances[i]!);
  const adjusted = chances.map(() => 1);
  let least = 1;
  order.forEach((i, place) => {
    const rank = chances.length - place;
    least = Math.min(least, (chances[i]! * chances.length) / rank);
    adjusted[i] = least;
  });
  return adjusted;
}
