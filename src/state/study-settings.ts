/** The settings of the study day, with what stands where nothing was chosen (our choices). */
import type { Settings } from '../model/settings';
import type { Day } from '../model/study';
import type { LocalDay } from '../model/time';

export interface StudySettings {
  readonly looksMinutes: number;
  readonly readingMinutes: number;
  readonly planHours: number;
  readonly planStartMinutes: number;
  /** Minutes after midnight of the day it begins in: past midnight it is above 1,440. */
  readonly bedtimeMinutes: number;
  readonly paperDay: LocalDay | undefined;
}

const noon = 720;

export function studySettings(settings: Settings | undefined): StudySettings {
  const bedtime = settings?.bedtimeMinutes ?? 23 * 60;
  return {
    looksMinutes: settings?.looksMinutes ?? 10,
    readingMinutes: settings?.readingMinutes ?? 40,
    planHours: settings?.planHours ?? 3,
    planStartMinutes: settings?.planStartMinutes ?? 18 * 60,
    bedtimeMinutes: bedtime < noon ? bedtime + 1_440 : bedtime,
    paperDay: settings?.paperDay,
  };
}

/** 0 for Monday to 6 for Sunday. Day 0, 1970-01-01, was a Thursday. */
export function weekdayOf(day: LocalDay): number {
  return (((day + 3) % 7) + 7) % 7;
}

/** Whether a day is one of rest: by its weekday, or by its own page. */
export function restDays(
  settings: Settings | undefined,
  days: Iterable<Day>,
): (day: LocalDay) => boolean {
  const weekdays = new Set(settings?.restWeekdays);
  const marked = new Set<number>();
  for (const { day, rest } of days) if (rest) marked.add(day);
  return (day) => weekdays.has(weekdayOf(day)) || marked.has(day);
}
