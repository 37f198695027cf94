/** Text to a table: delimiter, header, rows, and what could not be read. */
import { readCsv, type BrokenRecord, type CsvRecord } from '../csv-read';
import { fileFault, fileNote, plural, type FileFault, type FileNote } from '../file-fault';
import { parseDateCell } from './dates';
import { findFieldOfHeader } from './fields';
import { readOutcomeWord } from './outcome-words';
import {
  delimiters,
  excerpt,
  fitRows,
  lastFilled,
  longestUsual,
  type Delimiter,
  type RowFault,
  type TableRow,
} from './table-rows';

export interface Table {
  readonly kind: 'table';
  /** Column names; "column 3" where the file has none. */
  readonly header: readonly string[];
  readonly hasHeader: boolean;
  readonly rows: readonly TableRow[];
  readonly delimiter: Delimiter;
  /** Rows that could not be read at all. */
  readonly rejected: readonly RowFault[];
  readonly blankRows: number;
  readonly notes: readonly FileNote[];
}

export interface ReadTableOptions {
  /** Overrides the guess. */
  readonly delimiter?: Delimiter;
  /** Overrides the guess. */
  readonly hasHeader?: boolean;
  /** Pasted text ends where the selection did: that no line break follows says nothing. */
  readonly pasted?: boolean;
}

/** Columns beyond which this is no results table. */
const mostColumns = 500;
/** Records looked at to guess. */
const sampleRows = 50;
/** Characters looked at to guess the delimiter. */
const sampleLength = 20_000;
/** Lines above the header (a title, an empty line) that are stepped over. */
const longestPreamble = 10;

/**
 * Reads delimited text into a table.
 *
 * Short rows are filled up with empty cells (spreadsheets leave trailing ones
 * out), except a last row that the end of the file may have cut off. Rows that
 * are too long, and lines with broken quotes, are rejected. Linear in the length.
 *
 * @param text decoded text, as from `decodeTextFile` or pasted
 *
 * @example
 * readTable('Date;Result\n2026-03-04;right'); // kind "table", delimiter ";", one row
 */
export function readTable(text: string, options: ReadTableOptions = {}): Table | FileFault {
  const body = text.startsWith('\ufeff') ? text.slice(1) : text;
  const fault = notATable(body);
  if (fault) return fault;

  const delimiter = options.delimiter ?? guessDelimiter(body);
  const { records, broken, complete } = readCsv(body, delimiter);
  const firstBroken = broken[0];
  if (firstBroken && (!complete || broken.length > records.length)) return brokenFault(firstBroken);

  const filled = records.filter((record) => !isBlank(record));
  const headerAt = findHeader(filled, options.hasHeader);
  const headerRecord = headerAt === undefined ? undefined : filled[headerAt];
  const body0 = headerAt === undefined ? 0 : headerAt + 1;
  const width = headerRecord
    ? lastFilled(headerRecord.cells) + 1
    : Math.max(0, ...filled.slice(0, sampleRows).map((record) => lastFilled(record.cells) + 1));

  if (width > mostColumns) {
    return fileFault(
      'columns-too-many',
      `The first row has ${plural(width, 'cell')}; at most ${mostColumns} can be read.`,
      'Check that this is a table with one item on each row.',
    );
  }
  const data = filled.slice(body0);
  if (data.length === 0 && broken.length === 0) {
    return fileFault(
      'no-rows',
      'The table has a header but no rows.',
      'Export the results again, with their rows.',
    );
  }
  if (width < 2) {
    return fileFault(
      'one-column',
      'The text has one column only.',
      'Separate the cells by commas, semicolons or tabs; pasting from a spreadsheet does.',
    );
  }
  const ended = options.pasted === true || body.endsWith('\n') || body.endsWith('\r');
  const lastRow = ended ? undefined : records.at(-1);
  const split = fitRows(data, width, longestUsual(headerRecord, data), lastRow, delimiter);
  return {
    kind: 'table',
    header: headerNames(headerRecord, width),
    hasHeader: headerRecord !== undefined,
    rows: split.rows,
    delimiter,
    rejected: [...broken.map(brokenRow), ...split.rejected].sort((a, b) => a.row - b.row),
    blankRows: records.length - filled.length,
    notes: [
      ...preambleNotes(filled.slice(0, headerAt ?? 0)),
      ...split.notes,
      ...cutOffNotes(lastRow, split.rows),
    ],
  };
}

