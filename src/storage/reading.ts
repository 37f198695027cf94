/** One read-only transaction, with its end looked after. */
import type { IDBPTransaction } from 'idb';
import type { RecordKind } from '../model/records';
import type { AppSchema } from './schema';
import type { Store } from './store';

export type ReadingTransaction = IDBPTransaction<AppSchema, RecordKind[]>;

/**
 * What `read` makes of a transaction over some kinds.
 *
 * @param read may await only IndexedDB
 * @throws what IndexedDB throws; the caller turns it into a result
 */
export async function reading<T>(
  store: Store,
  kinds: readonly RecordKind[],
  read: (tx: ReadingTransaction) => Promise<T>,
): Promise<T> {
  const tx = store.db.transaction([...kinds], 'readonly');
  // A lost connection rejects `done` as well as the request; it is reported once, by `read`.
  tx.done.catch(() => undefined);
  return await read(tx);
}
