/**
 * What the misses on some concepts did since a day: two rates compared, with how much could be luck.
 *
 * Both counts are taken as Poisson. Given their sum, the count since is binomial with chance
 * q = r n1 / (r n1 + n0), r the ratio of the rates and n the items answered; so an interval for q is
 * one for r (J. Przyborowski & H. Wilenski, 1940, Biometrika 31:313-323). The interval for q is
 * Jeffreys' (L. D. Brown, T. T. Cai & A. DasGupta, 2001, Statistical Science 16:101-133).
 */
import { betaQuantile } from '../numeric/incomplete-beta';
import { requireCount, requireNonNegative } from '../numeric/check';

export interface Sitting {
  readonly misses: number;
  /** Items answered in the time, of any topic. */
  readonly items: number;
}

export interface SinceThen {
  /** Misses in 100 items before and since. */
  readonly before: number;
  readonly since: number;
  /** Rate since over rate before, 90 % interval: from 0 to infinity. */
  readonly ratioInterval: readonly [number, number];
  /** The interval lies below 1, above 1, or holds it. */
  readonly verdict: 'fewer' | 'more' | 'could be luck';
}

/**
 * Compares the misses before and since.
 *
 * @returns undefined when nothing was answered on one side, or nothing missed on either: there is
 *   then nothing to compare
 * @throws {RangeError} for a negative or fractional count
 */
export function compareSince(before: Sitting, since: Sitting): SinceThen | undefined {
  for (const [name, sitting] of [
    ['before', before],
    ['since', since],
  ] as const) {
    requireCount('compareSince', `misses ${name}`, sitting.misses);
    requireNonNegative('compareSince', `items ${name}`, sitting.items);
  }
  if (before.items === 0 || since.items === 0 || before.misses + since.misses === 0)
    return undefined;
  const low = since.misses === 0 ? 0 : betaQuantile(0.05, since.misses + 0.5, before.misses + 0.5);
  const high =
    before.misses === 0 ? 1 : betaQuantile(0.95, since.misses + 0.5, before.misses + 0.5);
  const ratio = (q: number) => (q === 1 ? Infinity : (q / (1 - q)) * (before.items / since.items));
  const ratioInterval = [ratio(low), ratio(high)] as const;
  return {
    before: (100 * before.misses) / before.items,
    since: (100 * since.misses) / since.items,
    ratioInterval,
    verdict: ratioInterval[1] < 1 ? 'fewer' : ratioInterval[0] > 1 ? 'more' : 'could be luck',
  };
}
