/** Values that belong to this device alone: never merged, never in a backup. */
import { storageFailureFrom, type StorageFailure } from './failure';
import type { Store } from './store';

export type ReadLocalResult =
  | { readonly kind: 'read'; readonly value: unknown }
  | { readonly kind: 'failed'; readonly failure: StorageFailure };

export type WriteLocalResult =
  { readonly kind: 'saved' } | { readonly kind: 'failed'; readonly failure: StorageFailure };

/** The value under a name; undefined where there is none. The caller checks what it is. */
export async function readLocal(store: Store, name: string): Promise<ReadLocalResult> {
  try {
    return { kind: 'read', value: (await store.db.get('local', name))?.value };
  } catch (error) {
    return { kind: 'failed', failure: storageFailureFrom(error) };
  }
}

/** @param value anything the browser can clone; undefined removes it */
export async function writeLocal(
  store: Store,
  name: string,
  value: unknown,
): Promise<WriteLocalResult> {
  try {
    if (value === undefined) await store.db.delete('local', name);
    else await store.db.put('local', { id: name, value });
    return { kind: 'saved' };
  } catch (error) {
    return { kind: 'failed', failure: storageFailureFrom(error) };
  }
}
