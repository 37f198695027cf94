/** The cells of the row at hand, read one field at a time, with a list of those that were no use. */
import type { NameMatch, TopicMatcher } from '../../model/match-topics';
import { looksLikeFormula, readText, rowFault, valueFault, type CellFault } from './cell-faults';
import type { ResultField } from './fields';
import { remembering } from './remembering';
import type { Table } from './table';
import type { RowFault, TableRow } from './table-rows';

/** Longest name that can be remembered, as in the model. */
export const longestName = 200;

/** What is said of a cell that a field cannot read. */
const typedFaults = {
  guessed: { reason: 'This is neither yes nor no.', mend: 'Write yes or no.' },
  time: { reason: 'This is not a time of day.', mend: 'Write it as 14:05.' },
  seconds: { reason: 'This is not a time in seconds.', mend: 'Write it as 75 or 1:15.' },
  reason: {
    reason: 'This is none of the seven reasons.',
    mend: 'Use the words of the review form, such as “not recalled”.',
  },
} as const satisfies Partial<Record<ResultField, CellFault>>;

const longNameFault: CellFault = {
  reason: `A name of more than ${longestName} characters is no name of a concept.`,
  mend: 'Separate several names by semicolons.',
};

export interface RowCells {
  begin(row: TableRow): void;
  /** The text of a field, empty when there is none or it cannot be kept. */
  textOf(field: ResultField, longest?: number): string;
  /** The value of a field, undefined when there is none or it cannot be read. */
  typed<T>(field: keyof typeof typedFaults, find: (cell: string) => T | undefined): T | undefined;
  /** The names in all columns of a field. */
  namesOf(field: 'topics' | 'causes'): readonly NameMatch[];
  end(): {
    /** Cells that do not come in though the row does. */
    readonly leftOut: readonly RowFault[];
    /** True when a text of the row looks like a formula; it is kept as text. */
    readonly formulaText: boolean;
  };
}

interface CellNames {
  readonly names: readonly NameMatch[];
  readonly faults: readonly (readonly [value: string, fault: CellFault])[];
  readonly formula: boolean;
}

const noFaults: readonly RowFault[] = [];
const noNames: readonly NameMatch[] = [];

/** One set of readers for all rows of a table: `begin` turns it to the next row. */
export function rowCells(
  table: Table,
  columns: Readonly<Record<ResultField, readonly number[]>>,
  matcher: TopicMatcher,
): RowCells {
  let row: TableRow = { row: 0, cells: [] };
  let leftOut: RowFault[] = [];
  let formulaText = false;

  const namesInCell = remembering((cell): CellNames => {
    const reading = readText(cell);
    if (reading.kind === 'fault')
      return { names: [], faults: [[cell, reading.fault]], formula: false };
    // Line ends separate names, so they must not have been made blanks.
    const { names } = matcher.matchCell(cell.includes('\n') ? cell : reading.text);
    return {
      names: names.filter((name) => name.folded.length <= longestName),
      faults: names
        .filter((name) => name.folded.length > longestName)
        .map((name) => [name.text, longNameFault] as const),
      formula: looksLikeFormula(cell),
    };
  });

  function leave(column: number, value: string, fault: CellFault): void {
    leftOut.push(rowFault(row.row, table.header[column] ?? '', value, fault));
  }

  function namesInColumn(column: number): readonly NameMatch[] {
    const cell = row.cells[column] ?? '';
    if (cell === '') return noNames;
    const found = namesInCell(cell);
    formulaText ||= found.formula;
    for (const [value, fault] of found.faults) leave(column, value, fault);
    return found.names;
  }

  return {
    begin(next) {
      row = next;
      leftOut = [];
      formulaText = false;
    },
    textOf(field, longest) {
      const column = columns[field][0];
      const cell = column === undefined ? '' : (row.cells[column] ?? '');
      if (column === undefined || cell === '') return '';
      formulaText ||= looksLikeFormula(cell);
      const reading = readText(cell, longest);
      if (reading.kind === 'text') return reading.text;
      leave(column, cell, reading.fault);
      return '';
    },
    typed(field, find) {
      const column = columns[field][0];
      const cell = column === undefined ? '' : (row.cells[column] ?? '');
      if (column === undefined || cell.trim() === '') return undefined;
      const value = find(cell);
      if (value === undefined) leave(column, cell, valueFault(cell) ?? typedFaults[field]);
      return value;
    },
    namesOf(field) {
      const [first, ...others] = columns[field];
      if (first === undefined) return noNames;
      const names = namesInColumn(first);
      return others.length === 0 ? names : [...names, ...others.flatMap(namesInColumn)];
    },
    end() {
      return { leftOut: leftOut.length === 0 ? noFaults : leftOut, formulaText };
    },
  };
}
