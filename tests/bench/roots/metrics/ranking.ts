/** How good a ranking is: cumulated gain, precision, average precision. */

/**
 * Discounted cumulated gain of the first `depth` places: sum of gain / log2(place + 1), places
 * from 1 (linear gain; for the discount of Jarvelin & Kekalainen 2002 see the unit test).
 *
 * @param gains shape (n,): gain at each place, best place first
 *
 * @example
 * discountedGain([3, 2], 10); // 3 + 2 / log2(3) = 4.2618595071
 */
export function discountedGain(
  gains: ArrayLike<number>,
  depth: number,
  divisor: (place: number) => number = (place) => Math.log2(place + 1),
): number {
  let sum = 0;
  for (let place = 1; place <= Math.min(depth, gains.length); place++) {
    sum += gains[place - 1]! / divisor(place);
  }
  return sum;
}

/**
 * Discounted gain as a share of the best order of the same gains, in [0, 1] for gains of at
 * least 0. NaN if no gain is above 0: there is nothing to find.
 */
export function normalisedGain(
  gains: ArrayLike<number>,
  depth: number,
  divisor?: (place: number) => number,
): number {
  const ideal = Array.from(gains).sort((a, b) => b - a);
  const best = discountedGain(ideal, depth, divisor);
  return best > 0 ? discountedGain(gains, depth, divisor) / best : Number.NaN;
}

/** Share of the first `depth` places that are relevant. */
export function precisionAt(relevant: readonly boolean[], depth: number): number {
  return relevant.slice(0, depth).filter(Boolean).length / depth;
}

/**
 * Mean, over the relevant entries, of the precision at their places (Croft, Metzler & Strohman
 * 2010, ch. 8). NaN if nothing is relevant.
 *
 * @example
 * averagePrecision([true, false, true, false]); // (1/1 + 2/3) / 2 = 0.8333
 */
export function averagePrecision(relevant: readonly boolean[]): number {
  let found = 0;
  let sum = 0;
  relevant.forEach((isRelevant, index) => {
    if (isRelevant) sum += ++found / (index + 1);
  });
  return found > 0 ? sum / found : Number.NaN;
}

/**
 * Indices, largest score first; equal scores in the order of `tieOrder`.
 *
 * Counts tie often in a short log. A tie order drawn at random (the same for every method) lets
 * no method gain from the numbering of the concepts.
 *
 * @param tieOrder shape (n,): a permutation; smaller goes first
 * @throws {RangeError} if a score is NaN
 */
export function rankedByScore(scores: ArrayLike<number>, tieOrder: readonly number[]): number[] {
  for (let index = 0; index < scores.length; index++) {
    if (Number.isNaN(scores[index])) {
      throw new RangeError(`rankedByScore: got NaN for score ${index}; need a number`);
    }
  }
  return Array.from({ length: scores.length }, (_, index) => index).sort((a, b) => {
    const [scoreA, scoreB] = [scores[a]!, scores[b]!];
    return scoreA === scoreB ? tieOrder[a]! - tieOrder[b]! : scoreA > scoreB ? -1 : 1;
  });
}
