import { describe, expect, it } from 'vitest';
import {
  dayOrderOf,
  findClockMinutes,
  parseDateCell,
} from '../../../../src/formats/results-table/dates';
import { findLocalDay, isoDay, type LocalDay } from '../../../../src/model/time';

const shown = (cell: string) => {
  const reading = parseDateCell(cell);
  if (reading.kind === 'none') return 'none';
  const time = reading.minutes === undefined ? '' : ` +${reading.minutes}`;
  const iso = (day: LocalDay | undefined) => (day === undefined ? '-' : isoDay(day));
  return reading.kind === 'ordered'
    ? `${iso(reading.dayFirst)} or ${iso(reading.monthFirst)}${time}`
    : `${iso(reading.day)}${time}`;
};

describe('parseDateCell', () => {
  it.each([
    ['2026-03-04', '2026-03-04'],
    ['2026/3/4', '2026-03-04'],
    ['2026.03.04', '2026-03-04'],
    ['20260304', '2026-03-04'],
    ['2026-03-04T14:05', '2026-03-04 +845'],
    ['2026-03-04 14:05:59', '2026-03-04 +845'],
    ['2026-03-04T23:30:00.000Z', '2026-03-04 +1410'],
    ['2026-03-04T00:30:00+02:00', '2026-03-04 +30'],
    ['04.03.2026', '2026-03-04'],
    ['4.3.26', '2026-03-04'],
    ['4. 3. 2026', '2026-03-04'],
    ['4 Mar 2026', '2026-03-04'],
    ['4 March 2026', '2026-03-04'],
    ['4th of March, 2026', '2026-03-04'],
    ['Mar 4, 2026', '2026-03-04'],
    ['March 4th 2026 2:05 PM', '2026-03-04 +845'],
    ['Wed, 4 Mar 2026', '2026-03-04'],
    ['Wednesday 4 March 2026', '2026-03-04'],
    ['4-Mar-26', '2026-03-04'],
    ['2026 Mar 4', '2026-03-04'],
    ['9 Sept 2026', '2026-09-09'],
    [' 2026-03-04 ', '2026-03-04'],
    ['3/4/2026', '2026-04-03 or 2026-03-04'],
    ['3/4/26', '2026-04-03 or 2026-03-04'],
    ['25/4/2026', '2026-04-25 or -'],
    ['4-25-2026', '- or 2026-04-25'],
    ['3/4/2026 12:05 am', '2026-04-03 or 2026-03-04 +5'],
    ['29/2/2028', '2028-02-29 or -'],
  ])('reads %s as %s', (cell, expected) => {
    expect(shown(cell)).toBe(expected);
  });

  it.each([
    '',
    'today',
    '2026-02-30',
    '2026-13-01',
    '31/31/2026',
    '4 Mar',
    'Mar 2026',
    '4 Mrz 2026',
    '12',
    '2026',
    '1700000000',
    '=TODAY()',
    '2026-03-04 25:00',
    '2026-03-04 2:75',
    '1/1/1',
    '0/0/2026',
    'block 4 of 2026',
    '1.2.3.4',
  ])('does not take %j for a date', (cell) => {
    expect(shown(cell)).toBe('none');
  });

  it('reads day numbers of spreadsheets, with the share of the day as a time', () => {
    // ECMA-376 part 1, 18.17.4.1 (from memory): in the 1900 system 2008-01-01 is 39448.
    expect(shown('39448')).toBe('2008-01-01');
    expect(shown('39448.5')).toBe('2008-01-01 +720');
    expect(parseDateCell('46085').kind).toBe('serial');
    expect(shown('12345')).toBe('none');
    expect(shown('99999')).toBe('none');
  });

  it('reads every day of four years back from every way of writing it', () => {
    const names = 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split(' ');
    const first = findLocalDay(2024, 1, 1)!;
    for (let offset = 0; offset < 1_461; offset += 1) {
      const iso = isoDay((first + offset) as LocalDay);
      const [year, month, day] = iso.split('-') as [string, string, string];
      const name = names[Number(month) - 1]!;
      for (const cell of [
        iso,
        `${day}.${month}.${year}`,
        `${day} ${name} ${year}`,
        `${name} ${day}, ${year}`,
      ]) {
        expect(shown(cell)).toBe(iso);
      }
      const slashed = parseDateCell(`${day}/${month}/${year}`);
      expect(slashed.kind === 'ordered' && slashed.dayFirst).toBe(first + offset);
    }
  });
});

describe('findClockMinutes', () => {
  it.each([
    ['14:05', 845],
    ['2:05 pm', 845],
    ['12:00 AM', 0],
    ['12:30 p.m.', 750],
    ['14.05', 845],
    ['7 pm', 1140],
    ['0.5', 720],
    ['0,25', 360],
    ['00:00:30', 0],
  ])('reads %s as %i minutes after midnight', (cell, minutes) => {
    expect(findClockMinutes(cell)).toBe(minutes);
  });

  it.each(['', '25:00', '13:00 pm', '14:60', 'noon', '75', '1.5'])('refuses %j', (cell) => {
    expect(findClockMinutes(cell)).toBeUndefined();
  });
});

describe('dayOrderOf', () => {
  it.each([
    ['any', ['2026-03-04', '3/3/2026', 'nonsense']],
    ['ambiguous', ['3/4/2026', '5/6/2026', '7/7/2026']],
    ['day-first', ['3/4/2026', '13/4/2026']],
    ['month-first', ['3/4/2026', '4/13/2026']],
    ['mixed', ['13/4/2026', '4/13/2026']],
    ['any', []],
  ] as const)('is %s for %j', (order, cells) => {
    expect(dayOrderOf(cells.map(parseDateCell))).toBe(order);
  });
});
