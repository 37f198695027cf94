/**
 * Reading a ZIP file that may be damaged or hostile: what is whole comes out, the rest is named.
 *
 * Entries are found twice, by the list at the end and by their own heads, so that a file cut off
 * anywhere still gives what stands before the cut. Nothing is unpacked beyond the size it states.
 *
 * Source: PKWARE, "APPNOTE.TXT - .ZIP File Format Specification" 6.3.10, sections 4.3.7, 4.3.12, 4.3.16.
 */
import { Inflate } from 'fflate';
import { crc32 } from './crc32';

export interface ZipEntry {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** Whether the bytes are those that were packed, by the file's own checksum. */
  readonly whole: boolean;
}

export interface ZipReading {
  /** Each name once, in the order of the file. */
  readonly entries: readonly ZipEntry[];
  readonly faults: readonly { readonly place: string; readonly message: string }[];
}

export interface ZipLimits {
  /** Bytes of one entry once unpacked. */
  readonly mostEntryBytes: number;
  /** Bytes of all entries once unpacked. */
  readonly mostBytes: number;
  readonly mostEntries: number;
  /** Entries of other names are named as faults and left packed. */
  readonly wanted: (name: string) => boolean;
}

interface Found {
  readonly name: string;
  readonly method: number;
  readonly flags: number;
  readonly checksum: number;
  readonly packedBytes: number;
  readonly unpackedBytes: number;
  /** Where the packed bytes begin. */
  readonly start: number;
}

const headMark = 0x04034b50;
const listMark = 0x02014b50;
const endMark = 0x06054b50;
const headBytes = 30;
const listBytes = 46;
const endBytes = 22;
/** The comment after the end of the list is at most this long. */
const mostCommentBytes = 0xffff;

/** Whether bytes begin as a ZIP file does. */
export function looksLikeZip(bytes: Uint8Array): boolean {
  return bytes.length >= 4 && viewOf(bytes).getUint32(0, true) === headMark;
}

/** Reads the wanted entries. Time grows linearly with the size of the file and of what comes out. */
export function readZip(bytes: Uint8Array, limits: ZipLimits): ZipReading {
  const faults: { place: string; message: string }[] = [];
  const byName = new Map<string, ZipEntry>();
  const refused = new Set<string>();
  let total = 0;
  let count = 0;

  for (const found of [...listedEntries(bytes), ...entriesByHead(bytes)]) {
    const { name } = found;
    if (byName.get(name)?.whole || refused.has(`${name}\n${found.start}`)) continue;
    const refuse = (message: string) => {
      refused.add(`${name}\n${found.start}`);
      if (!faults.some((fault) => fault.place === name && fault.message === message)) {
        faults.push({ place: name, message });
      }
    };
    if (!limits.wanted(name)) refuse('is not part of a backup; left alone');
    else if (++count > 2 * limits.mostEntries) refuse('comes after too many others; left alone');
    else if (found.unpackedBytes > limits.mostEntryBytes) {
      refuse(`would unpack to ${found.unpackedBytes} bytes; left alone`);
    } else if (total + found.unpackedBytes > limits.mostBytes) {
      refuse('would make the whole too large; left alone');
    } else {
      const entry = unpack(bytes, found);
      if (typeof entry === 'string') refuse(entry);
      else if (entry.whole || !byName.has(name)) {
        total += entry.bytes.length;
        byName.set(name, entry);
      }
    }
  }
  for (const { name, whole } of byName.values()) {
    if (!whole) faults.push({ place: name, message: 'is damaged' });
  }
  return {
    entries: [...byName.values()],
    // A damaged head is no loss where the list at the end led to the same entry.
    faults: faults.filter(({ place, message }) => {
      const entry = byName.get(place);
      return !entry?.whole || message.endsWith('left alone');
    }),
  };
}

function unpack(file: Uint8Array, found: Found): ZipEntry | string {
  if (found.flags & 1) return 'is locked with a password';
  const packed = file.subarray(found.start, found.start + found.packedBytes);
  let bytes: Uint8Array;
  if (found.method === 0) bytes = packed;
  else if (found.method === 8) bytes = inflateUpTo(packed, found.unpackedBytes);
  else return `is packed in a way that is not read here (${found.method})`;
  const whole = bytes.length === found.unpackedBytes && crc32(bytes) === found.checksum;
  return { name: found.name, bytes, whole };
}

