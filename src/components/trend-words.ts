import { oneDigitText } from './locale';
import { texts } from './texts';

/**
 * How the last four weeks of a root stand to the four before, and whether that could be chance.
 *
 * @param change traced misses in 100 exposures, now less before
 * @param interval its 90 % interval
 */
export function trendWords(change: number, [low, high]: readonly [number, number]): string {
  const size = texts.trendWords.tracedMissesIn100Times(
    oneDigitText(Math.abs(change)),
    change > 0 ? texts.trendWords.more : texts.trendWords.fewer,
  );
  const chance = low <= 0 && high >= 0 ? texts.trendWords.whichCouldBeChance : '';
  return texts.trendWords.againstTheFourWeeksBefore(size, chance);
}
