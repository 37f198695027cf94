/**
 * Windows-1252, the encoding of older spreadsheets.
 *
 * Source: WHATWG Encoding Standard, index windows-1252 (from memory). Decoded
 * here and not by the platform, because some versions of one platform read it
 * as Latin-1.
 */

/** Bytes 0x80 to 0x9f; the five undefined ones stand for the control of the same number. */
const upper =
  '\u20ac\u0081\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\u008d\u017d\u008f' +
  '\u0090\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\u009d\u017e\u0178';

/** Characters joined at once: an argument list has a limit. */
const chunkSize = 8_192;

/** The text of Windows-1252 bytes; every byte has a meaning, so this cannot fail. */
export function decodeWindows1252(bytes: Uint8Array): string {
  const pieces: string[] = [];
  for (let start = 0; start < bytes.length; start += chunkSize) {
    const codes = Array.from(bytes.subarray(start, start + chunkSize), (byte) =>
      byte >= 0x80 && byte <= 0x9f ? upper.charCodeAt(byte - 0x80) : byte,
    );
    pieces.push(String.fromCharCode(...codes));
  }
  return pieces.join('');
}
