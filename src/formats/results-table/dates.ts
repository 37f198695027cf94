/** Dates and times of day as people and spreadsheets write them. */
import { findLocalDay, type LocalDay } from '../../model/time';

export type DayOrder = 'day-first' | 'month-first';

export type DateReading =
  | { readonly kind: 'day'; readonly day: LocalDay; readonly minutes?: number }
  /** "3/4/2026": which day it is depends on the order; undefined where an order gives no date. */
  | {
      readonly kind: 'ordered';
      readonly dayFirst: LocalDay | undefined;
      readonly monthFirst: LocalDay | undefined;
      readonly minutes?: number;
    }
  /** A spreadsheet's day number. */
  | { readonly kind: 'serial'; readonly day: LocalDay; readonly minutes?: number }
  | { readonly kind: 'none' };

const none: DateReading = { kind: 'none' };

const months = 'jan feb mar apr may jun jul aug sep oct nov dec'.split(' ');
const fullMonths =
  'january february march april may june july august september october november december'.split(
    ' ',
  );

/** A clock time at the end of a date; a zone is accepted and not applied: the day is as written. */
const clockAtEnd =
  /^(.*?\d)(?:T|,?\s+)(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,]\d+)?)?\s*([ap])?\.?(m\.?)?\s*(?:Z|UTC|GMT|[+-]\d{2}:?\d{2})?$/i;

/** Day 0 of spreadsheets' usual count (from memory: 1899-12-30, so that 1900-03-01 is 61). */
const serialDayZero = -25_569;

/**
 * The date in a cell, with the minutes after midnight where a time follows.
 *
 * Read as they stand: ISO 8601 (year first, any of "-", "/", "." between, or
 * none), dates with an English month name, day numbers of spreadsheets, and
 * "04.03.2026" (with points the day comes first: common practice, no source).
 * With "/" or "-" the order of day and month is left open. Two-digit years are
 * of this century.
 *
 * @example
 * parseDateCell('4 Mar 2026 14:05'); // { kind: 'day', day: 20516, minutes: 845 }
 * parseDateCell('3/4/2026').kind; // "ordered"
 */
export function parseDateCell(cell: string): DateReading {
  const text = cell.replace(/\s+/g, ' ').trim();
  if (text.length < 5 || text.length > 45 || !/\d/.test(text)) return none;
  const clock = clockAtEnd.exec(text);
  if (clock) {
    const date = parseDate(clock[1] ?? '');
    const minutes = clockMinutes(clock[2], clock[3], clock[4], clock[5]);
    if (date.kind === 'none' || minutes === undefined) return none;
    return { ...date, minutes };
  }
  return parseDate(text);
}

function parseDate(text: string): DateReading {
  const iso =
    /^(\d{4})([-/.])(\d{1,2})\2(\d{1,2})$/.exec(text) ?? /^(\d{4})()(\d{2})(\d{2})$/.exec(text);
  if (iso) return dayOf(Number(iso[1]), Number(iso[3]), Number(iso[4]));

  const numeric = /^(\d{1,2})([-/.]) ?(\d{1,2})\2 ?(\d{2}|\d{4})$/.exec(text);
  if (numeric) {
    const [a, b, year] = [Number(numeric[1]), Number(numeric[3]), fullYear(numeric[4] ?? '')];
    if (numeric[2] === '.') return dayOf(year, b, a);
    const dayFirst = findLocalDay(year, b, a);
    const monthFirst = findLocalDay(year, a, b);
    if (dayFirst === undefined && monthFirst === undefined) return none;
    return { kind: 'ordered', dayFirst, monthFirst };
  }
  const serial = /^\d{5}(\.\d+)?$/.exec(text);
  if (serial) return serialDay(Number(text), serial[1] !== undefined);
  return /\p{L}/u.test(text) ? namedMonth(text) : none;
}

