/** Byte order marks and Windows-1252 against their public definitions. */
import { describe, expect, it } from 'vitest';
import { decodeTextFile } from '../../../src/formats/text-file';
import { decodeWindows1252 } from '../../../src/formats/windows-1252';

describe('byte order marks', () => {
  // The Unicode Standard, section 23.8, table 23-5 (from memory): EF BB BF, FF FE, FE FF.
  it.each([
    ['UTF-8', [0xef, 0xbb, 0xbf, 0x41, 0x42]],
    ['UTF-16LE', [0xff, 0xfe, 0x41, 0x00, 0x42, 0x00]],
    ['UTF-16BE', [0xfe, 0xff, 0x00, 0x41, 0x00, 0x42]],
  ])('%s: the mark names the encoding and is no part of the text', (encoding, bytes) => {
    expect(decodeTextFile(Uint8Array.from(bytes))).toMatchObject({ text: 'AB', encoding });
  });
});

describe('Windows-1252', () => {
  // WHATWG Encoding Standard, index windows-1252, bytes 80 to 9F (from memory).
  const index =
    '20AC 0081 201A 0192 201E 2026 2020 2021 02C6 2030 0160 2039 0152 008D 017D 008F ' +
    '0090 2018 2019 201C 201D 2022 2013 2014 02DC 2122 0161 203A 0153 009D 017E 0178';

  it('decodes the bytes 80 to 9F by the index and all others to their own number', () => {
    const codes = index.split(' ').map((code) => Number.parseInt(code, 16));
    const text = decodeWindows1252(Uint8Array.from({ length: 256 }, (_, byte) => byte));
    expect(text.length).toBe(256);
    for (let byte = 0; byte < 256; byte += 1) {
      const expected = byte >= 0x80 && byte <= 0x9f ? codes[byte - 0x80] : byte;
      expect(text.charCodeAt(byte)).toBe(expected);
    }
  });

  it('agrees with the platform for the letters from A0 up', () => {
    const upper = Uint8Array.from({ length: 96 }, (_, i) => 0xa0 + i);
    expect(decodeWindows1252(upper)).toBe(new TextDecoder('windows-1252').decode(upper));
  });
});

describe('UTF-8', () => {
  // The Unicode Standard, table 3-6 and its examples (from memory):
  // U+004D, U+0430, U+4E8C, U+10302 are 4D, D0 B0, E4 BA 8C, F0 90 8C 82.
  it('decodes sequences of one to four bytes', () => {
    const bytes = [0x4d, 0xd0, 0xb0, 0xe4, 0xba, 0x8c, 0xf0, 0x90, 0x8c, 0x82];
    expect(decodeTextFile(Uint8Array.from(bytes))).toMatchObject({
      text: 'M\u0430\u4e8c\u{10302}',
      encoding: 'UTF-8',
    });
  });
});
