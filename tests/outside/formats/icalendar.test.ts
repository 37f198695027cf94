/** Calendars as ical.js 2.2.1, a general iCalendar library, reads them; and the lines RFC 5545 prints. */
import ICAL from 'ical.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { writeCalendar, type CalendarEvent } from '../../../src/formats/index';
import { findLocalDay, type Instant } from '../../../src/model/time';

const now = Date.UTC(2026, 10, 25, 9, 5, 7) as Instant;
const paper = findLocalDay(2027, 3, 1)!;

function read(text: string): InstanceType<typeof ICAL.Event>[] {
  const calendar = new ICAL.Component(ICAL.parse(text) as unknown[]);
  return calendar.getAllSubcomponents('vevent').map((event) => new ICAL.Event(event));
}

const octets = (text: string) => new TextEncoder().encode(text).length;

describe('writeCalendar', () => {
  it('is read back with its times: a whole day, the wall’s clock, and UTC', () => {
    const events: CalendarEvent[] = [
      { uid: 'paper', start: { kind: 'day', day: paper }, summary: 'Paper' },
      {
        uid: 'looks',
        start: { kind: 'local', day: paper, minutes: 18 * 60 + 30 },
        minutes: 12,
        summary: 'Second looks',
      },
      {
        uid: 'reading',
        start: { kind: 'utc', at: Date.UTC(2027, 1, 28, 23, 15) as Instant },
        minutes: 25,
        summary: 'Read',
      },
    ];
    const [day, looks, reading] = read(writeCalendar('Plan', events, now));
    expect(day?.startDate.isDate).toBe(true);
    expect(day?.startDate.toString()).toBe('2027-03-01');
    expect(looks?.startDate.toString()).toBe('2027-03-01T18:30:00');
    expect(looks?.startDate.zone.tzid).toBe('floating');
    expect(looks?.duration.toSeconds()).toBe(720);
    expect(reading?.startDate.toString()).toBe('2027-02-28T23:15:00Z');
    expect(reading?.endDate.toString()).toBe('2027-02-28T23:40:00Z');
    expect([day, looks, reading].map((event) => event?.uid)).toEqual(['paper', 'looks', 'reading']);
  });

  it('gives any text back as it was, in lines of at most 75 octets that end in CRLF', () => {
    const text = fc
      .string({
        unit: fc.constantFrom(
          'a',
          'b',
          ' ',
          ',',
          ';',
          ':',
          '\\',
          '"',
          '\n',
          'ñ',
          '尿',
          '𝛽',
          'n',
          'N',
        ),
        maxLength: 200,
      })
      // Line ends are kept, but blanks at the very ends are the library's to trim or not.
      .map((drawn) => `x${drawn}x`);
    fc.assert(
      fc.property(text, text, (summary, description) => {
        const written = writeCalendar(
          'Plan',
          [{ uid: 'u', start: { kind: 'day', day: paper }, summary, description }],
          now,
        );
        const [event] = read(written);
        expect(event?.summary).toBe(summary);
        expect(event?.description).toBe(description);
        expect(written.endsWith('\r\n')).toBe(true);
        for (const line of written.split('\r\n')) {
          expect(octets(line)).toBeLessThanOrEqual(75);
          expect(line).not.toMatch(/[\r\n]/);
        }
      }),
    );
  });

  // RFC 5545, section 3.3.11, prints this value for a text with a newline and commas.
  it('escapes as the example of RFC 5545, 3.3.11', () => {
    const written = writeCalendar(
      'Plan',
      [
        {
          uid: 'u',
          start: { kind: 'day', day: paper },
          summary: 'Project XYZ Final Review\nConference Room - 3B\nCome Prepared.',
        },
      ],
      now,
    );
    expect(written.replaceAll('\r\n ', '')).toContain(
      'SUMMARY:Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared.',
    );
  });

  it('holds what RFC 5545 demands of a calendar and of each event', () => {
    const written = writeCalendar(
      'Plan',
      [{ uid: 'u', start: { kind: 'day', day: paper }, summary: 's' }],
      now,
    );
    for (const needed of [
      /^VERSION:2\.0\r$/m,
      /^PRODID:.+\r$/m,
      /^DTSTAMP:20261125T090507Z\r$/m,
      /^UID:u\r$/m,
    ])
      expect(written).toMatch(needed);
  });

  it('refuses a uid that comes twice', () => {
    const event = { uid: 'u', start: { kind: 'day', day: paper }, summary: 's' } as const;
    expect(() => writeCalendar('Plan', [event, event], now)).toThrow(/uid "u"/);
  });
});
