/** The day in words. */
import { oneDigitText, plural, wholeText } from '../../components/locale';
import { clockText, type LocalDay } from '../../model/time';
import type { RootChange } from '../../state/today-facts';
import { texts } from './texts';

/** "18:05 to 18:55"; past midnight the clock begins anew. */
export function slotText(from: number, until: number): string {
  const clock = (minutes: number) => clockText(Math.round(minutes) % 1_440);
  return texts.todayWords.startToEnd(clock(from), clock(until));
}

/** "97 days to paper day", "The paper is tomorrow", "Paper day is today". */
export function countdownText(today: LocalDay, paperDay: LocalDay): string {
  const days = paperDay - today;
  if (days > 1) return texts.todayWords.toPaperDay(plural(days, texts.todayWords.day));
  if (days === 1) return texts.todayWords.thePaperIsTomorrow;
  if (days === 0) return texts.todayWords.paperDayIsToday;
  return texts.todayWords.paperDayWasAgo(plural(-days, texts.todayWords.day));
}

/** Where the top root stood a week ago. */
export function changeText({ root, before }: RootChange): string {
  if (!before) return texts.todayWords.nothingWasTraced;
  const change = root.traced - before.traced;
  const place =
    before.place === 1
      ? texts.todayWords.itStoodFirstAWeek
      : texts.todayWords.aWeekAgoItStood(wholeText(before.place));
  if (Math.abs(change) < 0.05) return texts.todayWords.withAsManyTracedMisses(place);
  return texts.todayWords.itsTracedMissesWentBy(
    place,
    change > 0 ? texts.todayWords.up : texts.todayWords.down,
    oneDigitText(Math.abs(change)),
  );
}

export const slotNames: Readonly<Record<string, string>> = {
  review: texts.todayWords.reviewMisses,
  block: texts.todayWords.block,
  'review-block': texts.todayWords.reviewOfThatBlock,
  looks: texts.todayWords.secondLooks,
  reading: texts.todayWords.reading,
  rehearsal: texts.todayWords.rehearseTheRecallSheet,
  pause: texts.todayWords.pause,
};
