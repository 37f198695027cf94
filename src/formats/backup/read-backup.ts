/** Reading a backup, whole or damaged: what is whole comes back, what is not is named. */
import { strFromU8, strToU8 } from 'fflate';
import {
  checkWith,
  parseRecord,
  recordKinds,
  type AnyRecord,
  type RecordKind,
} from '../../model/records';
import { fileFault, plural, type FileFault } from '../file-fault';
import { crc32 } from './crc32';
import {
  backupFormat,
  backupVersion,
  isBackupName,
  kindOfName,
  manifestNames,
  manifestSchema,
  type Manifest,
} from './layout';
import type { PictureFile } from './write-backup';
import { looksLikeZip, readZip, type ZipEntry, type ZipLimits } from './zip-read';

export interface BackupFault {
  /** The document and line, or the picture. */
  readonly place: string;
  readonly message: string;
  /** What was met there, as far as it could be read; it is kept. */
  readonly content?: string;
}

export interface BackupReading {
  readonly kind: 'read';
  readonly version: number;
  /** In ms since 1970-01-01 UTC; undefined where the list of contents is lost. */
  readonly madeAt: number | undefined;
  readonly device: string | undefined;
  readonly records: { readonly [K in RecordKind]?: readonly AnyRecord[] };
  readonly pictures: readonly PictureFile[];
  readonly faults: readonly BackupFault[];
}

/** A year of work is some ten megabytes without its pictures. */
const limits: ZipLimits = {
  mostEntryBytes: 64_000_000,
  mostBytes: 2_000_000_000,
  mostEntries: 20_000,
  wanted: isBackupName,
};

/** The SHA-256 of bytes in hexadecimal digits; the caller brings it. */
export type Digest = (bytes: Uint8Array) => Promise<string>;

/**
 * Reads a backup of this or an earlier version.
 *
 * @returns a `fault` for what is no backup at all or was made by a newer version; otherwise what
 *   is whole, with a fault for everything that is not: nothing is left out unnamed while one of
 *   the two lists of contents can be read
 */
export async function readBackup(
  bytes: Uint8Array,
  digest: Digest,
): Promise<BackupReading | FileFault> {
  if (!looksLikeZip(bytes) && !hasBackupName(bytes)) return notABackup;
  const zip = readZip(bytes, limits);
  const byName = new Map(zip.entries.map((entry) => [entry.name, entry]));
  const manifest = findManifest(byName);
  if (manifest && manifest.version > backupVersion) {
    return fileFault(
      'json',
      `This backup was made by a newer version of Hypocentre (format ${manifest.version}; this one reads up to ${backupVersion}).`,
      'Bring this device’s Hypocentre up to date, then open the backup again. Nothing was changed.',
    );
  }
  const documents = zip.entries.filter(({ name }) => kindOfName(name) !== undefined);
  if (!manifest && documents.length === 0) return notABackup;

  const faults: BackupFault[] = zip.faults
    .filter(({ place }) => kindOfName(place) === undefined || !byName.has(place))
    .map((fault) => ({ ...fault }));
  if (!manifest) {
    faults.push({
      place: manifestNames[0],
      message:
        'The list of contents is lost, so it cannot be said whether anything is missing besides what is named here.',
    });
  }
  const listed = new Set(manifest?.documents.map(({ name }) => name));
  for (const { name } of manifest ? documents : []) {
    if (!listed.has(name)) {
      faults.push({ place: name, message: 'is not in the list of contents; left alone' });
    }
  }
  const records = readDocuments(manifest, byName, documents, faults);
  const pictures = await readPictures(manifest, byName, digest, faults);
  return {
    kind: 'read',
    version: manifest?.version ?? backupVersion,
    madeAt: manifest?.madeAt,
    device: manifest?.device,
    records,
    pictures,
    faults,
  };
}

const notABackup = fileFault(
  'archive',
  'This is not a backup of Hypocentre.',
  'Choose the file that “Back up now” saved: its name begins with “hypocentre” and ends with “.zip”.',
);

/** The names stand in the file unpacked: one is enough to try, even where the beginning is lost. */
function hasBackupName(bytes: Uint8Array): boolean {
  const mark = strToU8('records/');
  for (let at = bytes.indexOf(0x72); at >= 0; at = bytes.indexOf(0x72, at + 1)) {
    if (mark.every((code, i) => bytes[at + i] === code)) return true;
  }
  return false;
}

