/** Many tests at once: which to believe. */

/**
 * Adjusted p-values by the step-up method: those of at most q belong to a list of
 * which no more than the share q is expected to be chance.
 *
 * Source: Benjamini and Hochberg 1995, "Controlling the false discovery rate",
 * Journal of the Royal Statistical Society B 57, pp. 289-300. It holds for
 * independent tests and for such as are positively dependent.
 *
 * @param pValues those that were worked out, each in [0, 1]
 * @param testCount all tests made, at least as many; the others have p = 1
 * @returns in the order given
 *
 * @example
 * adjustForMany([0.01, 0.04], 2); // [0.02, 0.04]
 */
export function adjustForMany(
  pValues: readonly number[],
  testCount: number = pValues.length,
): readonly number[] {
  if (testCount < pValues.length)
    throw new RangeError(
      `adjustForMany: got ${testCount} tests; need at least the ${pValues.length} values given`,
    );
  const order = pValues.map((_, i) => i).sort((a, b) => pValues[b]! - pValues[a]!);
  const adjusted = new Array<number>(pValues.length).fill(1);
  let least = 1;
  order.forEach((i, k) => {
    const rank = pValues.length - k;
    least = Math.min(least, (pValues[i]! * testCount) / rank);
    adjusted[i] = least;
  });
  return adjusted;
}
