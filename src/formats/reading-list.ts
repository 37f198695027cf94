/**
 * A list of readings, from a table with a header or from plain lines.
 *
 *     title,source,locator,minutes,kind,main,touched      The kidney at work; ch. 4; 25 min
 *     The kidney at work,Own script,ch. 4,25,text,a; b,   Buffers, 12 pages
 */
import { readingKinds } from '../model/study';
import { withoutControls } from '../model/text';
import { readCsv } from './csv-read';
import { withoutGuard } from './csv-write';

export interface ReadingRow {
  /** Row of the table, or line of the list, from 1. */
  readonly row: number;
  readonly title: string;
  readonly source: string;
  readonly locator: string;
  readonly minutes: number | undefined;
  readonly pages: number | undefined;
  readonly words: number | undefined;
  readonly kind: (typeof readingKinds)[number];
  /** Names of concepts as written, to be looked up on the map. */
  readonly main: readonly string[];
  readonly touched: readonly string[];
}

export interface ReadingListFault {
  readonly row: number;
  readonly message: string;
}

export interface ReadingList {
  readonly rows: readonly ReadingRow[];
  readonly faults: readonly ReadingListFault[];
  /** Whether the first line was read as a header. */
  readonly table: boolean;
}

type Field =
  'title' | 'source' | 'locator' | 'minutes' | 'pages' | 'words' | 'kind' | 'main' | 'touched';

/** Header words by field, as one might write them. */
const headerWords: Readonly<Record<string, Field>> = {
  title: 'title',
  name: 'title',
  reading: 'title',
  source: 'source',
  locator: 'locator',
  where: 'locator',
  chapter: 'locator',
  minutes: 'minutes',
  min: 'minutes',
  pages: 'pages',
  words: 'words',
  kind: 'kind',
  main: 'main',
  concepts: 'main',
  concept: 'main',
  'main concepts': 'main',
  touched: 'touched',
  'touched concepts': 'touched',
};

const longestTitle = 200;
const mostMinutes = 10_000;

/**
 * Reads a list of readings. Every line that does not come in is named with its fault and the mend.
 *
 * @param text pasted, or of a CSV or TSV file, without byte order mark
 */
export function readReadingList(text: string): ReadingList {
  const firstLine = text.split(/\r\n|\r|\n/).find((line) => line.trim() !== '') ?? '';
  const delimiter = [',', ';', '\t'].find((each) => {
    const fields = firstLine.split(each).map((cell) => fieldOf(cell));
    return fields.includes('title') && (fields.length > 1 || each === ',');
  });
  return delimiter === undefined ? readLines(text) : readRows(text, delimiter);
}

const fieldOf = (cell: string): Field | undefined =>
  headerWords[cell.replaceAll('"', '').trim().toLowerCase()];

function readRows(text: string, delimiter: string): ReadingList {
  const { records, broken } = readCsv(text, delimiter);
  const rows: ReadingRow[] = [];
  const faults: ReadingListFault[] = broken.map(({ row }) => ({
    row,
    message: 'a quotation mark is opened and never closed; close it, or double it inside the text',
  }));
  let fields: readonly (Field | undefined)[] | undefined;
  for (const { row, cells } of records) {
    if (cells.every((cell) => cell.trim() === '')) continue;
    if (!fields) {
      fields = cells.map(fieldOf);
      continue;
    }
    const values: Partial<Record<Field, string>> = {};
    for (const [k, field] of fields.entries())
      if (field) values[field] = clean(withoutGuard(cells[k] ?? ''));
    take(row, values, rows, faults);
  }
  return { rows, faults: faults.sort((a, b) => a.row - b.row), table: true };
}

/** "Title; source; locator; 25 min": the parts after the title in any number; amounts by their unit. */
function readLines(text: string): ReadingList {
  const rows: ReadingRow[] = [];
  const faults: ReadingListFault[] = [];
  for (const [k, line] of text.split(/\r\n|\r|\n/).entries()) {
    if (line.trim() === '') continue;
    const values: Partial<Record<Field, string>> = {};
    let rest = clean(line.replace(/^\s*(?:[-*•]|\d+[.)])\s+/, '').replaceAll('\t', ' ; '));
    rest = rest.replace(
      /[([]?\b(\d+(?:[.,]\d+)?)\s*(min(?:ute)?s?|pages?|pp?|words?)\b\.?[)\]]?/gi,
      (_match, amount: string, unit: string) => {
        const field = /^m/i.test(unit) ? 'minutes' : /^p/i.test(unit) ? 'pages' : 'words';
        // "1,500 words" has a thousands mark, "7,5 min" a decimal one.
        values[field] = /,\d{3}$/.test(amount) ? amount.replace(',', '') : amount.replace(',', '.');
        return '';
      },
    );
    const parts = rest
      .split(';')
      .map((part) => part.replace(/^[\s,]+|[\s,]+$/g, ''))
      .filter((part) => part !== '');
    [values.title, values.source, values.locator] = parts;
    if (parts.length > 3) values.locator = parts.slice(2).join('; ');
    take(k + 1, values, rows, faults);
  }
  return { rows, faults, table: false };
}

const clean = (text: string) => withoutControls(text).replace(/\s+/g, ' ').trim();

function take(
  row: number,
  values: Partial<Record<Field, string>>,
  rows: ReadingRow[],
  faults: ReadingListFault[],
): void {
  const fault = (message: string): void => {
    faults.push({ row, message });
  };
  const { title = '' } = values;
  if (title === '') {
    fault('there is no title; write one, it is how the reading is found again');
    return;
  }
  if (title.length > longestTitle) {
    fault(`the title is longer than ${longestTitle} characters; shorten it`);
    return;
  }
  const amounts: { minutes?: number; pages?: number; words?: number } = {};
  for (const field of ['minutes', 'pages', 'words'] as const) {
    const text = values[field] ?? '';
    if (text === '') continue;
    const amount = Number(text);
    const most = field === 'minutes' ? mostMinutes : field === 'pages' ? 10_000 : 10_000_000;
    if (!(amount > 0 && amount <= most)) {
      fault(
        `"${text}" is no number of ${field}; write one above 0, at most ${most}, or leave it empty`,
      );
      return;
    }
    amounts[field] = amount;
  }
  const kindText = (values.kind ?? '').toLowerCase();
  const kind = readingKinds.find((each) => each === kindText);
  if (kindText !== '' && kind === undefined) {
    fault(`"${values.kind}" is no kind of reading; write ${readingKinds.join(', ')}`);
    return;
  }
  rows.push({
    row,
    title,
    source: values.source ?? '',
    locator: values.locator ?? '',
    minutes: amounts.minutes,
    pages: amounts.pages,
    words: amounts.words,
    kind: kind ?? 'text',
    main: namesIn(values.main),
    touched: namesIn(values.touched),
  });
}

/** Names of concepts in one cell, parted by ";" or "|". */
function namesIn(cell = ''): string[] {
  return [...new Set(cell.split(/[;|]/).map((name) => name.trim()))].filter((name) => name !== '');
}
