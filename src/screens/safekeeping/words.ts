/** The words of Safekeeping. */
import type { RecordKind } from '../../model/records';

/** Kinds of record as a candidate calls them, one and many. */
const kindWords: Readonly<Record<RecordKind, readonly [string, string]>> = {
  disciplines: ['discipline', 'disciplines'],
  systems: ['organ system', 'organ systems'],
  concepts: ['concept', 'concepts'],
  blocks: ['block', 'blocks'],
  items: ['item', 'items'],
  notes: ['note', 'notes'],
  readings: ['reading', 'readings'],
  readingEvents: ['reading read', 'readings read'],
  looks: ['second look', 'second looks'],
  lines: ['sheet line', 'sheet lines'],
  days: ['day', 'days'],
  settings: ['settings', 'settings'],
  topicMatches: ['matched topic name', 'matched topic names'],
  columnMappings: ['kind of file', 'kinds of file'],
  pictures: ['picture', 'pictures'],
  noteVersions: ['older version of a note', 'older versions of notes'],
  keptSearches: ['kept search', 'kept searches'],
  rehearsals: ['rehearsal', 'rehearsals'],
  plans: ['plan of a day', 'plans of days'],
  dismissals: ['proposal put away', 'proposals put away'],
  otherVersions: ['other version', 'other versions'],
};

export const kindName = (kind: RecordKind) => kindWords[kind][0];
export const kindNames = (kind: RecordKind) => kindWords[kind][1];

/** "4 minutes ago", "3 days ago", by the reader's language. */
export function ageText(at: number, now: number, locale: string): string {
  const relative = new Intl.RelativeTimeFormat(locale, { numeric: 'auto' });
  const minutes = Math.max(0, Math.round((now - at) / 60_000));
  if (minutes < 60) return relative.format(-minutes, 'minute');
  if (minutes < 60 * 36) return relative.format(-Math.round(minutes / 60), 'hour');
  return relative.format(-Math.round(minutes / 1_440), 'day');
}

/** "3.4 MB". */
export function bytesText(bytes: number, locale: string): string {
  const [value, unit] =
    bytes < 1e6
      ? [bytes / 1e3, 'kilobyte']
      : bytes < 1e9
        ? [bytes / 1e6, 'megabyte']
        : [bytes / 1e9, 'gigabyte'];
  return new Intl.NumberFormat(locale, {
    style: 'unit',
    unit,
    maximumFractionDigits: value < 10 ? 1 : 0,
  }).format(value);
}
