/** Rows to CSV that spreadsheets open without running anything. */

export type CsvValue = string | number | boolean | null | undefined;

/** First characters that make a spreadsheet take a cell for a formula (common practice, no source). */
const formulaStart = /^[=+\-@\t\r]/;

/**
 * CSV text: RFC 4180, section 2, with CRLF after every row, the last one too.
 *
 * Text that a spreadsheet would take for a formula gets an apostrophe in front,
 * which spreadsheets show as text; `withoutGuard` takes it off again. Numbers
 * are written as they are: -5 is a number, not a formula.
 *
 * @throws {RangeError} for a number that is not finite
 *
 * @example
 * writeCsv([['a', 'b "c"'], ['=1+1', -5]]); // 'a,"b ""c"""\r\n\'=1+1,-5\r\n'
 */
export function writeCsv(rows: readonly (readonly CsvValue[])[]): string {
  return rows.map((row) => `${row.map(csvCell).join(',')}\r\n`).join('');
}

/** The text of a cell without the apostrophe that `writeCsv` put in front of a formula. */
export function withoutGuard(cell: string): string {
  return /^'+[=+\-@\t\r]/.test(cell) ? cell.slice(1) : cell;
}

function csvCell(value: CsvValue): string {
  if (value === null || value === undefined) return '';
  if (typeof value === 'number') {
    if (!Number.isFinite(value))
      throw new RangeError(`writeCsv: got ${value}; need a finite number`);
    return String(value);
  }
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  // Text that already looks guarded is guarded once more, so that reading gives it back whole.
  const needsGuard = formulaStart.test(value) || withoutGuard(value) !== value;
  const text = needsGuard ? `'${value}` : value;
  return /[",\r\n]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