function findManifest(byName: ReadonlyMap<string, ZipEntry>): Manifest | undefined {
  for (const name of manifestNames) {
    const entry = byName.get(name);
    const input = entry?.whole ? parsed(textOf(entry.bytes)) : undefined;
    const checked = checkWith(manifestSchema, input);
    if (checked.kind === 'ok') return checked.value;
    // A newer format may have another shape beyond its name and version.
    const head = input as { format?: unknown; version?: unknown } | undefined;
    if (head?.format === backupFormat && Number(head.version) > backupVersion) {
      return {
        format: backupFormat,
        version: Number(head.version),
        madeAt: 0,
        device: '',
        documents: [],
        pictures: [],
      };
    }
  }
  return undefined;
}

type Documents = readonly {
  readonly name: string;
  readonly kind: string;
  readonly sums?: readonly number[];
}[];

function readDocuments(
  manifest: Manifest | undefined,
  byName: ReadonlyMap<string, ZipEntry>,
  found: readonly ZipEntry[],
  faults: BackupFault[],
): BackupReading['records'] {
  const records = new Map<RecordKind, Map<string, AnyRecord>>();
  const listed: Documents =
    manifest?.documents ?? found.map(({ name }) => ({ name, kind: kindOfName(name) ?? '' }));
  for (const { name, kind: kindName, sums } of listed) {
    const kind = recordKinds.find((each) => each === kindName);
    const entry = byName.get(name);
    if (!kind || !entry) {
      const count = sums ? `${plural(sums.length, 'record')} of it` : 'what was in it';
      faults.push({
        place: name,
        message: `is missing or cannot be read: ${count} did not come back`,
      });
      continue;
    }
    const group = records.get(kind) ?? new Map<string, AnyRecord>();
    records.set(kind, group);
    readLines(entry, kind, sums, group, faults);
  }
  return Object.fromEntries(Array.from(records, ([kind, group]) => [kind, [...group.values()]]));
}

/** Takes the lines that are whole, by their sums or, where those are lost, by that of the document. */
function readLines(
  entry: ZipEntry,
  kind: RecordKind,
  sums: readonly number[] | undefined,
  group: Map<string, AnyRecord>,
  faults: BackupFault[],
): void {
  const lines = linesOf(entry.bytes);
  const report = (index: number, message: string, line: Uint8Array | undefined) => {
    const content = line && textOf(line).slice(0, 20_000);
    faults.push({
      place: `${entry.name}, record ${index + 1}`,
      message,
      ...(content && { content }),
    });
  };
  // Damage can join or split lines, so lines are known by their sums, not by their places.
  const bySum = sums && new Map(lines.map((line) => [crc32(line), line]));
  const expected = sums ?? lines.map((line) => crc32(line));
  for (const [index, sum] of expected.entries()) {
    const line = bySum ? bySum.get(sum) : lines[index];
    if (!line || (!bySum && !entry.whole)) {
      report(index, 'is damaged and did not come back', lines[index]);
      continue;
    }
    const checked = parseRecord(kind, parsed(textOf(line)));
    if (checked.kind === 'rejected') {
      const [fault] = checked.faults;
      report(index, `is no record of this kind: ${fault?.path || 'it'}: ${fault?.message}`, line);
    } else if (group.has(checked.value.id)) {
      report(index, 'has the id of another record; the first one was taken', line);
    } else {
      group.set(checked.value.id, checked.value);
    }
  }
}

/** The lines between the brackets, without the commas that end them. */
function linesOf(bytes: Uint8Array): Uint8Array[] {
  const lines: Uint8Array[] = [];
  let start = 0;
  while (start < bytes.length) {
    const end = bytes.indexOf(0x0a, start);
    const stop = end < 0 ? bytes.length : end;
    const line = bytes.subarray(start, bytes[stop - 1] === 0x2c ? stop - 1 : stop);
    start = stop + 1;
    // The brackets have lines of their own; so may the comma of a line that was cut.
    if (line.length > 1) lines.push(line);
  }
  return lines;
}

async function readPictures(
  manifest: Manifest | undefined,
  byName: ReadonlyMap<string, ZipEntry>,
  digest: Digest,
  faults: BackupFault[],
): Promise<PictureFile[]> {
  const found = [...byName.keys()].filter((name) => name.startsWith('pictures/'));
  const hashes = new Set(manifest?.pictures ?? found.map((name) => name.slice('pictures/'.length)));
  const pictures: PictureFile[] = [];
  for (const hash of hashes) {
    const entry = byName.get(`pictures/${hash}`);
    // Its name is its own proof; no list is needed.
    if (entry && (await digest(entry.bytes)) === hash) pictures.push({ hash, bytes: entry.bytes });
    else
      faults.push({
        place: `pictures/${hash}`,
        message: 'is damaged or missing and did not come back',
      });
  }
  return pictures;
}

const textOf = (bytes: Uint8Array) => strFromU8(bytes);

function parsed(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined;
  }
}
