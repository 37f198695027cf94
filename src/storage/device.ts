/** The id of this device, by which a later merge tells its changes from another's. */
import type { DeviceId, MakeId } from '../model/ids';
import { storageFailureFrom, type StorageFailure } from './failure';
import type { Store } from './store';
import { abortIfOpen } from './transaction';

export type DeviceResult =
  | { readonly kind: 'known'; readonly device: DeviceId }
  | { readonly kind: 'failed'; readonly failure: StorageFailure };

/**
 * The device's id, made the first time it is asked for and the same ever after.
 *
 * Look and make are one transaction, so two tabs that start together agree.
 * After `deleteEverything` the next call makes a new one.
 */
export async function deviceOf(store: Store, makeId: MakeId): Promise<DeviceResult> {
  try {
    const tx = store.db.transaction('meta', 'readwrite', { durability: 'strict' });
    tx.done.catch(() => undefined); // reported once, below
    try {
      const known = await tx.store.get('device');
      const device = known?.device ?? makeId<'device'>();
      if (!known) await tx.store.add({ id: 'device', device });
      await tx.done;
      return { kind: 'known', device };
    } catch (error) {
      abortIfOpen(tx);
      throw error;
    }
  } catch (error) {
    return { kind: 'failed', failure: storageFailureFrom(error) };
  }
}
