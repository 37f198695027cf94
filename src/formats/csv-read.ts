/**
 * Delimited text to records, with broken quotes kept apart instead of guessed at.
 *
 * Source: RFC 4180, section 2, with these liberties: other delimiters, any line
 * ends (inside quotes they become "\n"), blanks after a closing quote, and
 * quotes as plain characters in a cell that does not begin with one.
 */
import papaparse from 'papaparse/papaparse.min.js';

export interface CsvRecord {
  /** Place in the file, from 1, blank records counted: the row number a spreadsheet shows. */
  readonly row: number;
  /** Line of the text on which it begins, from 1. */
  readonly line: number;
  readonly cells: readonly string[];
}

/** A line whose quotes are broken. */
export interface BrokenRecord {
  readonly row: number;
  readonly line: number;
  /** The line as it stands in the file. */
  readonly text: string;
}

export interface CsvRecords {
  readonly records: readonly CsvRecord[];
  readonly broken: readonly BrokenRecord[];
  /** False when so many quotes were broken that reading stopped. */
  readonly complete: boolean;
}

/** Broken lines after which the rest is not worth reading: such a file is not CSV. */
const mostBroken = 1_000;

/**
 * The parser runs to the end of its text after a broken quote, so it is given
 * windows: small after a break, larger while all is well. A record that does not
 * fit the largest counts as broken (an item's text is a few thousand characters).
 */
const smallestWindow = 4_096;
const usualWindow = 262_144;
const largestWindow = 1_048_576;

/**
 * Reads delimited text.
 *
 * A record with a broken quote is given up with its first line only, and reading
 * goes on at the next line: an unclosed quote would otherwise swallow good rows.
 * Linear in the length plus a bounded look ahead for each broken line.
 *
 * @param text without byte order mark
 * @param delimiter one character
 *
 * @example
 * readCsv('a,"b ""c"""\r\n', ',').records[0].cells; // ["a", "b \"c\""]
 */
export function readCsv(text: string, delimiter: string): CsvRecords {
  // One kind of line end: the parser takes a single one for the whole file.
  const unified = text.replace(/\r\n?/g, '\n');
  const records: CsvRecord[] = [];
  const broken: BrokenRecord[] = [];
  let start = 0;
  let line = 1;
  let row = 1;
  let size = usualWindow;

  while (start < unified.length && broken.length < mostBroken) {
    const end = windowEnd(unified, start, size);
    const part = unified.slice(start, end);
    const { data, errors } = papaparse.parse(part, { delimiter, newline: '\n' });
    const faulty = errors.find((error) => error.type === 'Quotes');
    // After a last line break the parser sees one more, empty record.
    const whole = faulty?.row ?? (part.endsWith('\n') ? data.length - 1 : data.length);

    const firstLine = line;
    for (let i = 0; i < whole; i += 1) {
      const cells = data[i]!;
      records.push({ row, line, cells });
      line += 1 + breaksIn(cells);
      row += 1;
    }
    if (!faulty) {
      start = end;
      size = Math.min(size * 4, usualWindow);
      continue;
    }
    start += offsetOfLine(part, line - firstLine);
    if (faulty.code === 'MissingQuotes' && end < unified.length && size < largestWindow) {
      // The quote may be closed beyond the window.
      size = Math.min(Math.max(size, end - start) * 4, largestWindow);
      continue;
    }
    const stop = endOfLine(unified, start);
    broken.push({ row, line, text: unified.slice(start, stop).replace(/\n$/, '') });
    start = stop;
    line += 1;
    row += 1;
    size = smallestWindow;
  }
  return { records, broken, complete: start >= unified.length };
}

/** Where a window of about `size` ends: after a line break, or at the end of the text. */
function windowEnd(text: string, start: number, size: number): number {
  const near = start + size;
  return near >= text.length ? text.length : endOfLine(text, near);
}

/** Index after the next line break, or the end of the text. */
function endOfLine(text: string, from: number): number {
  const at = text.indexOf('\n', from);
  return at === -1 ? text.length : at + 1;
}

/** Where a line begins, counted from 0. */
function offsetOfLine(text: string, line: number): number {
  let at = 0;
  for (let i = 0; i < line; i += 1) at = endOfLine(text, at);
  return at;
}

function breaksIn(cells: readonly string[]): number {
  let count = 0;
  for (const cell of cells) {
    for (let at = cell.indexOf('\n'); at !== -1; at = cell.indexOf('\n', at + 1)) count += 1;
  }
  return count;
}
