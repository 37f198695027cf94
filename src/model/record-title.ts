/** What a record is called where it stands in a list with records of other kinds. */
import type { AnyRecord } from './records';
import { isoDay, type LocalDay } from './time';

/** Fields that tell a person which record is meant, the most telling first. */
const tellingFields = [
  'name',
  'title',
  'missingPiece',
  'heading',
  'text',
  'source',
  'alt',
  'reference',
  'about',
] as const;

/** Characters shown of it, so that a list stays a list. */
const mostCharacters = 80;

/**
 * A short text for a record: the first telling field that is filled in, its day, or its id.
 *
 * @example
 * recordTitle(noteOf('Starling forces')); // 'Starling forces'
 */
export function recordTitle(record: AnyRecord): string {
  const fields = record as unknown as Readonly<Record<string, unknown>>;
  for (const field of tellingFields) {
    const value = fields[field];
    const text = typeof value === 'string' ? value.trim() : '';
    if (text !== '') return shortened(text);
  }
  const { day } = fields;
  return typeof day === 'number' ? isoDay(day as LocalDay) : shortened(record.id);
}

function shortened(text: string): string {
  const characters = Array.from(text.replace(/\s+/g, ' '));
  if (characters.length <= mostCharacters) return characters.join('');
  return `${characters.slice(0, mostCharacters - 1).join('')}…`;
}
