/** The saved text index, in parts; it can be made again from the records at any time. */
import { storageFailureFrom, type StorageFailure } from './failure';
import type { SearchIndexEntry } from './schema';
import type { Store } from './store';

export interface SearchIndexChange {
  readonly id: string;
  /** Undefined: the part is removed. */
  readonly content?: unknown;
}

/** Parts read at once: the next are read while whoever takes these works on them. */
const partsAtOnce = 3;

/**
 * Hands over every saved part, a few at a time, as of one moment. What is in them is for the search
 * layer to check.
 *
 * @returns why it broke off; undefined when all were handed over
 */
export async function readSearchIndex(
  store: Store,
  ontake: (parts: readonly SearchIndexEntry[]) => void,
): Promise<StorageFailure | undefined> {
  try {
    const parts = store.db.transaction('searchIndex').store;
    const ids = await parts.getAllKeys();
    for (let from = 0; from < ids.length; from += partsAtOnce) {
      const last = ids[Math.min(from + partsAtOnce, ids.length) - 1]!;
      ontake(await parts.getAll(IDBKeyRange.bound(ids[from]!, last)));
    }
    return undefined;
  } catch (error) {
    return storageFailureFrom(error);
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
