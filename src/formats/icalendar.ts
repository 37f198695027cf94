/**
 * iCalendar: RFC 5545, as far as a plan needs it: all-day and timed events, in UTC or on the wall's
 * own clock.
 */
import { clockText, isoDay, type Instant, type LocalDay } from '../model/time';

export type CalendarTime =
  /** A whole day of the calendar. */
  | { readonly kind: 'day'; readonly day: LocalDay }
  /** A clock time wherever the candidate is ("floating": RFC 5545, 3.3.5, form 1). */
  | { readonly kind: 'local'; readonly day: LocalDay; readonly minutes: number }
  /** A point in time (form 2). */
  | { readonly kind: 'utc'; readonly at: Instant };

export interface CalendarEvent {
  /** The same for the same thing in every export, so that a calendar replaces and does not double. */
  readonly uid: string;
  readonly start: CalendarTime;
  /** For a timed event. */
  readonly minutes?: number;
  readonly summary: string;
  readonly description?: string;
}

/** Octets in a line before it is folded (RFC 5545, 3.1). */
const longestLine = 75;

/**
 * The events as the text of an `.ics` file.
 *
 * @param name of the calendar
 * @param now when the file is made (DTSTAMP, which every event must have)
 * @throws {RangeError} for a uid that is empty or comes twice, and for minutes that are not above 0
 */
export function writeCalendar(
  name: string,
  events: readonly CalendarEvent[],
  now: Instant,
): string {
  const uids = new Set<string>();
  const stamp = utcText(now);
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Hypocentre//Plan//EN',
    'CALSCALE:GREGORIAN',
    `X-WR-CALNAME:${escapeText(name)}`,
  ];
  for (const event of events) {
    if (event.uid === '' || uids.has(event.uid))
      throw new RangeError(`writeCalendar: got uid "${event.uid}" twice or empty; need each once`);
    if (event.minutes !== undefined && !(event.minutes > 0))
      throw new RangeError(`writeCalendar: got ${event.minutes} minutes for "${event.uid}"`);
    uids.add(event.uid);
    lines.push(
      'BEGIN:VEVENT',
      `UID:${escapeText(event.uid)}`,
      `DTSTAMP:${stamp}`,
      `DTSTART${timeText(event.start)}`,
    );
    // A duration in whole minutes; an all-day event lasts its day without one.
    if (event.minutes !== undefined && event.start.kind !== 'day')
      lines.push(`DURATION:PT${Math.max(1, Math.round(event.minutes))}M`);
    lines.push(`SUMMARY:${escapeText(event.summary)}`);
    if (event.description) lines.push(`DESCRIPTION:${escapeText(event.description)}`);
    // A plan leaves the time free for others to book.
    lines.push('TRANSP:TRANSPARENT', 'END:VEVENT');
  }
  lines.push('END:VCALENDAR');
  return lines.map((line) => `${foldLine(line)}\r\n`).join('');
}

/** The value of a TEXT property: RFC 5545, 3.3.11. */
function escapeText(text: string): string {
  return text
    .replaceAll('\\', '\\\\')
    .replaceAll(';', '\\;')
    .replaceAll(',', '\\,')
    .replace(/\r\n|\r|\n/g, '\\n')
    .replace(/[\u0000-\u0008\u000b-\u001f\u007f]/g, ''); // eslint-disable-line no-control-regex -- controls are not allowed in TEXT
}

/** A line in pieces of at most 75 octets, never cut within a character (RFC 5545, 3.1). */
function foldLine(line: string): string {
  let folded = '';
  let octets = 0;
  for (const character of line) {
    const size = octetCount(character);
    if (octets + size > longestLine) {
      folded += '\r\n ';
      octets = 1;
    }
    folded += character;
    octets += size;
  }
  return folded;
}

/** Octets of one character in UTF-8. */
function octetCount(character: string): number {
  const code = character.codePointAt(0)!;
  if (code < 0x80) return 1;
  if (code < 0x800) return 2;
  return code < 0x10000 ? 3 : 4;
}

function timeText(time: CalendarTime): string {
  const dayDigits = (day: LocalDay) => isoDay(day).replaceAll('-', '');
  switch (time.kind) {
    case 'day':
      return `;VALUE=DATE:${dayDigits(time.day)}`;
    case 'local':
      return `:${dayDigits((time.day + Math.floor(time.minutes / 1_440)) as LocalDay)}T${clockText(Math.round(time.minutes) % 1_440).replace(':', '')}00`;
    case 'utc':
      return `:${utcText(time.at)}`;
  }
}

function utcText(at: Instant): string {
  return `${new Date(at).toISOString().slice(0, 19).replace(/[-:]/g, '')}Z`;
}
