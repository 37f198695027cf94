/** The text of a file from its bytes, whatever encoding it was saved in. */
import { fileFault, fileNote, plural, type FileFault, type FileNote } from './file-fault';
import { scanUtf8 } from './utf8-scan';
import { decodeWindows1252 } from './windows-1252';

/** A platform global outside the language's own library; only this much of it is used. */
declare const TextDecoder: new (
  encoding: string,
  options: { fatal: boolean; ignoreBOM: boolean },
) => { decode(bytes: Uint8Array): string };

export type TextEncoding = 'UTF-8' | 'UTF-16LE' | 'UTF-16BE' | 'Windows-1252';

export interface TextFile {
  readonly kind: 'text';
  /** Without byte order mark. */
  readonly text: string;
  readonly encoding: TextEncoding;
  readonly notes: readonly FileNote[];
}

/** 50 MB: some forty times a year of items; beyond it a phone may run out of memory. */
export const defaultByteLimit = 50_000_000;

/** Bytes looked at to tell text from the rest. */
const sampleSize = 4_096;

const saveAsCsv = 'Save it as CSV (UTF-8) in the program that made it, and open that file.';

/** First bytes of formats that are met in place of text. From memory of their descriptions. */
const signatures: readonly (readonly [readonly number[], () => FileFault])[] = [
  [
    [0x50, 0x4b, 0x03, 0x04],
    () =>
      fileFault(
        'workbook',
        'This is a spreadsheet workbook or a zip archive, not text.',
        saveAsCsv,
      ),
  ],
  [
    [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1],
    () =>
      fileFault(
        'workbook',
        'This is a spreadsheet workbook of an older kind, not text.',
        saveAsCsv,
      ),
  ],
  [
    [0x25, 0x50, 0x44, 0x46, 0x2d],
    () =>
      fileFault(
        'document',
        'This is a PDF document, not a table.',
        'Export the results as CSV instead.',
      ),
  ],
  [
    [0x7b, 0x5c, 0x72, 0x74, 0x66],
    () => fileFault('document', 'This is a rich text document, not a table.', saveAsCsv),
  ],
  [
    [0x1f, 0x8b],
    () =>
      fileFault('archive', 'This is a compressed file.', 'Unpack it and open the CSV file inside.'),
  ],
  ...[
    [0x89, 0x50, 0x4e, 0x47],
    [0xff, 0xd8, 0xff],
    [0x47, 0x49, 0x46, 0x38],
  ].map(
    (bytes) =>
      [
        bytes,
        () =>
          fileFault(
            'picture',
            'This is a picture, not text.',
            'Export the results as CSV instead.',
          ),
      ] as const,
  ),
];

/**
 * Decodes a file: UTF-8, UTF-16 with or without its mark, else Windows-1252 with a warning.
 *
 * Bytes that are mostly UTF-8 but damaged are refused rather than guessed at,
 * with the line of the first damage. A character cut off by the end of the
 * file is dropped with a warning.
 *
 * @param byteLimit larger files are refused
 *
 * @example
 * decodeTextFile(new Uint8Array([0xef, 0xbb, 0xbf, 0x61])); // text "a", encoding "UTF-8"
 */
export function decodeTextFile(
  bytes: Uint8Array,
  byteLimit = defaultByteLimit,
): TextFile | FileFault {
  if (bytes.length === 0) {
    return fileFault('empty', 'The file is empty.', 'Export the results again.');
  }
  if (bytes.length > byteLimit) {
    return fileFault(
      'too-large',
      `The file has ${megabytes(bytes.length)}; at most ${megabytes(byteLimit)} can be read.`,
      'Split it by date into smaller files.',
    );
  }
  for (const [signature, fault] of signatures) if (startsWith(bytes, signature)) return fault();

  if (startsWith(bytes, [0xff, 0xfe, 0, 0]) || startsWith(bytes, [0, 0, 0xfe, 0xff])) {
    return fileFault('encoding-unknown', 'The file is saved as UTF-32.', 'Save it as CSV (UTF-8).');
  }
  const decoded = decode(bytes);
  if (decoded.kind === 'fault') return decoded;
  if (decoded.text.trim() === '') {
    return fileFault('empty', 'The file holds nothing but blanks.', 'Export the results again.');
  }
  return (
    binaryFault(decoded.text) ?? {
      ...decoded,
      notes: [...decoded.notes, ...lostNotes(decoded.text)],
    }
  );
}

function decode(bytes: Uint8Array): TextFile | FileFault {
  if (startsWith(bytes, [0xff, 0xfe])) return decodeUtf16(bytes.subarray(2), 'UTF-16LE', []);
  if (startsWith(bytes, [0xfe, 0xff])) return decodeUtf16(bytes.subarray(2), 'UTF-16BE', []);
  const unmarked = unmarkedUtf16(bytes);
  if (unmarked) {
    const note = fileNote(
      'note',
      `The file does not name its encoding; it was read as ${unmarked}.`,
    );
    return decodeUtf16(bytes, unmarked, [note]);
  }
  const body = startsWith(bytes, [0xef, 0xbb, 0xbf]) ? bytes.subarray(3) : bytes;
  const text = decodeStrictly(body, 'utf-8');
  if (text !== undefined) return { kind: 'text', text, encoding: 'UTF-8', notes: [] };
  return decodeDamaged(body);
}

