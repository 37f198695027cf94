import fc from 'fast-check';
import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import {
  findIsoDay,
  findLocalDay,
  instantOfLocal,
  instantSchema,
  isoDay,
  localDayOf,
  localDaySchema,
  msPerDay,
  noonOf,
  type Instant,
  type LocalDay,
} from '../../../src/model/time';

/**
 * Every date from 1970-01-01 to 2100-12-31 in order, counted on by hand: thirty days hath
 * September, and a leap year is one divisible by 4, by 100 only if also by 400.
 */
function* calendar(): Generator<readonly [year: number, month: number, dayOfMonth: number]> {
  for (let year = 1970; year <= 2100; year += 1) {
    const leap = year % 400 === 0 || (year % 4 === 0 && year % 100 !== 0);
    const lengths = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
    for (const [index, length] of lengths.entries()) {
      for (let dayOfMonth = 1; dayOfMonth <= length; dayOfMonth += 1)
        yield [year, index + 1, dayOfMonth];
    }
  }
}

const two = (value: number) => String(value).padStart(2, '0');

describe('days and dates', () => {
  it('agree with a calendar counted by hand on every day from 1970 to 2100, both ways', () => {
    let day = 0;
    const wrong: string[] = [];
    for (const [year, month, dayOfMonth] of calendar()) {
      const text = `${year}-${two(month)}-${two(dayOfMonth)}`;
      const fits =
        isoDay(day as LocalDay) === text &&
        findIsoDay(text) === day &&
        findLocalDay(year, month, dayOfMonth) === day;
      if (!fits) wrong.push(text);
      day += 1;
    }
    expect(wrong).toEqual([]);
    // 131 years with 32 leap days: 1972 to 2096, and 2100 has none.
    expect(day).toBe(131 * 365 + 32);
  });

  it.each([
    ['2024-02-29', true],
    ['2023-02-29', false],
    ['2000-02-29', true],
    ['1900-02-29', false],
    ['2100-02-29', false],
    ['2026-04-31', false],
    ['2026-13-01', false],
    ['2026-00-10', false],
    ['2026-01-00', false],
  ])('know whether there is a %s: %s', (text, exists) => {
    expect(findIsoDay(text) !== undefined).toBe(exists);
  });

  it('reach from 1900-01-01 to 2200-01-01 and no further', () => {
    expect(findLocalDay(1900, 1, 1)).toBe(-25_567);
    expect(findLocalDay(1899, 12, 31)).toBeUndefined();
    expect(findLocalDay(2200, 1, 1)).toBe(84_006);
    expect(findLocalDay(2200, 1, 2)).toBeUndefined();
    expect(findLocalDay(26, 3, 1)).toBeUndefined();
  });

  it.each(['2026-3-1', '2026/03/01', '20260301', '2026-03-01T10:00', '26-03-01', '', 'today'])(
    'find no day in "%s"',
    (text) => {
      expect(findIsoDay(text)).toBeUndefined();
    },
  );

  it('find a day with blanks around it', () => {
    expect(findIsoDay(' 1970-01-03 ')).toBe(2);
  });

  it('of numbers that are none are none', () => {
    expect(findLocalDay(NaN, 1, 1)).toBeUndefined();
    expect(findLocalDay(2026, 1.5, 1)).toBeUndefined();
    expect(findLocalDay(2026, 1, 1.5)).toBeUndefined();
  });
});

describe('localDayOf', () => {
  const at = Date.UTC(2026, 2, 1, 23, 30) as Instant;

  it.each([
    [0, '2026-03-01'],
    [29, '2026-03-01'],
    [30, '2026-03-02'],
    [14 * 60, '2026-03-02'],
    [-12 * 60, '2026-03-01'],
    [-23 * 60 - 30, '2026-03-01'],
    [-23 * 60 - 31, '2026-02-28'],
  ])('reads the calendar on a wall %i minutes east of Greenwich', (minutesEast, day) => {
    expect(isoDay(localDayOf(at, minutesEast))).toBe(day);
  });

  it('counts days before 1970 downwards', () => {
    expect(localDayOf(-1 as Instant, 0)).toBe(-1);
    expect(localDayOf(-msPerDay as Instant, 0)).toBe(-1);
    expect(localDayOf(0 as Instant, -1)).toBe(-1);
  });

  it('gives back the day and the minute that an instant was made of, in every zone', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -20_000, max: 47_000 }),
        fc.integer({ min: 0, max: 1_439 }),
        // Zones lie from 12 hours west to 14 east of UTC (IANA, from memory).
        fc.integer({ min: -720, max: 840 }),
        (day, minutes, minutesEast) => {
          const instant = instantOfLocal(day as LocalDay, minutes, minutesEast);
          expect(localDayOf(instant, minutesEast)).toBe(day);
          const sinceMidnight = instant + minutesEast * 60_000 - day * msPerDay;
          expect(sinceMidnight).toBe(minutes * 60_000);
        },
      ),
      { numRuns: 300, seed: 31 },
    );
  });
});

describe('instants', () => {
  it('put 09:30 two hours east of Greenwich at 07:30 UTC', () => {
    const day = findIsoDay('2026-07-14')!;
    expect(instantOfLocal(day, 570, 120)).toBe(Date.UTC(2026, 6, 14, 7, 30));
    expect(instantOfLocal(day, 570, -300)).toBe(Date.UTC(2026, 6, 14, 14, 30));
  });

  it('stand for a day at its noon', () => {
    expect(noonOf(findIsoDay('2026-07-14')!)).toBe(Date.UTC(2026, 6, 14, 12));
  });
});

describe('unknown input', () => {
  it.each([0, -25_567, 84_006])('is a day when it is the whole number %i', (day) => {
    expect(v.safeParse(localDaySchema, day).success).toBe(true);
  });

  it.each([-25_568, 84_007, 1.5, NaN, Infinity, '20000', null, undefined])(
    'is no day when it is %s',
    (day) => {
      expect(v.safeParse(localDaySchema, day).success).toBe(false);
    },
  );

  it.each([NaN, Infinity, -Infinity, '0', 84_007 * msPerDay, -25_568 * msPerDay])(
    'is no instant when it is %s',
    (at) => {
      expect(v.safeParse(instantSchema, at).success).toBe(false);
    },
  );

  it('may be an instant between two milliseconds, as browsers give them', () => {
    expect(v.parse(instantSchema, 1_700_000_000_000.25)).toBe(1_700_000_000_000.25);
  });
});
