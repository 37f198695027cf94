/** The rows of a table, fitted to the width of its header. */
import type { CsvRecord } from '../csv-read';
import { fileNote, plural, type FileNote } from '../file-fault';

export interface TableRow {
  /** As in the file, from 1, header and blank rows counted. */
  readonly row: number;
  /** One cell for each column of the header. */
  readonly cells: readonly string[];
}

/** A row or cell that does not come in, why, and how to mend it. */
export interface RowFault {
  /** As in the file, from 1, header and blank rows counted. */
  readonly row: number;
  /** The header of the column, or empty when the whole row is meant. */
  readonly column: string;
  /** The cell as it stands in the file, cut at 200 characters. */
  readonly value: string;
  readonly reason: string;
  readonly mend: string;
}

export const delimiters = [',', ';', '\t', '|'] as const;
export type Delimiter = (typeof delimiters)[number];

const delimiterWords: Readonly<Record<Delimiter, string>> = {
  ',': 'commas',
  ';': 'semicolons',
  '\t': 'tabs',
  '|': 'upright bars',
};

/** Rows as wide as the header; those too long, or cut off by the end of the file, apart. */
export function fitRows(
  data: readonly CsvRecord[],
  width: number,
  longest: number,
  lastRow: CsvRecord | undefined,
  delimiter: Delimiter,
): {
  readonly rows: readonly TableRow[];
  readonly rejected: readonly RowFault[];
  readonly notes: readonly FileNote[];
} {
  const rows: TableRow[] = [];
  const rejected: RowFault[] = [];
  const short: number[] = [];
  for (const record of data) {
    const { row, cells } = record;
    const used = lastFilled(cells) + 1;
    if (used > width || cells.length > Math.max(width, longest)) {
      rejected.push({
        row,
        column: '',
        value: excerpt(cells.join(delimiter)),
        reason: `The row has ${Math.max(used, cells.length)} cells, the header ${width}.`,
        mend: `Put cells that hold ${delimiterWords[delimiter]} in double quotes.`,
      });
    } else if (cells.length < width && record === lastRow) {
      rejected.push({
        row,
        column: '',
        value: excerpt(cells.join(delimiter)),
        reason: `The last row has ${cells.length} cells, the header ${width}: the file was probably cut off.`,
        mend: 'Export the file again, or complete the row.',
      });
    } else {
      if (cells.length < width) short.push(row);
      rows.push({ row, cells: cells.length === width ? cells : fitted(cells, width) });
    }
  }
  const message = `${plural(short.length, 'row')} had fewer cells than the header; the missing ones were read as empty.`;
  return { rows, rejected, notes: short.length > 0 ? [fileNote('warning', message, short)] : [] };
}

/**
 * Cells of a row that are no surprise: those of the header, empty ones at its end
 * counted, or of nine rows in ten. One cell more means a delimiter inside a cell, and
 * everything after it stands in the wrong column, even when the last one is empty.
 */
export function longestUsual(header: CsvRecord | undefined, data: readonly CsvRecord[]): number {
  const lengths = data.map((record) => record.cells.length).sort((a, b) => a - b);
  return Math.max(header?.cells.length ?? 0, lengths[Math.floor(lengths.length / 10)] ?? 0);
}

function fitted(cells: readonly string[], width: number): readonly string[] {
  return Array.from({ length: width }, (_, column) => cells[column] ?? '');
}

/** Cells are shown, not stored, in a fault: enough to recognise them. */
export function excerpt(text: string): string {
  return text.length > 200 ? `${text.slice(0, 199)}…` : text;
}

/** Index of the last cell with anything in it, or -1. */
export function lastFilled(cells: readonly string[]): number {
  return cells.findLastIndex((cell) => cell.trim() !== '');
}
