/** Readings in words. */
import { oneDigitText, wholeText } from '../../components/locale';
import type { SinceThen } from '../../engine';
import type { Reading } from '../../model/study';
import type { ReadingSince } from '../../state/reading-plan';

/** Source and place in it: "Own script, ch. 4". */
export function placeText(reading: Reading): string {
  return [reading.source, reading.locator].filter((part) => part !== '').join(', ');
}

/** "25 min", "1 h 10 min". */
export function minutesText(minutes: number): string {
  const whole = Math.max(1, Math.round(minutes));
  if (whole < 60) return `${whole} min`;
  const hours = Math.floor(whole / 60);
  return whole % 60 === 0 ? `${hours} h` : `${hours} h ${whole % 60} min`;
}

/** A number of misses in 100 items: "0.8", "under 0.1". */
export function missesText(misses: number): string {
  return misses > 0 && misses < 0.1 ? `under ${oneDigitText(0.1)}` : oneDigitText(misses);
}

/** What the misses did since a reading, with how much could be luck. */
export function sinceText({
  since,
  missesBefore,
  itemsBefore,
  missesSince,
  itemsSince,
}: ReadingSince): string {
  if (itemsSince === 0) return 'No items were answered since, so there is nothing to compare yet.';
  const counts = `${wholeText(missesSince)} in ${wholeText(itemsSince)} items since, ${wholeText(missesBefore)} in ${wholeText(itemsBefore)} in the eight weeks before`;
  if (!since) return `${counts}: nothing to compare.`;
  return `${counts}. ${verdictText(since)}`;
}

function verdictText({ verdict, ratioInterval: [low, high] }: SinceThen): string {
  const range =
    high === Infinity
      ? `at least ${oneDigitText(low)} times as often as before`
      : `${oneDigitText(low)} to ${oneDigitText(high)} times as often as before`;
  switch (verdict) {
    case 'fewer':
      return `Fewer, beyond what luck explains: ${range} (90% interval).`;
    case 'more':
      return `More, beyond what luck explains: ${range} (90% interval). Read it again, or look for what lies beneath.`;
    case 'could be luck':
      return `That could be luck: ${range} (90% interval).`;
  }
}
