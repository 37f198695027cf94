/**
 * Two kinds of time, never mixed.
 *
 * A `LocalDay` is a page of the candidate's calendar: whole days since
 * 1970-01-01 as read on their own wall, without a clock or a zone. An `Instant`
 * is a point in time: milliseconds since 1970-01-01T00:00Z.
 */
import * as v from 'valibot';

declare const unitOfTime: unique symbol;

/** Whole local days since 1970-01-01. */
export type LocalDay = number & { readonly [unitOfTime]: 'local day' };
/** Milliseconds since 1970-01-01T00:00Z. */
export type Instant = number & { readonly [unitOfTime]: 'instant' };

export const msPerDay = 86_400_000;

/** 1900-01-01 and 2200-01-01: a date outside is a slip of the keyboard, not a study day. */
const firstDay = -25_567;
const lastDay = 84_006;

export const localDaySchema = v.pipe(
  v.number('need a whole day number'),
  v.integer('need a whole day number'),
  v.minValue(firstDay, 'the day lies before 1900'),
  v.maxValue(lastDay, 'the day lies after 2200'),
  v.transform((day) => day as LocalDay),
);

export const instantSchema = v.pipe(
  v.number('need a time in milliseconds'),
  v.finite('need a time in milliseconds'),
  v.minValue(firstDay * msPerDay, 'the time lies before 1900'),
  v.maxValue(lastDay * msPerDay, 'the time lies after 2200'),
  v.transform((at) => at as Instant),
);

/**
 * The day a calendar date names, or undefined when there is no such date.
 *
 * @param month 1 to 12
 * @param dayOfMonth 1 to 31
 *
 * @example
 * findLocalDay(1970, 1, 2); // 1
 * findLocalDay(2026, 2, 30); // undefined
 */
export function findLocalDay(
  year: number,
  month: number,
  dayOfMonth: number,
): LocalDay | undefined {
  const date = new Date(0);
  date.setUTCFullYear(year, month - 1, dayOfMonth);
  const real =
    date.getUTCFullYear() === year &&
    date.getUTCMonth() === month - 1 &&
    date.getUTCDate() === dayOfMonth;
  const day = date.getTime() / msPerDay;
  return real && day >= firstDay && day <= lastDay ? (day as LocalDay) : undefined;
}

/**
 * The local day on which an instant falls.
 *
 * @param minutesEast the zone's offset from UTC in minutes, east positive
 *   (the negative of `Date.prototype.getTimezoneOffset`)
 */
export function localDayOf(at: Instant, minutesEast: number): LocalDay {
  return Math.floor((at + minutesEast * 60_000) / msPerDay) as LocalDay;
}

/** The day as ISO 8601 text. `isoDay(0)` is "1970-01-01". */
export function isoDay(day: LocalDay): string {
  return new Date(day * msPerDay).toISOString().slice(0, 10);
}

/** The day that ISO 8601 date text names ("2026-03-01"), or undefined. */
export function findIsoDay(text: string): LocalDay | undefined {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text.trim());
  if (!parts) return undefined;
  return findLocalDay(Number(parts[1]), Number(parts[2]), Number(parts[3]));
}

/** Noon UTC of a day: the instant that stands for a day where only ages in days matter. */
export function noonOf(day: LocalDay): Instant {
  return (day * msPerDay + msPerDay / 2) as Instant;
}

/**
 * The instant of a clock time on a local day.
 *
 * @param minutes minutes after local midnight
 * @param minutesEast the zone's offset from UTC on that day, in minutes, east positive
 */
export function instantOfLocal(day: LocalDay, minutes: number, minutesEast: number): Instant {
  return (day * msPerDay + (minutes - minutesEast) * 60_000) as Instant;
}

/** Minutes after local midnight of an instant, 0 to 1,439. */
export function minutesOfDay(at: Instant, minutesEast: number): number {
  const minutes = Math.floor(at / 60_000) + minutesEast;
  return ((minutes % 1_440) + 1_440) % 1_440;
}

/** A time of day as "07:05". */
export function clockText(minutes: number): string {
  const two = (value: number) => String(value).padStart(2, '0');
  return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}

/** Minutes after midnight that "07:05" names, or undefined. */
export function findClockMinutes(text: string): number | undefined {
  const parts = /^([01]?\d|2[0-3]):([0-5]\d)$/.exec(text.trim());
  return parts ? Number(parts[1]) * 60 + Number(parts[2]) : undefined;
}
