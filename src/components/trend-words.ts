import { oneDigitText } from './locale';

/**
 * How the last four weeks of a root stand to the four before, and whether that could be chance.
 *
 * @param change traced misses in 100 exposures, now less before
 * @param interval its 90 % interval
 */
export function trendWords(change: number, [low, high]: readonly [number, number]): string {
  const size = `${oneDigitText(Math.abs(change))} traced misses ${change > 0 ? 'more' : 'fewer'} in 100 times it was called on`;
  const chance = low <= 0 && high >= 0 ? ', which could be chance' : '';
  return `Against the four weeks before, the last four brought ${size}${chance}.`;
}
