/** Ways in which a backup file gets damaged, and what must hold of whatever is read from one. */
import { strToU8, zipSync } from 'fflate';
import { canonicalText } from '../../../../src/model/merge';
import { readBackup } from '../../../../src/formats/backup/read-backup';
import type { BackupContent } from '../../../../src/formats/backup/write-backup';
import { digest } from './content';

/** Whole numbers in [0, below), one after another. */
export type Draw = (below: number) => number;

export const damages = ['cut', 'flip', 'overwrite', 'insert', 'remove', 'swap', 'sizes'] as const;
export type Damage = (typeof damages)[number];

/** A damaged copy; the file itself stays as it is. */
export function damaged(file: Uint8Array, damage: Damage, draw: Draw): Uint8Array {
  const copy = file.slice();
  const at = draw(file.length);
  const length = Math.min(1 + draw(200), file.length - at);
  switch (damage) {
    case 'cut':
      return copy.subarray(0, at);
    case 'flip':
      for (let count = 1 + draw(4); count > 0; count--) {
        const byte = draw(copy.length);
        copy[byte] = (copy[byte] ?? 0) ^ (1 << draw(8));
      }
      return copy;
    case 'overwrite':
      for (let i = 0; i < length; i++) copy[at + i] = draw(256);
      return copy;
    case 'insert':
      return joined(
        copy.subarray(0, at),
        Uint8Array.from({ length }, () => draw(256)),
        copy.subarray(at),
      );
    case 'remove':
      return joined(copy.subarray(0, at), copy.subarray(at + length));
    case 'swap': {
      const other = draw(file.length - length + 1);
      copy.copyWithin(at, other, other + length);
      return copy;
    }
    case 'sizes': {
      // A lie in a number of some head or of the list at the end.
      const marks = [...markPlaces(copy)];
      const mark = marks[draw(marks.length)] ?? 0;
      const field = mark + 14 + 4 * draw(4);
      for (let i = 0; i < 4 && field + i < copy.length; i++)
        copy[field + i] = draw(2) ? 0xff : draw(256);
      return copy;
    }
  }
}

function* markPlaces(bytes: Uint8Array): Generator<number> {
  for (let at = bytes.indexOf(0x50); at >= 0; at = bytes.indexOf(0x50, at + 1)) {
    if (bytes[at + 1] === 0x4b) yield at;
  }
}

function joined(...parts: Uint8Array[]): Uint8Array {
  return Uint8Array.from(Buffer.concat(parts));
}

/** What is wrong with what was read, in words; undefined when it is as it must be. */
export async function wrongWith(
  file: Uint8Array,
  content: BackupContent,
): Promise<string | undefined> {
  const reading = await readBackup(file, digest);
  if (reading.kind === 'fault')
    return reading.message && reading.mend ? undefined : 'a fault without words';
  const original = new Map<string, string>();
  for (const [kind, records] of Object.entries(content.records)) {
    for (const record of records) original.set(`${kind} ${record.id}`, canonicalText(record));
  }
  let back = 0;
  for (const [kind, records] of Object.entries(reading.records)) {
    for (const record of records) {
      if (original.get(`${kind} ${record.id}`) !== canonicalText(record))
        return `${kind} ${record.id} came back changed`;
      back += 1;
    }
  }
  const pictures = new Set(content.pictures.map(({ hash }) => hash));
  for (const { hash } of reading.pictures)
    if (!pictures.has(hash)) return 'a picture came back that never was';
  const missing = original.size - back + pictures.size - reading.pictures.length;
  return missing > 0 && reading.faults.length === 0 ? `${missing} lost without a word` : undefined;
}

/** Files made to do harm, each by name. */
export function hostileFiles(): Record<string, Uint8Array> {
  const manifest = {
    format: 'hypocentre-backup',
    version: 1,
    madeAt: 1,
    device: 'd',
    documents: [],
    pictures: [],
  };
  const zip = (files: Record<string, string | Uint8Array>) =>
    zipSync(
      Object.fromEntries(
        Object.entries(files).map(([name, held]) => [
          name,
          typeof held === 'string' ? strToU8(held) : held,
        ]),
      ),
    );
  const bomb = zipSync({ 'records/notes-0001.json': [new Uint8Array(80_000_000), { level: 9 }] });
  const lying = bomb.slice();
  // The head and the list both say the document is 10 bytes long once unpacked.
  for (const [mark, offset] of [
    [0x04034b50, 22],
    [0x02014b50, 24],
  ] as const) {
    const view = new DataView(lying.buffer);
    for (let at = 0; at + 46 < lying.length; at++) {
      if (view.getUint32(at, true) === mark) view.setUint32(at + offset, 10, true);
    }
  }
  const proto =
    '{"__proto__":{"polluted":true},"constructor":{"prototype":{"polluted":true}},"id":"__proto__"}';
  return {
    nothing: new Uint8Array(0),
    'not a zip': strToU8('name,result\n1,right\n'),
    'a zip of something else': zip({ 'letter.txt': 'Dear sir' }),
    'a path upwards': zip({
      '../../evil.json': '[]',
      '/etc/passwd': 'x',
      'records/notes-0001.json': '[\n]\n',
    }),
    'a document that unpacks to 80 MB': bomb,
    'a bomb that lies about its size': lying,
    'keys of the prototype': zip({
      'records/notes-0001.json': `[\n${proto}\n]\n`,
      'manifest.json': proto,
    }),
    'a newer version': zip({
      'manifest.json': JSON.stringify({ ...manifest, version: 2, more: 1 }),
      'records/notes-0001.json': '[\n]\n',
    }),
    'a very deep document': zip({ 'records/notes-0001.json': `[\n${'['.repeat(200_000)}\n]\n` }),
    'ten thousand documents': zip(
      Object.fromEntries(
        Array.from({ length: 10_000 }, (_, i) => [
          `records/notes-${String(i).padStart(4, '0')}.json`,
          '[\n]\n',
        ]),
      ),
    ),
    'a kind of record that never was': zip({
      'manifest.json': JSON.stringify(manifest),
      'records/spells-0001.json': '[\n{"id":"x"}\n]\n',
    }),
  };
}
