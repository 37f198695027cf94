import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decodeTextFile } from '../../../src/formats/text-file';
import { scanUtf8 } from '../../../src/formats/utf8-scan';

const utf8 = (text: string) => new TextEncoder().encode(text);
const bytes = (...values: (number | string)[]) =>
  Uint8Array.from(
    values.flatMap((value) =>
      typeof value === 'number' ? [value] : [...Buffer.from(value, 'latin1')],
    ),
  );
const utf16 = (text: string, bigEndian: boolean) => {
  const little = Buffer.from(text, 'utf16le');
  return Uint8Array.from(bigEndian ? little.swap16() : little);
};

describe('decodeTextFile', () => {
  it('reads UTF-8 with and without its mark', () => {
    const plain = decodeTextFile(utf8('Ödem,β\n'));
    expect(plain).toEqual({ kind: 'text', text: 'Ödem,β\n', encoding: 'UTF-8', notes: [] });
    expect(decodeTextFile(bytes(0xef, 0xbb, 0xbf, 'a,b'))).toMatchObject({ text: 'a,b' });
  });

  it.each([
    ['UTF-16LE', false, [0xff, 0xfe]],
    ['UTF-16BE', true, [0xfe, 0xff]],
  ] as const)(
    'reads %s with its mark, and without it where every other byte is zero',
    (encoding, big, mark) => {
      const body = utf16('Datum;Ödem;β\r\n', big);
      expect(decodeTextFile(Uint8Array.from([...mark, ...body]))).toMatchObject({
        text: 'Datum;Ödem;β\r\n',
        encoding,
        notes: [],
      });
      const plain = decodeTextFile(utf16('Date,Topic\nx,y', big));
      expect(plain).toMatchObject({ text: 'Date,Topic\nx,y', encoding });
    },
  );

  it('reads other bytes as Windows-1252 and says at which line to look', () => {
    const file = decodeTextFile(bytes('a,b\nSj', 0xf6, 'gren,', 0x80, '5\n'));
    expect(file).toMatchObject({ text: 'a,b\nSjögren,€5\n', encoding: 'Windows-1252' });
    expect(file.kind === 'text' && file.notes[0]).toMatchObject({ level: 'warning' });
    expect(file.kind === 'text' && file.notes[0]!.message).toContain('line 2');
  });

  it('refuses UTF-8 that is damaged in the middle, with the line', () => {
    const damaged = Uint8Array.from([...utf8('é,é\né,'), 0xff, ...utf8('\né\n')]);
    expect(decodeTextFile(damaged)).toMatchObject({ fault: 'encoding-damaged', line: 2 });
  });

  it('drops a character that the end of the file cut in two, and says so', () => {
    const whole = utf8('é,β€');
    const cut = decodeTextFile(whole.subarray(0, whole.length - 1));
    expect(cut).toMatchObject({ text: 'é,β', encoding: 'UTF-8' });
    expect(cut.kind === 'text' && cut.notes[0]!.message).toContain('cut off');
  });

  it.each([
    ['workbook', bytes('PK', 3, 4, 20, 0)],
    ['workbook', bytes(0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1, 0, 0)],
    ['document', bytes('%PDF-1.7\n')],
    ['document', bytes('{\\rtf1 hello}')],
    ['archive', bytes(0x1f, 0x8b, 8, 0)],
    ['picture', bytes(0x89, 'PNG\r\n')],
    ['picture', bytes(0xff, 0xd8, 0xff, 0xe0)],
    ['encoding-unknown', bytes(0xff, 0xfe, 0, 0, 0x61, 0, 0, 0)],
    ['binary', bytes('abc', 0, 'def', 1, 2, 3)],
    ['binary', bytes(1, 2, 3, 4, 5, 6, 7)],
    ['empty', bytes()],
    ['empty', bytes(0xef, 0xbb, 0xbf)],
    ['empty', bytes(' \r\n\t\r\n')],
  ])('says what a file is that is no text: %s', (fault, content) => {
    const file = decodeTextFile(content);
    expect(file).toMatchObject({ kind: 'fault', fault });
    expect(file.kind === 'fault' && file.mend.length).toBeGreaterThan(10);
  });

  it('refuses files over the limit and reads files at it', () => {
    expect(decodeTextFile(utf8('12345'), 4)).toMatchObject({ fault: 'too-large' });
    expect(decodeTextFile(utf8('1234'), 4)).toMatchObject({ kind: 'text' });
  });

  it('warns of characters that were lost before', () => {
    const file = decodeTextFile(utf8('Sj\ufffdgren'));
    expect(file.kind === 'text' && file.notes[0]).toMatchObject({ level: 'warning' });
  });

  it('never throws on random bytes, and gives text back that encodes to the same bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 60 }), (content) => {
        const file = decodeTextFile(content);
        if (file.kind === 'fault' || file.encoding !== 'UTF-8' || file.notes.length > 0) return;
        const mark = content[0] === 0xef && content[1] === 0xbb && content[2] === 0xbf ? 3 : 0;
        expect(utf8(file.text)).toEqual(content.subarray(mark));
      }),
      { numRuns: 3_000, seed: 44 },
    );
  });
});

describe('scanUtf8', () => {
  it('finds stray bytes exactly where the platform finds malformed text', () => {
    const lead = fc.constantFrom(
      0x41,
      0x80,
      0xbf,
      0xc1,
      0xc2,
      0xe0,
      0xa0,
      0x9f,
      0xed,
      0xf0,
      0x8f,
      0x90,
      0xf4,
      0xf5,
      0xff,
    );
    fc.assert(
      fc.property(fc.array(lead, { maxLength: 12 }), (values) => {
        const content = Uint8Array.from(values);
        const platform = new TextDecoder('utf-8', { ignoreBOM: true }).decode(content);
        const { stray, wellFormed } = scanUtf8(content);
        // The Encoding Standard replaces each maximal ill-formed part by one U+FFFD.
        expect(stray).toBe(
          Array.from(platform).filter((character) => character === '\ufffd').length,
        );
        const beyondAscii = Array.from(platform).filter(
          (c) => c !== '\ufffd' && c.codePointAt(0)! > 127,
        );
        expect(wellFormed).toBe(beyondAscii.length);
      }),
      { numRuns: 5_000, seed: 45 },
    );
  });
});
