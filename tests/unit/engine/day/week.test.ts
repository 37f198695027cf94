import { describe, expect, it } from 'vitest';
import { planWeek } from '../../../../src/engine/index';
import type { LocalDay } from '../../../../src/model/time';

const day = (value: number) => value as LocalDay;
const input = {
  from: day(100),
  until: day(107),
  paperDay: day(107),
  readings: [
    { id: 'a', minutes: 30 },
    { id: 'b', minutes: 45 },
    { id: 'c', minutes: 20 },
    { id: 'huge', minutes: 300 },
  ],
  readingMinutes: 50,
  chosen: new Map<LocalDay, string[]>(),
  isRest: () => false,
};
const ids = (days: ReturnType<typeof planWeek>['days']) =>
  days.map(({ readings }) => readings.map(({ id }) => id).join(' '));

describe('planWeek', () => {
  it('fills the days in order, leaves the last one free of reading, and says what has no room', () => {
    const week = planWeek(input);
    expect(ids(week.days)).toEqual(['a c', 'b', '', '', '', '', '']);
    expect(week.leftOut).toEqual(['huge']);
    expect(week.days.at(-1)).toMatchObject({ day: 106, last: true, rehearsal: true });
    expect(week.days.map(({ rehearsal }) => rehearsal)).toEqual([
      true,
      false,
      true,
      false,
      true,
      false,
      true,
    ]);
  });

  it('keeps what was put on a day by hand, and rests on days of rest', () => {
    const week = planWeek({
      ...input,
      chosen: new Map([[day(103), ['a']]]),
      isRest: (each) => each === 100,
    });
    expect(ids(week.days)).toEqual(['', 'b', 'c', 'a', '', '', '']);
    expect(week.days[0]).toMatchObject({ rest: true, rehearsal: false });
    expect(week.days[3]?.readings[0]).toMatchObject({ byHand: true });
  });

  it('adds nothing to a day that is planned already, whatever room it has', () => {
    const week = planWeek({
      ...input,
      planned: day(100),
      chosen: new Map([[day(100), ['c']]]),
    });
    expect(ids(week.days).slice(0, 3)).toEqual(['c', 'a', 'b']);
  });

  it('rehearses only in the last week, and plans a usual week without any', () => {
    const usual = planWeek({ ...input, paperDay: day(140) });
    expect(usual.days.some(({ rehearsal, last }) => rehearsal || last)).toBe(false);
    expect(planWeek({ ...input, paperDay: undefined }).days).toHaveLength(7);
    const across = planWeek({ ...input, until: day(120) });
    expect(across.days.at(-1)?.day).toBe(106);
  });

  it('begins today when fewer days are left, and plans nothing on paper day', () => {
    expect(planWeek({ ...input, from: day(105) }).days.map((each) => each.day)).toEqual([105, 106]);
    const onTheDay = planWeek({ ...input, from: day(107) });
    expect(onTheDay.days).toEqual([]);
    expect(onTheDay.leftOut).toHaveLength(4);
  });
});
