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

/**
 * Writes and removes parts: all or none. Not strict: what is lost is indexed again.
 *
 * Writes nothing once everything was deleted (the device's own entry is gone then): a tab that is
 * late with its index would bring deleted text back.
 */
export async function writeSearchIndex(
  store: Store,
  changes: readonly SearchIndexChange[],
): Promise<StorageFailure | undefined> {
  try {
    const tx = store.db.transaction(['meta', 'searchIndex'], 'readwrite', {
      durability: 'relaxed',
    });
    tx.done.catch(() => undefined); // reported once, below
    if ((await tx.objectStore('meta').get('device')) === undefined) return undefined;
    const parts = tx.objectStore('searchIndex');
    const requests = changes.map(async ({ id, content }) =>
      content === undefined ? parts.delete(id) : parts.put({ id, content }),
    );
    await Promise.all([...requests, tx.done]);
    return undefined;
  } catch (error) {
    return storageFailureFrom(error);
  }
}
