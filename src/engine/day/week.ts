/**
 * The days ahead: readings on days, days of rest, and in the last week before the paper rehearsals of
 * the recall sheet and nothing new on the last day (common practice, no source).
 */
import type { LocalDay } from '../../model/time';

export interface WeekInput {
  /** The first day, and the day after the last one. */
  readonly from: LocalDay;
  readonly until: LocalDay;
  readonly paperDay: LocalDay | undefined;
  /** In the order in which they are best read, with their minutes. */
  readonly readings: readonly { readonly id: string; readonly minutes: number }[];
  /** Minutes for reading on a day. */
  readonly readingMinutes: number;
  /** Readings that were put on a day by hand. */
  readonly chosen: ReadonlyMap<LocalDay, readonly string[]>;
  readonly isRest: (day: LocalDay) => boolean;
  /** A day that is planned already: it takes what is chosen for it and nothing else. */
  readonly planned?: LocalDay;
}

export interface WeekDay {
  readonly day: LocalDay;
  readonly rest: boolean;
  readonly readings: readonly {
    readonly id: string;
    readonly minutes: number;
    readonly byHand: boolean;
  }[];
  readonly rehearsal: boolean;
  /** The day before the paper: nothing new. */
  readonly last: boolean;
}

export interface Week {
  readonly days: readonly WeekDay[];
  /** Readings for which no day has room. */
  readonly leftOut: readonly string[];
}

/** Days before the paper in which the recall sheet is rehearsed. */
export const rehearsalDays = 7;

/** Every other day, and the last one: enough to know what is missing, too few to tire (our choice). */
const rehearsalEvery = 2;

/**
 * Lays readings and rehearsals on the days, none of them on paper day or after it.
 *
 * A reading chosen by hand stands on its day whatever the minutes; a day of rest and the last day
 * before the paper take none but those.
 */
export function planWeek(input: WeekInput): Week {
  const { from, paperDay, readings, chosen } = input;
  const until = Math.min(input.until, paperDay ?? Infinity);
  const minutesOf = new Map(readings.map(({ id, minutes }) => [id, minutes]));
  const byHand = new Set([...chosen.values()].flat());
  const queue = readings.filter(({ id }) => !byHand.has(id));
  const days: WeekDay[] = [];
  for (let each: number = from; each < until; each++) {
    const day = each as LocalDay;
    const daysLeft = paperDay === undefined ? Infinity : paperDay - day;
    const last = daysLeft === 1;
    const rest = input.isRest(day);
    const taken = (chosen.get(day) ?? []).flatMap((id) => {
      const minutes = minutesOf.get(id);
      return minutes === undefined ? [] : [{ id, minutes, byHand: true }];
    });
    let room = input.readingMinutes - taken.reduce((sum, { minutes }) => sum + minutes, 0);
    for (let k = 0; !last && !rest && day !== input.planned && k < queue.length;) {
      const next = queue[k]!;
      if (next.minutes <= room) {
        taken.push({ ...next, byHand: false });
        room -= next.minutes;
        queue.splice(k, 1);
      } else k += 1;
    }
    const rehearsal = !rest && daysLeft <= rehearsalDays && (daysLeft - 1) % rehearsalEvery === 0;
    days.push({ day, rest, readings: taken, rehearsal, last });
  }
  return { days, leftOut: queue.map(({ id }) => id) };
}
