/** Which column of a table holds what: guessed from headers first, then from contents. */
import { findClockMinutes, parseDateCell } from './dates';
import { findFieldOfHeader, repeatableFields, type ResultField } from './fields';
import { findSeconds, findWholeNumber } from './numbers';
import { readOutcomeWord } from './outcome-words';
import { findReason } from './reason-words';
import type { Table } from './table';

/** What each column holds, in the order of the columns; null for a column that is left out. */
export interface ColumnMapping {
  readonly fields: readonly (ResultField | null)[];
}

export interface GuessedColumns extends ColumnMapping {
  /** What each guess rests on; null where there is none. */
  readonly from: readonly ('header' | 'contents' | null)[];
}

/** Cells looked at in each column. */
const sampleSize = 200;

/**
 * The mapping that headers and contents suggest; the reader can change it.
 *
 * A header counts only when the cells below do not contradict it (a column
 * "Question" full of sentences holds no item numbers). Each field is given to
 * one column, topics and named causes to as many as claim them.
 *
 * @example
 * guessColumns(table).fields; // ["date", "position", "outcome", null]
 */
export function guessColumns(table: Table): GuessedColumns {
  const samples = table.header.map((_, column) => sampleOf(table, column));
  const fields: (ResultField | null)[] = table.header.map(() => null);
  const from: ('header' | 'contents' | null)[] = table.header.map(() => null);
  const taken = new Set<ResultField>();

  function give(column: number, field: ResultField, basis: 'header' | 'contents'): void {
    if (fields[column] !== null || (taken.has(field) && !repeatableFields.has(field))) return;
    fields[column] = field;
    from[column] = basis;
    taken.add(field);
  }

  if (table.hasHeader) {
    const readings = table.header.map((header, column) => {
      const reading = findFieldOfHeader(header);
      const field = reading && settled(reading.field, header, samples[column]!);
      return field ? { field, exact: reading.exact } : undefined;
    });
    for (const exact of [true, false]) {
      readings.forEach((reading, column) => {
        if (reading?.exact === exact) give(column, reading.field, 'header');
      });
    }
  }
  for (const [field, fits] of contentTests) {
    if (taken.has(field)) continue;
    const column = samples.findIndex((sample, at) => fields[at] === null && fits(sample));
    if (column !== -1) give(column, field, 'contents');
  }
  return { fields, from };
}

/** A mapping with one column changed; a field that allows one column only leaves its old one. */
export function withField(
  mapping: ColumnMapping,
  column: number,
  field: ResultField | null,
): ColumnMapping {
  const fields = mapping.fields.map((old, at) => {
    if (at === column) return field;
    return field !== null && old === field && !repeatableFields.has(field) ? null : old;
  });
  return { fields };
}

/** Columns that hold a field. */
export function columnsOf(mapping: ColumnMapping, field: ResultField): readonly number[] {
  return mapping.fields.flatMap((each, column) => (each === field ? [column] : []));
}

function sampleOf(table: Table, column: number): readonly string[] {
  const cells: string[] = [];
  for (const { cells: row } of table.rows) {
    const cell = row[column]?.trim() ?? '';
    if (cell !== '') cells.push(cell);
    if (cells.length === sampleSize) break;
  }
  return cells;
}

/** The header's field once the cells have had their say; undefined when they speak against it. */
function settled(
  field: ResultField,
  header: string,
  sample: readonly string[],
): ResultField | undefined {
  if (sample.length === 0) return field;
  const share = (test: (cell: string) => boolean) => sample.filter(test).length / sample.length;
  const saysOutcome = (cell: string) => readOutcomeWord(cell).kind === 'says';
  switch (field) {
    case 'time':
      // "Time" is a clock time or a time spent: "14:05", or "75" and "1:15".
      if (/spent|taken|used|sec|dur/i.test(header)) return 'seconds';
      if (share((cell) => parseDateCell(cell).kind !== 'none') > 0.5) return 'date';
      if (share((cell) => findClockMinutes(cell) !== undefined) >= 0.5) return 'time';
      return share((cell) => findSeconds(cell) !== undefined) >= 0.5 ? 'seconds' : undefined;
    case 'date':
      return share((cell) => parseDateCell(cell).kind !== 'none') >= 0.2 ? 'date' : undefined;
    case 'position':
      // "Items" and "Item" are one wording: 40, 40, 40 counts a block, 1, 2, 3 its items.
      if (repeats(sample)) return 'itemCount';
      return share((cell) => findWholeNumber(cell) !== undefined) >= 0.5 ? 'position' : undefined;
    case 'outcome':
      return share((cell) => readOutcomeWord(cell).kind !== 'unknown') >= 0.2
        ? 'outcome'
        : undefined;
    case 'chosen':
      // "Answer" may hold the letter or the verdict.
      return share((cell) => saysOutcome(cell) && cell.length > 1) >= 0.8 ? 'outcome' : 'chosen';
    case 'itemCount':
    case 'minutesGiven':
    case 'minutesUsed':
      return share((cell) => /^\d/.test(cell)) >= 0.5 ? field : undefined;
    default:
      return field;
  }
}

const most = (sample: readonly string[], least: number, test: (cell: string) => boolean): boolean =>
  sample.length > 0 && sample.filter(test).length >= sample.length * least;

/** Tests of a column's cells, for fields that no header named; tried in this order. */
const contentTests: readonly (readonly [ResultField, (sample: readonly string[]) => boolean])[] = [
  [
    'date',
    (sample) =>
      most(sample, 0.8, (cell) => {
        const { kind } = parseDateCell(cell);
        return kind === 'day' || kind === 'ordered';
      }),
  ],
  [
    'outcome',
    (sample) => {
      const kinds = sample.map((cell) => readOutcomeWord(cell).kind);
      const saying = kinds.filter((kind) => kind === 'says' || kind === 'tick' || kind === 'cross');
      // Letters such as "C" are words for right as well as options.
      const longEnough = sample.some((cell) => cell.length > 1 || /[^a-z]/i.test(cell));
      return longEnough && sample.length > 0 && saying.length >= sample.length * 0.9;
    },
  ],
  ['reason', (sample) => most(sample, 0.6, (cell) => findReason(cell) !== undefined)],
  ['position', countsUp],
];

/** Mostly the same number as in the cell before. */
function repeats(sample: readonly string[]): boolean {
  const same = sample.slice(1).filter((cell, i) => cell === sample[i]);
  return sample.length >= 5 && same.length >= (sample.length - 1) * 0.8;
}

/** Mostly one more than the cell before. */
function countsUp(sample: readonly string[]): boolean {
  const numbers = sample.map(findWholeNumber);
  const steps = numbers.slice(1).filter((number, i) => {
    const before = numbers[i];
    return number !== undefined && before !== undefined && number === before + 1;
  });
  return numbers.length >= 2 && steps.length >= (numbers.length - 1) * 0.7;
}
