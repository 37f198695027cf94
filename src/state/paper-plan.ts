/** The days to the paper: readings laid on them, and all of it as a calendar. */
import { planWeek, type ReadingPlan, type Simulation, type Week } from '../engine';
import { writeCalendar, type CalendarEvent } from '../formats';
import { isoDay, type Instant, type LocalDay } from '../model/time';
import type { Study } from './study.svelte';
import type { StudySettings } from './study-settings';

const daysInWeek = 7;

/**
 * The week from today on: tonight as it is planned, and on the other days the readings that avoid most
 * in their reading minutes. A day of rest and the last day before the paper take only what was put on
 * them by hand.
 *
 * @param tonight the plan of the evening of `from`
 */
export function weekFrom(study: Study, from: LocalDay, tonight: ReadingPlan): Week {
  const until = (from + daysInWeek) as LocalDay;
  const { paperDay, readingMinutes } = study.settings;
  const chosen = new Map<LocalDay, readonly string[]>();
  let minutes = 0;
  for (let day = from; day < until; day++) {
    const plan = study.planOf(day);
    if (plan && plan.pinned.length > 0) chosen.set(day, plan.pinned);
    const last = paperDay !== undefined && day >= paperDay - 1;
    if (study.isRest(day) || last) continue;
    minutes += day === from ? tonight.minutes : readingMinutes;
    if (day === from)
      chosen.set(
        day,
        tonight.readings.map(({ id }) => id),
      );
  }
  const plan = study.planFor(minutes, [...chosen.values()].flat());
  return planWeek({
    from,
    until,
    paperDay,
    readings: plan.readings,
    readingMinutes,
    chosen,
    isRest: study.isRest,
    planned: from,
  });
}

export interface CalendarInput {
  readonly week: Week;
  /** Looks due today. */
  readonly looksToday: number;
  readonly simulation: Simulation | undefined;
  readonly settings: StudySettings;
  readonly today: LocalDay;
  readonly paperName: string;
  readonly secondsALook: number;
  readonly titleOf: (reading: string) => string;
  readonly now: Instant;
}

/** The plan as an iCalendar file; the same thing has the same UID in every export. */
export function planCalendar(input: CalendarInput): string {
  const { settings, secondsALook, titleOf } = input;
  const events: CalendarEvent[] = [];
  const uid = (what: string, day: LocalDay) => `${what}-${isoDay(day)}@hypocentre.invalid`;
  const clockOf = new Map<LocalDay, number>();
  /** The next free time on a day, from the start of its study. */
  const place = (day: LocalDay, minutes: number) => {
    const at = clockOf.get(day) ?? settings.planStartMinutes;
    clockOf.set(day, at + Math.ceil(minutes));
    return { kind: 'local', day, minutes: at } as const;
  };
  for (const { day, mean } of input.simulation?.looksByDay ?? []) {
    const count = day === input.today ? input.looksToday : Math.round(mean);
    if (count === 0) continue;
    const minutes = Math.max(1, (count * secondsALook) / 60);
    events.push({
      uid: uid('looks', day),
      start: place(day, minutes),
      minutes,
      summary: `Second looks: about ${count}`,
    });
  }
  for (const day of input.week.days) {
    if (day.rest)
      events.push({
        uid: uid('rest', day.day),
        start: { kind: 'day', day: day.day },
        summary: 'Rest',
      });
    for (const { id, minutes } of day.readings)
      events.push({
        uid: uid(`reading-${id}`, day.day),
        start: place(day.day, minutes),
        minutes,
        summary: `Read: ${titleOf(id)}`,
      });
    if (day.rehearsal)
      events.push({
        uid: uid('rehearsal', day.day),
        start: place(day.day, rehearsalMinutes),
        minutes: rehearsalMinutes,
        summary: 'Rehearse the recall sheet',
      });
  }
  if (settings.paperDay !== undefined)
    events.push({
      uid: 'paper-day@hypocentre.invalid',
      start: { kind: 'day', day: settings.paperDay },
      summary: input.paperName || 'Paper',
    });
  return writeCalendar('Hypocentre', events, input.now);
}

/** The tutorial minutes in which the sheet is written. */
const rehearsalMinutes = 15;
