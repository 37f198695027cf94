/** The day in words. */
import { oneDigitText, plural, wholeText } from '../../components/locale';
import { clockText, type LocalDay } from '../../model/time';
import type { RootChange } from '../../state/today-facts';

/** "18:05 to 18:55"; past midnight the clock begins anew. */
export function slotText(from: number, until: number): string {
  const clock = (minutes: number) => clockText(Math.round(minutes) % 1_440);
  return `${clock(from)} to ${clock(until)}`;
}

/** "97 days to paper day", "The paper is tomorrow", "Paper day is today". */
export function countdownText(today: LocalDay, paperDay: LocalDay): string {
  const days = paperDay - today;
  if (days > 1) return `${plural(days, 'day')} to paper day`;
  if (days === 1) return 'The paper is tomorrow';
  if (days === 0) return 'Paper day is today';
  return `Paper day was ${plural(-days, 'day')} ago`;
}

/** Where the top root stood a week ago. */
export function changeText({ root, before }: RootChange): string {
  if (!before) return 'Nothing was traced to it a week ago.';
  const change = root.traced - before.traced;
  const place =
    before.place === 1
      ? 'It stood first a week ago too'
      : `A week ago it stood at ${wholeText(before.place)}`;
  if (Math.abs(change) < 0.05) return `${place}, with as many traced misses.`;
  return `${place}; its traced misses went ${change > 0 ? 'up' : 'down'} by ${oneDigitText(Math.abs(change))}.`;
}

export const slotNames: Readonly<Record<string, string>> = {
  review: 'Review misses',
  block: 'Block',
  'review-block': 'Review of that block',
  looks: 'Second looks',
  reading: 'Reading',
  rehearsal: 'Rehearse the recall sheet',
  pause: 'Pause',
};
