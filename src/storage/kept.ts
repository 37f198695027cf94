/** What could not be read when something was brought in: kept as it was, so that nothing is lost. */
import { storageFailureFrom, type StorageFailure } from './failure';
import type { KeptEntry } from './schema';
import type { Store } from './store';
import { abortIfOpen } from './transaction';

export type KeepResult =
  | { readonly kind: 'kept'; readonly count: number }
  | { readonly kind: 'failed'; readonly failure: StorageFailure };

export type ListKeptResult =
  | { readonly kind: 'read'; readonly entries: readonly KeptEntry[] }
  | { readonly kind: 'failed'; readonly failure: StorageFailure };

/**
 * Keeps entries: all of them or none.
 *
 * @param entries with fresh ids; an empty list is a no-op
 */
export async function keepUnread(store: Store, entries: readonly KeptEntry[]): Promise<KeepResult> {
  try {
    const tx = store.db.transaction('kept', 'readwrite', { durability: 'strict' });
    tx.done.catch(() => undefined); // reported once, below
    try {
      // `async` makes a throw at once one of the rejections that `all` looks after.
      await Promise.all(entries.map(async (entry) => tx.store.add(entry)));
      await tx.done;
    } catch (error) {
      abortIfOpen(tx);
      throw error;
    }
    return { kind: 'kept', count: entries.length };
  } catch (error) {
    return { kind: 'failed', failure: storageFailureFrom(error) };
  }
}

/** Everything that was kept, the latest first. */
export async function listKept(store: Store): Promise<ListKeptResult> {
  try {
    const entries = await store.db.getAll('kept');
    return { kind: 'read', entries: entries.sort((a, b) => b.at - a.at) };
  } catch (error) {
    return { kind: 'failed', failure: storageFailureFrom(error) };
  }
}

export type DropKeptResult =
  { readonly kind: 'dropped' } | { readonly kind: 'failed'; readonly failure: StorageFailure };

/** Lets go of everything that was kept. */
export async function dropKept(store: Store): Promise<DropKeptResult> {
  try {
    await store.db.clear('kept');
    return { kind: 'dropped' };
  } catch (error) {
    return { kind: 'failed', failure: storageFailureFrom(error) };
  }
}