/** As many bytes as can be unpacked, and never more than stated: a small file must not fill the memory. */
function inflateUpTo(packed: Uint8Array, mostBytes: number): Uint8Array {
  const chunks: Uint8Array[] = [];
  let length = 0;
  const inflate = new Inflate((chunk) => {
    // One byte more than stated is let through, so that it is seen.
    const rest = mostBytes + 1 - length;
    const taken = chunk.subarray(0, rest);
    chunks.push(taken);
    length += taken.length;
  });
  // Deflate grows at most about a thousandfold: so small a step cannot run far past the limit.
  const stepBytes = 4_096;
  try {
    for (let start = 0; start < packed.length && length <= mostBytes; start += stepBytes) {
      const end = Math.min(start + stepBytes, packed.length);
      inflate.push(packed.subarray(start, end), end === packed.length);
    }
  } catch {
    // Damaged from here on; what came out before may still be of use.
  }
  const bytes = new Uint8Array(length);
  let at = 0;
  for (const chunk of chunks) {
    bytes.set(chunk, at);
    at += chunk.length;
  }
  return bytes;
}

/** Entries by the list at the end of the file; none where it is lost. */
function listedEntries(bytes: Uint8Array): Found[] {
  const view = viewOf(bytes);
  const found: Found[] = [];
  const earliest = Math.max(0, bytes.length - endBytes - mostCommentBytes);
  for (let end = bytes.length - endBytes; end >= earliest; end--) {
    if (view.getUint32(end, true) !== endMark) continue;
    let at = view.getUint32(end + 16, true);
    while (at + listBytes <= bytes.length && view.getUint32(at, true) === listMark) {
      const nameBytes = view.getUint16(at + 28, true);
      const skip = nameBytes + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
      const head = view.getUint32(at + 42, true);
      if (head + headBytes <= bytes.length && view.getUint32(head, true) === headMark) {
        const start =
          head + headBytes + view.getUint16(head + 26, true) + view.getUint16(head + 28, true);
        found.push({
          name: nameAt(bytes, at + listBytes, nameBytes),
          flags: view.getUint16(at + 8, true),
          method: view.getUint16(at + 10, true),
          checksum: view.getUint32(at + 16, true),
          packedBytes: view.getUint32(at + 20, true),
          unpackedBytes: view.getUint32(at + 24, true),
          start,
        });
      }
      at += listBytes + skip;
    }
    break;
  }
  return found;
}

/** Entries by their own heads, wherever one begins. */
function entriesByHead(bytes: Uint8Array): Found[] {
  const view = viewOf(bytes);
  const found: Found[] = [];
  let at = 0;
  while (at + headBytes <= bytes.length) {
    if (view.getUint32(at, true) !== headMark) {
      // On to the next "P", the first byte of a mark.
      const next = bytes.indexOf(0x50, at + 1);
      if (next < 0) break;
      at = next;
      continue;
    }
    const nameBytes = view.getUint16(at + 26, true);
    const start = at + headBytes + nameBytes + view.getUint16(at + 28, true);
    const packedBytes = view.getUint32(at + 18, true);
    found.push({
      name: nameAt(bytes, at + headBytes, nameBytes),
      flags: view.getUint16(at + 6, true),
      method: view.getUint16(at + 8, true),
      checksum: view.getUint32(at + 14, true),
      packedBytes,
      unpackedBytes: view.getUint32(at + 22, true),
      start,
    });
    // A stated size may be a lie: the search goes on right behind the head.
    at += 4;
  }
  return found;
}

function viewOf(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}

/** Names of a backup are ASCII; anything else only has to be shown. */
function nameAt(bytes: Uint8Array, start: number, length: number): string {
  const codes = bytes.subarray(start, start + Math.min(length, 300));
  return Array.from(codes, (code) => String.fromCharCode(code)).join('');
}
