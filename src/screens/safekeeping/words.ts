/** The words of Safekeeping. */
import type { RecordKind } from '../../model/records';
import { texts } from './texts';

/** Kinds of record as a candidate calls them, one and many. */
const kindWords: Readonly<Record<RecordKind, readonly [string, string]>> = {
  disciplines: [texts.words.discipline, texts.words.disciplines],
  systems: [texts.words.organSystem, texts.words.organSystems],
  concepts: [texts.words.concept, texts.words.concepts],
  blocks: [texts.words.block, texts.words.blocks],
  items: [texts.words.item, texts.words.items],
  notes: [texts.words.note, texts.words.notes],
  readings: [texts.words.reading, texts.words.readings],
  readingEvents: [texts.words.readingRead, texts.words.readingsRead],
  looks: [texts.words.secondLook, texts.words.secondLooks],
  lines: [texts.words.sheetLine, texts.words.sheetLines],
  days: [texts.words.day, texts.words.days],
  settings: [texts.words.settings, texts.words.settings],
  topicMatches: [texts.words.matchedTopicName, texts.words.matchedTopicNames],
  columnMappings: [texts.words.kindOfFile, texts.words.kindsOfFile],
  pictures: [texts.words.picture, texts.words.pictures],
  noteVersions: [texts.words.olderVersionOfANote, texts.words.olderVersionsOfNotes],
  keptSearches: [texts.words.keptSearch, texts.words.keptSearches],
  rehearsals: [texts.words.rehearsal, texts.words.rehearsals],
  plans: [texts.words.planOfADay, texts.words.plansOfDays],
  dismissals: [texts.words.proposalPutAway, texts.words.proposalsPutAway],
  otherVersions: [texts.words.otherVersion, texts.words.otherVersions],
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
