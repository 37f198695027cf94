/** Small draws that all parts of the generator share. */
import { drawNormal } from './normal';
import type { Random } from './random';

/** One of a list, each as likely. @throws {RangeError} for an empty list */
export function choose<T>(values: readonly T[], random: Random): T {
  const value = values[Math.floor(random.uniform() * values.length)];
  if (value === undefined) throw new RangeError('choose: got an empty list; need at least one');
  return value;
}

/** One of a list, by its `share`; the shares need not add to 1. */
export function chooseByShare<T extends { readonly share: number }>(
  values: readonly T[],
  random: Random,
): T {
  let left = random.uniform() * values.reduce((sum, { share }) => sum + share, 0);
  for (const value of values) {
    left -= value.share;
    if (left < 0) return value;
  }
  return choose(values, random);
}

/** A normal draw, rounded to whole minutes and kept within a day. */
export function minutesAbout(mean: number, spread: number, random: Random): number {
  const drawn = Math.round(mean + spread * drawNormal(random));
  return Math.min(1_439, Math.max(0, drawn));
}

/** From `first` to `last` as `share` goes from 0 to 1. */
export function between(
  { first, last }: { readonly first: number; readonly last: number },
  share: number,
): number {
  return first + (last - first) * share;
}