/** "4 Mar 2026", "Wed, March 4th, 2026", "2026 Mar 4", "4-Mar-26". */
function namedMonth(text: string): DateReading {
  const parts = text
    .toLowerCase()
    .replace(/^(mon|tues?|wed(nes)?|thu(rs)?|fri|sat(ur)?|sun)(day)?\b[.,]?/, '')
    .replace(/(\d)(st|nd|rd|th)\b/g, '$1')
    .split(/[\s,./-]+/)
    .filter((part) => part !== '' && part !== 'of');
  if (parts.length !== 3) return none;
  const at = parts.findIndex((part) => monthNumber(part) > 0);
  if (at === -1) return none;
  const month = monthNumber(parts[at] ?? '');
  const [first, second] = parts.filter((_, i) => i !== at);
  if (!first || !second || !/^\d{1,4}$/.test(first) || !/^\d{1,4}$/.test(second)) return none;
  const [day, year] = first.length === 4 ? [second, first] : [first, second];
  if (year.length !== 2 && year.length !== 4) return none;
  return dayOf(fullYear(year), month, Number(day));
}

function monthNumber(word: string): number {
  if (word === 'sept') return 9;
  return Math.max(months.indexOf(word), fullMonths.indexOf(word)) + 1;
}

function serialDay(serial: number, fraction: boolean): DateReading {
  // 1954 to 2119: other five-digit numbers are more likely something else.
  if (serial < 20_000 || serial >= 80_000) return none;
  const whole = Math.floor(serial);
  const minutes = Math.round((serial - whole) * 1_440) % 1_440;
  // Days are checked by the one maker of days: 1970-01-01 plus a number of days in its month 1.
  const day = dayNumber(whole + serialDayZero);
  if (day === undefined) return none;
  return fraction ? { kind: 'serial', day, minutes } : { kind: 'serial', day };
}

function dayNumber(days: number): LocalDay | undefined {
  const date = new Date(days * 86_400_000);
  return findLocalDay(date.getUTCFullYear(), date.getUTCMonth() + 1, date.getUTCDate());
}

function dayOf(year: number, month: number, dayOfMonth: number): DateReading {
  const day = findLocalDay(year, month, dayOfMonth);
  return day === undefined ? none : { kind: 'day', day };
}

function fullYear(digits: string): number {
  return digits.length === 2 ? 2_000 + Number(digits) : Number(digits);
}

/**
 * The minutes after midnight that a cell names, or undefined.
 *
 * @example
 * findClockMinutes('2:05 pm'); // 845
 * findClockMinutes('0.5'); // 720, a spreadsheet's share of a day
 */
export function findClockMinutes(cell: string): number | undefined {
  const text = cell.trim();
  const clock = /^(\d{1,2})[:.h](\d{2})(?::(\d{2})(?:[.,]\d+)?)?\s*(?:([ap])\.?m\.?)?$/i.exec(text);
  if (/^0?[.,]\d{3,}$|^0[.,]\d+$/.test(text)) {
    return Math.round(Number(text.replace(',', '.')) * 1_440) % 1_440;
  }
  if (clock) return clockMinutes(clock[1], clock[2], clock[3], clock[4]);
  const hour = /^(\d{1,2})\s*([ap])\.?m\.?$/i.exec(text);
  return hour ? clockMinutes(hour[1], '00', undefined, hour[2]) : undefined;
}

function clockMinutes(
  hourText = '',
  minuteText = '',
  secondText = '0',
  half?: string,
): number | undefined {
  let hour = Number(hourText);
  const minute = Number(minuteText);
  if (minute > 59 || Number(secondText) > 59) return undefined;
  if (half !== undefined) {
    if (hour < 1 || hour > 12) return undefined;
    hour = (hour % 12) + (half.toLowerCase() === 'p' ? 12 : 0);
  }
  return hour > 23 ? undefined : hour * 60 + minute;
}

export type ColumnDayOrder = DayOrder | 'any' | 'ambiguous' | 'mixed';

/**
 * The order of day and month that a whole column shows.
 *
 * `any`: no date depends on it. `ambiguous`: every date fits both. `mixed`: some
 * dates fit only one order and some only the other.
 */
export function dayOrderOf(readings: Iterable<DateReading>): ColumnDayOrder {
  let onlyDayFirst = false;
  let onlyMonthFirst = false;
  let open = false;
  for (const reading of readings) {
    if (reading.kind !== 'ordered') continue;
    if (reading.monthFirst === undefined) onlyDayFirst = true;
    else if (reading.dayFirst === undefined) onlyMonthFirst = true;
    else if (reading.dayFirst !== reading.monthFirst) open = true;
  }
  if (onlyDayFirst && onlyMonthFirst) return 'mixed';
  if (onlyDayFirst) return 'day-first';
  if (onlyMonthFirst) return 'month-first';
  return open ? 'ambiguous' : 'any';
}
