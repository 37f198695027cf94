/** The saved text index, in parts; it can be made again from the records at any time. */
import { storageFailureFrom, type StorageFailure } from './failure';
import type { SearchIndexEntry } from './schema';
import type { Store } from './store';

export type ReadSearchIndexResult =
  | { readonly kind: 'read'; readonly parts: readonly SearchIndexEntry[] }
  | { readonly kind: 'failed'; readonly failure: StorageFailure };

export interface SearchIndexChange {
  readonly id: string;
  /** Undefined: the part is removed. */
  readonly content?: unknown;
}

/** Every saved part. What is in them is for the search layer to check. */
export async function readSearchIndex(store: Store): Promise<ReadSearchIndexResult> {
  try {
    return { kind: 'read', parts: await store.db.getAll('searchIndex') };
  } catch (error) {
    return { kind: 'failed', failure: storageFailureFrom(error) };
  }
}

/** Writes and removes parts: all or none. Not strict: what is lost is indexed again. */
export async function writeSearchIndex(
  store: Store,
  changes: readonly SearchIndexChange[],
): Promise<StorageFailure | undefined> {
  try {
    const tx = store.db.transaction('searchIndex', 'readwrite', { durability: 'relaxed' });
    const requests = changes.map(({ id, content }) =>
      content === undefined ? tx.store.delete(id) : tx.store.put({ id, content }),
    );
    await Promise.all([...requests, tx.done]);
    return undefined;
  } catch (error) {
    return storageFailureFrom(error);
  }
}