function notATable(text: string): FileFault | undefined {
  if (text.trim() === '') {
    return fileFault('empty', 'There is no text.', 'Paste the rows with their header.');
  }
  if (/^\s*(<!doctype|<html|<table|<\?xml)/i.test(text)) {
    return fileFault(
      'page',
      'This is a web page, not a table of text.',
      'Copy the table from the page and paste it, or save it as CSV.',
    );
  }
  if (/^\s*(\{\s*"|\[\s*[[{])/.test(text)) {
    return fileFault(
      'json',
      'This is JSON, not a table.',
      'A backup is restored under Safekeeping; results come in as CSV.',
    );
  }
  return undefined;
}

/** The delimiter that splits most rows of a sample into the same number of cells, two at least. */
export function guessDelimiter(text: string): Delimiter {
  const near = text.indexOf('\n', sampleLength);
  const sample = near === -1 ? text : text.slice(0, near + 1);
  let best: { delimiter: Delimiter; score: number } = { delimiter: ',', score: 0 };
  for (const delimiter of delimiters) {
    const widths = readCsv(sample, delimiter)
      .records.filter((record) => !isBlank(record))
      .slice(0, sampleRows)
      .map((record) => record.cells.length);
    const counts = new Map<number, number>();
    for (const width of widths) if (width > 1) counts.set(width, (counts.get(width) ?? 0) + 1);
    for (const [width, count] of counts) {
      // Agreement first; among equals the one that splits more, a little.
      const score = count / widths.length + Math.min(width, 20) / 1_000;
      if (score > best.score) best = { delimiter, score };
    }
  }
  return best.delimiter;
}

/** Index of the header among the records; undefined when the rows begin at once. */
function findHeader(
  records: readonly CsvRecord[],
  wanted: boolean | undefined,
): number | undefined {
  if (wanted === false || records.length === 0) return undefined;
  const known = records
    .slice(0, longestPreamble)
    .map(({ cells }) => cells.filter((cell) => findFieldOfHeader(cell)?.exact).length);
  const at = known.findIndex((count) => count >= 2);
  if (at !== -1) return at;
  if (wanted) return 0;
  const first = records[0]!.cells;
  if (first.some(isData)) return undefined;
  return known[0] || records.length > 1 ? 0 : undefined;
}

/** A cell that no header has: a date, a number, a result. */
function isData(cell: string): boolean {
  if (/^\s*[\d.,:%]+\s*$/.test(cell)) return true;
  if (findFieldOfHeader(cell)) return false;
  return parseDateCell(cell).kind !== 'none' || readOutcomeWord(cell).kind === 'says';
}

function headerNames(record: CsvRecord | undefined, width: number): readonly string[] {
  return Array.from({ length: width }, (_, column) => {
    const name = record?.cells[column]?.replace(/\s+/g, ' ').trim() ?? '';
    return name === '' ? `column ${column + 1}` : name;
  });
}

function preambleNotes(records: readonly CsvRecord[]): readonly FileNote[] {
  if (records.length === 0) return [];
  const message = `${plural(records.length, 'line')} above the header ${records.length === 1 ? 'was' : 'were'} stepped over.`;
  return [
    fileNote(
      'note',
      message,
      records.map((record) => record.row),
    ),
  ];
}

/** A cut in the last cell leaves no other trace than the missing line break. */
function cutOffNotes(
  lastRow: CsvRecord | undefined,
  rows: readonly TableRow[],
): readonly FileNote[] {
  if (!lastRow || rows.at(-1)?.row !== lastRow.row) return [];
  const message =
    'No line break follows the last row. If the file was cut off, its last cell is incomplete: look at it.';
  return [fileNote('note', message, [lastRow.row])];
}

function brokenFault({ line, text }: BrokenRecord): FileFault {
  return fileFault(
    'quotes-broken',
    `Quotes are broken in most rows, first at line ${line}: ${excerpt(text)}`,
    'Export again as CSV; inside a quoted cell each double quote must be doubled.',
    line,
  );
}

function brokenRow({ row, line, text }: BrokenRecord): RowFault {
  return {
    row,
    column: '',
    value: excerpt(text),
    reason: `The double quotes on line ${line} do not match.`,
    mend: 'Close the quote, or double the quotes that belong to the text.',
  };
}

function isBlank(record: CsvRecord): boolean {
  return lastFilled(record.cells) === -1;
}
