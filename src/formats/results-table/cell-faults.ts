/** Cells that are no values, and text cells made safe to keep. */
import { withoutControls } from '../../model/text';
import { withoutGuard } from '../csv-write';
import { excerpt, type RowFault } from './table-rows';

export interface CellFault {
  readonly reason: string;
  readonly mend: string;
}

/** Longest text kept from a cell: the bound of a line of text in the model. */
const longestText = 2_000;

const errorValue = /^#(REF!|N\/A|VALUE!|NAME\?|DIV\/0!|NUM!|NULL!|SPILL!|CALC!)$/i;

/** A text that a spreadsheet would run: "=A1+1", "@SUM(A1)", "+cmd|..."; "-5" is a number. */
export function looksLikeFormula(cell: string): boolean {
  return /^\s*(=|@|[+-](?=[A-Za-z(]))/.test(cell) && cell.trim().length > 1;
}

/** Why a cell of a typed column cannot hold a value at all; undefined when it may. */
export function valueFault(cell: string): CellFault | undefined {
  if (errorValue.test(cell.trim())) {
    return {
      reason: 'The cell holds an error of the spreadsheet.',
      mend: 'Correct it in the spreadsheet and export again.',
    };
  }
  if (looksLikeFormula(cell)) {
    return {
      reason: 'The cell holds a formula, not its result.',
      mend: 'Export values instead of formulas.',
    };
  }
  return undefined;
}

export type TextReading =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'fault'; readonly fault: CellFault };

/** One line of text from a cell: trimmed, line ends as blanks, nothing else changed. */
export function readText(cell: string, most = longestText): TextReading {
  if (cell.includes('#') && errorValue.test(cell.trim())) {
    return { kind: 'fault', fault: valueFault(cell)! };
  }
  const trimmed = withoutControls(withoutGuard(cell.trim()));
  const text = /[\r\n]/.test(trimmed) ? trimmed.replace(/\s*[\r\n]+\s*/g, ' ') : trimmed;
  if (text.length <= most) return { kind: 'text', text };
  return {
    kind: 'fault',
    fault: {
      reason: `The text has ${text.length.toLocaleString('en-GB')} characters; at most ${most.toLocaleString('en-GB')} are kept.`,
      mend: 'Shorten it, or keep it as a note.',
    },
  };
}

export function rowFault(row: number, column: string, value: string, fault: CellFault): RowFault {
  return { row, column, value: excerpt(value), reason: fault.reason, mend: fault.mend };
}
