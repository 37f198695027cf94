/** Reading the whole working set at once, as the app does when it starts. */
import { recordKinds, type RecordKind, type RecordOf } from '../model/records';
import { storageFailureFrom, type StorageFailure } from './failure';
import { reading } from './reading';
import type { Store } from './store';

export type RecordsByKind = { readonly [K in RecordKind]: readonly RecordOf<K>[] };

export type ReadAllResult =
  /** Each kind in the order of its ids; marks of deleted records among them (`stamp.deleted`). */
  | { readonly kind: 'read'; readonly records: RecordsByKind }
  | { readonly kind: 'failed'; readonly failure: StorageFailure };

/**
 * Reads every record of every kind, all as of one moment.
 *
 * The records are trusted: only `applyChanges` and migrations write them. Time
 * grows linearly with their number; one getAll for each kind takes half the time
 * of a cursor.
 */
export async function readAll(store: Store): Promise<ReadAllResult> {
  try {
    const entries = await reading(store, recordKinds, (tx) =>
      Promise.all(
        recordKinds.map(async (kind) => [kind, await tx.objectStore(kind).getAll()] as const),
      ),
    );
    // The store of a kind holds records of that kind.
    return { kind: 'read', records: Object.fromEntries(entries) as unknown as RecordsByKind };
  } catch (error) {
    return { kind: 'failed', failure: storageFailureFrom(error) };
  }
}
