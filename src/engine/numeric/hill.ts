/** Hill numbers: how many equally common kinds would be as diverse. M. O. Hill (1973), Ecology 54:427-432. */
import { requireNonNegative } from './check';

/**
 * The Hill number of an order: (sum p^order)^(1 / (1 - order)), and the exponential
 * of the entropy (natural logarithm) at order 1. Zeros do not count.
 *
 * @param abundances at least 0; they need not sum to 1
 * @param order at least 0; Infinity gives 1 / the largest share
 * @returns 0 where nothing is there
 * @throws {RangeError} naming the entry that is negative or NaN
 *
 * @example
 * hillNumber([50, 30, 20], 1); // 2.80009407
 */
export function hillNumber(abundances: ArrayLike<number>, order: number): number {
  if (!(order >= 0)) throw new RangeError(`hillNumber: got order = ${order}; need at least 0`);
  let total = 0;
  let largest = 0;
  for (let i = 0; i < abundances.length; i++) {
    const abundance = abundances[i]!;
    requireNonNegative('hillNumber', `abundances[${i}]`, abundance);
    total += abundance;
    if (abundance > largest) largest = abundance;
  }
  if (total === 0) return 0;
  if (order === Infinity) return total / largest;
  // Near 1 the power form loses all its digits; the limit is off by less than 1e-9 here.
  const nearOne = Math.abs(order - 1) < 1e-9;
  let sum = 0;
  for (let i = 0; i < abundances.length; i++) {
    const share = abundances[i]! / total;
    if (share === 0) continue;
    sum += nearOne ? -share * Math.log(share) : Math.pow(share, order);
  }
  return nearOne ? Math.exp(sum) : Math.pow(sum, 1 / (1 - order));
}
