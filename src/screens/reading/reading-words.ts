/** Readings in words. */
import { oneDigitText, wholeText } from '../../components/locale';
import type { SinceThen } from '../../engine';
import type { Reading } from '../../model/study';
import type { ReadingSince } from '../../state/reading-plan';
import { texts } from './texts';

/** Source and place in it: "Own script, ch. 4". */
export function placeText(reading: Reading): string {
  return [reading.source, reading.locator].filter((part) => part !== '').join(', ');
}

/** "25 min", "1 h 10 min". */
export function minutesText(minutes: number): string {
  const whole = Math.max(1, Math.round(minutes));
  if (whole < 60) return texts.readingWords.min(whole);
  const hours = Math.floor(whole / 60);
  return whole % 60 === 0
    ? texts.readingWords.h(hours)
    : texts.readingWords.hMin(hours, whole % 60);
}

/** A number of misses in 100 items: "0.8", "under 0.1". */
export function missesText(misses: number): string {
  return misses > 0 && misses < 0.1
    ? texts.readingWords.under(oneDigitText(0.1))
    : oneDigitText(misses);
}

/** What the misses did since a reading, with how much could be luck. */
export function sinceText({
  since,
  missesBefore,
  itemsBefore,
  missesSince,
  itemsSince,
}: ReadingSince): string {
  if (itemsSince === 0) return texts.readingWords.noItemsWereAnsweredSince;
  const counts = texts.readingWords.inItemsSince(
    wholeText(missesSince),
    wholeText(itemsSince),
    wholeText(missesBefore),
    wholeText(itemsBefore),
  );
  if (!since) return texts.readingWords.nothingToCompare(counts);
  return `${counts}. ${verdictText(since)}`;
}

function verdictText({ verdict, ratioInterval: [low, high] }: SinceThen): string {
  const range =
    high === Infinity
      ? texts.readingWords.atLeastTimesAsOften(oneDigitText(low))
      : texts.readingWords.toTimesAsOften(oneDigitText(low), oneDigitText(high));
  switch (verdict) {
    case 'fewer':
      return texts.readingWords.fewerBeyondWhatLuckExplains(range);
    case 'more':
      return texts.readingWords.moreBeyondWhatLuckExplains(range);
    case 'could be luck':
      return texts.readingWords.thatCouldBeLuck90(range);
  }
}
