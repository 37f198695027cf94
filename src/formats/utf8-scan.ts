/**
 * Looks through bytes that are not valid UTF-8 for what they might be instead.
 *
 * Source: The Unicode Standard, chapter 3, table 3-7, "Well-Formed UTF-8 Byte
 * Sequences" (from memory).
 */

export interface Utf8Scan {
  /** Well-formed sequences of two to four bytes. */
  readonly wellFormed: number;
  /** Bytes that belong to no well-formed sequence. */
  readonly stray: number;
  /** Index of the first stray byte, or -1. */
  readonly firstStray: number;
  /** True when the only fault is a sequence cut off by the end of the bytes. */
  readonly cutAtEnd: boolean;
}

/** Counts well-formed and stray bytes; linear in the length. */
export function scanUtf8(bytes: Uint8Array): Utf8Scan {
  let wellFormed = 0;
  let stray = 0;
  let firstStray = -1;
  let cutAtEnd = false;
  for (let i = 0; i < bytes.length;) {
    const lead = bytes[i]!;
    if (lead < 0x80) {
      i += 1;
      continue;
    }
    const size = sequenceSize(lead);
    let good = size > 0 ? 1 : 0;
    while (good > 0 && good < size && i + good < bytes.length) {
      if (!continues(lead, good, bytes[i + good]!)) break;
      good += 1;
    }
    if (size > 0 && good === size) {
      wellFormed += 1;
      i += size;
      continue;
    }
    cutAtEnd = size > 0 && i + good === bytes.length && firstStray === -1;
    if (firstStray === -1) firstStray = i;
    stray += 1;
    i += Math.max(good, 1);
  }
  return { wellFormed, stray, firstStray, cutAtEnd };
}

/** Bytes in the sequence that a lead byte begins; 0 for a byte that begins none. */
function sequenceSize(lead: number): number {
  if (lead >= 0xc2 && lead <= 0xdf) return 2;
  if (lead >= 0xe0 && lead <= 0xef) return 3;
  return lead >= 0xf0 && lead <= 0xf4 ? 4 : 0;
}

/** Whether a byte may stand at `place` (from 1) after the lead byte. */
function continues(lead: number, place: number, byte: number): boolean {
  if (byte < 0x80 || byte > 0xbf) return false;
  if (place > 1) return true;
  if (lead === 0xe0) return byte >= 0xa0; // shorter forms exist
  if (lead === 0xed) return byte <= 0x9f; // surrogates
  if (lead === 0xf0) return byte >= 0x90;
  return lead === 0xf4 ? byte <= 0x8f : true; // beyond U+10FFFF
}
