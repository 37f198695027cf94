/** Reading a few records: those another tab has changed, or the items of one block. */
import type { BlockId } from '../model/ids';
import type { Item } from '../model/log';
import type { RecordKind, RecordOf } from '../model/records';
import { storageFailureFrom, type StorageFailure } from './failure';
import { reading, type ReadingTransaction } from './reading';
import type { RecordRef } from './schema';
import type { Store } from './store';

export type LoadedRecord = { [K in RecordKind]: LoadedOf<K> }[RecordKind];

export interface LoadedOf<K extends RecordKind> {
  readonly kind: K;
  readonly id: RecordOf<K>['id'];
  /** As stored, deletion marks included; undefined if there is none of that id. */
  readonly record: RecordOf<K> | undefined;
}

export type ReadRecordsResult =
  | { readonly kind: 'read'; readonly records: readonly LoadedRecord[] }
  | { readonly kind: 'failed'; readonly failure: StorageFailure };

export type ReadItemsResult =
  | { readonly kind: 'read'; readonly items: readonly Item[] }
  | { readonly kind: 'failed'; readonly failure: StorageFailure };

/**
 * Reads the named records, in the order of the names, all as of one moment.
 */
export async function readRecords(
  store: Store,
  refs: readonly RecordRef[],
): Promise<ReadRecordsResult> {
  if (refs.length === 0) return { kind: 'read', records: [] };
  const kinds = [...new Set(refs.map((ref) => ref.kind))];
  try {
    const records = await reading(store, kinds, (tx) =>
      Promise.all(refs.map((ref) => readOne(tx, ref))),
    );
    return { kind: 'read', records };
  } catch (error) {
    return { kind: 'failed', failure: storageFailureFrom(error) };
  }
}

async function readOne(tx: ReadingTransaction, ref: RecordRef): Promise<LoadedRecord> {
  const record = await tx.objectStore(ref.kind).get(ref.id);
  // The store of a kind holds records of that kind.
  return { ...ref, record } as LoadedRecord;
}

/**
 * Reads the items of one block from the store itself, deletion marks included:
 * whoever deletes a block must meet items that another tab has just added.
 */
export async function readItemsOfBlock(store: Store, block: BlockId): Promise<ReadItemsResult> {
  try {
    const items = await reading(store, ['items'], (tx) =>
      tx.objectStore('items').index('block').getAll(block),
    );
    return { kind: 'read', items };
  } catch (error) {
    return { kind: 'failed', failure: storageFailureFrom(error) };
  }
}
