/** What the database holds: one store for each kind of record, and some of its own. */
import type { DBSchema, IDBPDatabase } from 'idb';
import type { BlockId, DeviceId, Id } from '../model/ids';
import type { AnyRecord, RecordKind, RecordOf } from '../model/records';
import type { Instant } from '../model/time';

/** Name of the app's database; tests bring their own. */
export const defaultDatabaseName = 'hypocentre';

/** Things of which there is one on each device. They are never merged or backed up. */
export interface MetaEntry {
  readonly id: 'device';
  readonly device: DeviceId;
}

export type KeptId = Id<'kept'>;

export interface KeptEntry {
  readonly id: KeptId;
  readonly at: Instant;
  /** Where it came from: a file's name and row, or a step of a migration. */
  readonly from: string;
  /** Why it could not be read, in a sentence for the candidate. */
  readonly reason: string;
  /** The raw text, or the JSON of what was met. */
  readonly content: string;
}

/** The bytes of a picture under their own SHA-256. */
export interface PictureBytes {
  readonly id: string;
  readonly bytes: ArrayBuffer;
}

/** A part of the saved text index; rebuilt from the records whenever it is missing or stale. */
export interface SearchIndexEntry {
  readonly id: string;
  readonly content: unknown;
}

/** What belongs to this device alone, such as the folder granted for backups. */
export interface LocalEntry {
  readonly id: string;
  readonly value: unknown;
}

type RecordStores = {
  [K in RecordKind]: { key: RecordOf<K>['id']; value: RecordOf<K> };
};

export interface AppSchema extends DBSchema, RecordStores {
  /**
   * The one index: the working set lives in memory, and each index slows every
   * write. It answers the one question asked of the store itself (`readItemsOfBlock`).
   */
  items: RecordStores['items'] & { indexes: { block: BlockId } };
  meta: { key: MetaEntry['id']; value: MetaEntry };
  pictureBytes: { key: string; value: PictureBytes };
  searchIndex: { key: string; value: SearchIndexEntry };
  local: { key: string; value: LocalEntry };
  kept: { key: KeptEntry['id']; value: KeptEntry };
}

export type AppDatabase = IDBPDatabase<AppSchema>;

/** Names one record: its kind is its store. */
export interface RecordRef {
  readonly kind: RecordKind;
  readonly id: AnyRecord['id'];
}
