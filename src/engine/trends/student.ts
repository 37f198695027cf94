/** Student's t by way of the incomplete beta function (Abramowitz & Stegun 26.7.1). */
import { requirePositive } from '../numeric/check';
import { betaQuantile, incompleteBeta } from '../numeric/incomplete-beta';

/** Chance of a t at least this far from 0 on either side. @param freedom above 0 */
export function twoSidedChance(t: number, freedom: number): number {
  requirePositive('twoSidedChance', 'freedom', freedom);
  return incompleteBeta(freedom / (freedom + t * t), freedom / 2, 0.5);
}

/** How far from 0 a t stays with the given chance on both sides together. `tWithin(0.95, 10)` is 2.228. */
export function tWithin(chance: number, freedom: number): number {
  requirePositive('tWithin', 'freedom', freedom);
  const x = betaQuantile(1 - chance, freedom / 2, 0.5);
  return Math.sqrt((freedom * (1 - x)) / x);
}
