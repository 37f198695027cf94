/** Writing a backup: every record of every kind, deletion marks too, and the pictures. */
import { strToU8, zipSync, type Zippable } from 'fflate';
import { canonicalText, type Copy } from '../../model/merge';
import { recordKinds } from '../../model/records';
import { crc32 } from './crc32';
import {
  backupFormat,
  backupVersion,
  documentName,
  manifestNames,
  pictureName,
  recordsInDocument,
  schemaName,
  type Manifest,
} from './layout';
import schema from './backup.schema.json';

export interface PictureFile {
  /** SHA-256 of the bytes, in hexadecimal digits. */
  readonly hash: string;
  readonly bytes: Uint8Array;
}

export interface BackupContent {
  readonly madeAt: number;
  readonly device: string;
  readonly records: Copy;
  readonly pictures: readonly PictureFile[];
}

/**
 * The bytes of a backup file. Equal content gives equal bytes.
 *
 * Each record stands on a line of its own, with its own sum in the list of contents, so that a
 * damaged spot costs that record alone. Time and memory grow linearly with the content.
 */
export function writeBackup(content: BackupContent): Uint8Array {
  const files: Zippable = {};
  const documents: Manifest['documents'] = [];
  // Packed well, and dated alike: a date inside would make equal content unequal.
  const packed = { level: 6, mtime: new Date(content.madeAt) } as const;
  const asItIs = { level: 0, mtime: new Date(content.madeAt) } as const;

  for (const kind of recordKinds) {
    const records = [...(content.records[kind] ?? [])].sort((a, b) => (a.id < b.id ? -1 : 1));
    for (let start = 0; start < records.length; start += recordsInDocument) {
      const lines = records
        .slice(start, start + recordsInDocument)
        .map((record) => canonicalText(record));
      const name = documentName(kind, documents.length + 1);
      documents.push({ name, kind, sums: lines.map((line) => crc32(strToU8(line))) });
      files[name] = [strToU8(`[\n${lines.join(',\n')}\n]\n`), packed];
    }
  }
  const pictures = [...content.pictures].sort((a, b) => (a.hash < b.hash ? -1 : 1));
  const manifest: Manifest = {
    format: backupFormat,
    version: backupVersion,
    madeAt: content.madeAt,
    device: content.device,
    documents,
    pictures: pictures.map(({ hash }) => hash),
  };
  const manifestBytes = strToU8(`${canonicalText(manifest)}\n`);
  return zipSync({
    [manifestNames[0]]: [manifestBytes, packed],
    [schemaName]: [strToU8(`${JSON.stringify(schema, null, 2)}\n`), packed],
    ...files,
    ...Object.fromEntries(pictures.map(({ hash, bytes }) => [pictureName(hash), [bytes, asItIs]])),
    [manifestNames[1]]: [manifestBytes, packed],
  });
}
