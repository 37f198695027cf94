/** How a backup is laid out: a ZIP file of JSON documents and pictures. */
import * as v from 'valibot';
import { recordKinds } from '../../model/records';

export const backupFormat = 'hypocentre-backup';
/** The version this code writes; it reads this one and every one before. */
export const backupVersion = 1;

/**
 * Records in one document at most: a damaged spot then costs few of them.
 */
export const recordsInDocument = 500;

/** The list of contents; it is in the file twice, first and last. */
export const manifestNames = ['manifest.json', 'manifest-copy.json'] as const;
export const schemaName = 'schema.json';

export const documentName = (kind: string, number: number) =>
  `records/${kind}-${String(number).padStart(4, '0')}.json`;
export const pictureName = (hash: string) => `pictures/${hash}`;

const wholeNumber = v.pipe(v.number(), v.integer(), v.minValue(0));

export const manifestSchema = v.object({
  format: v.literal(backupFormat, 'this is not a backup of Hypocentre'),
  version: v.pipe(v.number(), v.integer(), v.minValue(1)),
  /** In ms since 1970-01-01 UTC. */
  madeAt: wholeNumber,
  /** The device it was made on. */
  device: v.string(),
  documents: v.array(
    v.object({
      name: v.string(),
      kind: v.picklist(recordKinds),
      /** The CRC-32 of each record's line, in order: there are as many records as sums. */
      sums: v.array(wholeNumber),
    }),
  ),
  /** The SHA-256 of each picture's bytes, which is its name as well. */
  pictures: v.array(v.pipe(v.string(), v.regex(/^[0-9a-f]{64}$/))),
});

export type Manifest = v.InferOutput<typeof manifestSchema>;

const documentPattern = /^records\/[A-Za-z]{1,40}-\d{4,6}\.json$/;
const picturePattern = /^pictures\/[0-9a-f]{64}$/;

/** Whether a backup can hold an entry of this name: no paths upwards, nothing else. */
export function isBackupName(name: string): boolean {
  return (
    name === schemaName ||
    manifestNames.some((each) => each === name) ||
    documentPattern.test(name) ||
    picturePattern.test(name)
  );
}

/** The kind of record that a document of this name holds, by the name alone. */
export function kindOfName(name: string): string | undefined {
  return /^records\/([A-Za-z]+)-\d+\.json$/.exec(name)?.[1];
}