/** Bytes that are not well-formed UTF-8: cut off, damaged, or another encoding. */
function decodeDamaged(bytes: Uint8Array): TextFile | FileFault {
  const scan = scanUtf8(bytes);
  // With no other sequence to show that this is UTF-8, a last byte above 0x7f may as well be a letter.
  if (scan.cutAtEnd && scan.wellFormed > 0) {
    const text = decodeStrictly(bytes.subarray(0, scan.firstStray), 'utf-8');
    if (text !== undefined) {
      const cut = 'The file ends in the middle of a character: it was probably cut off.';
      return { kind: 'text', text, encoding: 'UTF-8', notes: [fileNote('warning', cut)] };
    }
  }
  const line = lineAt(bytes, scan.firstStray);
  // By chance Windows-1252 text hardly ever holds a well-formed sequence (a pair such as "Ã¤").
  if (scan.wellFormed > scan.stray) {
    return fileFault(
      'encoding-damaged',
      `The text is UTF-8 but damaged at line ${line}.`,
      'Export the file again; if that line was pasted from elsewhere, type it anew.',
      line,
    );
  }
  const message =
    `The file is not UTF-8; it was read as Windows-1252. ` +
    `Look at line ${line}: if letters there are wrong, save the file as CSV (UTF-8).`;
  const notes = [fileNote('warning', message)];
  return { kind: 'text', text: decodeWindows1252(bytes), encoding: 'Windows-1252', notes };
}

function decodeUtf16(
  bytes: Uint8Array,
  encoding: 'UTF-16LE' | 'UTF-16BE',
  notes: readonly FileNote[],
): TextFile | FileFault {
  const even = bytes.subarray(0, bytes.length - (bytes.length % 2));
  const text = decodeStrictly(encoding === 'UTF-16LE' ? even : swapped(even), 'utf-16le');
  if (text === undefined) {
    return fileFault(
      'encoding-damaged',
      `The text is ${encoding} but damaged.`,
      'Export the file again, as CSV (UTF-8) if there is a choice.',
    );
  }
  const cut = 'The file ends in the middle of a character: it was probably cut off.';
  const cutNotes = even.length < bytes.length ? [fileNote('warning', cut)] : [];
  return { kind: 'text', text, encoding, notes: [...notes, ...cutNotes] };
}

/** Western text in UTF-16 has a zero in every other byte. */
function unmarkedUtf16(bytes: Uint8Array): 'UTF-16LE' | 'UTF-16BE' | undefined {
  const sample = bytes.subarray(0, sampleSize);
  const zeros = [0, 0];
  sample.forEach((byte, i) => {
    if (byte === 0) zeros[i % 2]! += 1;
  });
  const many = sample.length * 0.3;
  if (zeros[0] === 0 && zeros[1]! > many) return 'UTF-16LE';
  return zeros[1] === 0 && zeros[0]! > many ? 'UTF-16BE' : undefined;
}

function swapped(bytes: Uint8Array): Uint8Array {
  const other = new Uint8Array(bytes.length);
  for (let i = 0; i + 1 < bytes.length; i += 2) {
    other[i] = bytes[i + 1]!;
    other[i + 1] = bytes[i]!;
  }
  return other;
}

/** The text, or undefined when the bytes are not well formed. */
function decodeStrictly(bytes: Uint8Array, encoding: 'utf-8' | 'utf-16le'): string | undefined {
  try {
    return new TextDecoder(encoding, { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch (error) {
    // What a strict decoder throws at malformed bytes, by the Encoding Standard.
    if (error instanceof TypeError) return undefined;
    throw error;
  }
}

function binaryFault(text: string): FileFault | undefined {
  const sample = text.slice(0, sampleSize);
  // eslint-disable-next-line no-control-regex -- control characters are what is looked for
  const controls = sample.match(/[\u0000-\u0008\u000e-\u001a\u001c-\u001f]/g)?.length ?? 0;
  if (!text.includes('\u0000') && controls <= sample.length / 50) return undefined;
  return fileFault('binary', 'This is not a text file.', saveAsCsv);
}

function lostNotes(text: string): readonly FileNote[] {
  const lost = text.split('\ufffd').length - 1;
  if (lost === 0) return [];
  const message = `${plural(lost, 'character')} in the file had been lost before it was saved (shown as \ufffd).`;
  return [fileNote('warning', message)];
}

function lineAt(bytes: Uint8Array, index: number): number {
  let line = 1;
  for (let i = 0; i < index; i += 1) if (bytes[i] === 0x0a) line += 1;
  return line;
}

function startsWith(bytes: Uint8Array, start: readonly number[]): boolean {
  return bytes.length >= start.length && start.every((byte, i) => bytes[i] === byte);
}

function megabytes(count: number): string {
  const size = count / 1_000_000;
  return `${size.toLocaleString('en-GB', { maximumFractionDigits: 1 })} MB`;
}
