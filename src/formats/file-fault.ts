/** Why a file as a whole cannot be read, and what the reader can do about it. */

export const fileFaultKinds = [
  'empty',
  'too-large',
  'workbook',
  'document',
  'archive',
  'picture',
  'binary',
  'encoding-unknown',
  'encoding-damaged',
  'page',
  'json',
  'one-column',
  'no-rows',
  'quotes-broken',
  'columns-too-many',
] as const;
export type FileFaultKind = (typeof fileFaultKinds)[number];

export interface FileFault {
  readonly kind: 'fault';
  readonly fault: FileFaultKind;
  /** What is wrong, in one sentence. */
  readonly message: string;
  /** What to do, in one sentence. */
  readonly mend: string;
  /** Line of the text, from 1, where one line is to blame. */
  readonly line?: number;
}

/** Something the reader should know about a file that was read. */
export interface FileNote {
  /** A `warning` may change what comes in; a `note` only explains how the file was read. */
  readonly level: 'warning' | 'note';
  readonly message: string;
  /** Rows of the file it is about, from 1 with the header counted; at most 20 are listed. */
  readonly rows?: readonly number[];
}

export function fileFault(
  fault: FileFaultKind,
  message: string,
  mend: string,
  line?: number,
): FileFault {
  return line === undefined
    ? { kind: 'fault', fault, message, mend }
    : { kind: 'fault', fault, message, mend, line };
}

/** Most rows named in one note. */
const mostRowsNamed = 20;

export function fileNote(
  level: FileNote['level'],
  message: string,
  rows?: readonly number[],
): FileNote {
  return rows ? { level, message, rows: rows.slice(0, mostRowsNamed) } : { level, message };
}

/** `plural(1, 'row')` is "1 row", `plural(2, 'row')` is "2 rows". */
export function plural(count: number, noun: string): string {
  return `${count.toLocaleString('en-GB')} ${noun}${count === 1 ? '' : 's'}`;
}
