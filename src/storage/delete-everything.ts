/** The candidate's way out: everything this app has stored on this device. */
import { storageFailureFrom, type StorageFailure } from './failure';
import type { Store } from './store';
import { abortIfOpen } from './transaction';

export type DeleteResult =
  { readonly kind: 'deleted' } | { readonly kind: 'failed'; readonly failure: StorageFailure };

/**
 * Empties every store in one transaction: records, deletion marks, what was
 * kept, and the device's id. Nothing of it can be brought back from the store. The spare copy goes
 * first, so that nothing can be put back from it, and once more for what a tab wrote meanwhile.
 *
 * The other tabs are told. A change one of them still holds unsaved is then
 * refused as a conflict with nothing stored.
 */
export async function deleteEverything(store: Store): Promise<DeleteResult> {
  try {
    await store.spare?.forget();
    const names = [...store.db.objectStoreNames];
    const tx = store.db.transaction(names, 'readwrite', { durability: 'strict' });
    tx.done.catch(() => undefined); // reported once, below
    try {
      // `async` makes a throw at once one of the rejections that `all` looks after.
      await Promise.all(names.map(async (name) => tx.objectStore(name).clear()));
      await tx.done;
    } catch (error) {
      abortIfOpen(tx);
      throw error;
    }
  } catch (error) {
    return { kind: 'failed', failure: storageFailureFrom(error) };
  }
  store.channel?.tell('everything');
  await store.spare?.forget();
  return { kind: 'deleted' };
}
