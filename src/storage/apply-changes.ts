/**
 * Saving: a batch of new and changed records, all of them or none.
 *
 * Every change says which revision of the record its author had seen. If the
 * store holds another one by now, a second tab has saved in between, and the
 * batch is refused instead of overwriting what nobody here has looked at.
 */
import { unwrap } from 'idb';
import { refOf, requireSound, type Change, type Conflict } from './change';
import { storageFailureFrom, type StorageFailure } from './failure';
import type { Store } from './store';
import { abortIfOpen, endOf } from './transaction';
import { writeInChunks } from './write-chunks';

export interface ApplyOptions {
  /** `strict` waits for the disk: the rule for what a person typed. */
  readonly durability?: 'strict' | 'relaxed';
  /** Called as records are written, at most once for each `chunkSize` of them; the batch can still fail. */
  readonly onprogress?: (done: number, total: number) => void;
  /** Undoes the batch, unless it has been committed already. */
  readonly signal?: AbortSignal;
}

export type ApplyResult =
  | { readonly kind: 'saved'; readonly count: number }
  | { readonly kind: 'conflict'; readonly conflicts: readonly Conflict[] }
  | { readonly kind: 'stopped' }
  | { readonly kind: 'failed'; readonly failure: StorageFailure };

/**
 * Saves changes of any kinds in one transaction: all of them or none.
 *
 * The other tabs are told once the batch is committed.
 *
 * @param changes at most one for each record; an empty batch is a no-op
 * @returns `conflict`, naming every record in dispute, `stopped` or `failed` with
 *   the store unchanged
 * @throws {RangeError} if a record occurs twice, or its revision does not move on
 *   from the one it is based on
 * @throws any error that is a bug, for the top-level handler to report
 *
 * @example
 * const record = { ...note, text, stamp: nextStamp(note.stamp, device, now) };
 * await applyChanges(store, [{ kind: 'notes', record, basedOn: note.stamp.revision }]);
 * // { kind: 'saved', count: 1 }
 */
export async function applyChanges(
  store: Store,
  changes: readonly Change[],
  options: ApplyOptions = {},
): Promise<ApplyResult> {
  requireSound(changes);
  if (options.signal?.aborted) return { kind: 'stopped' };
  if (changes.length === 0) return { kind: 'saved', count: 0 };

  const kinds = [...new Set(changes.map((change) => change.kind))];
  const durability = options.durability ?? 'strict';
  let tx: IDBTransaction;
  try {
    // The bare transaction: a conflict must be noticed in the request's own event to keep the
    // transaction alive, and 20,000 promises are spared.
    tx = unwrap(store.db).transaction(kinds, 'readwrite', { durability });
  } catch (error) {
    return { kind: 'failed', failure: storageFailureFrom(error) };
  }

  const ended = endOf(tx);
  const stop = { done: false };
  const onabort = () => {
    stop.done = abortIfOpen(tx);
  };
  options.signal?.addEventListener('abort', onabort);

  try {
    const conflicts = await writeInChunks(tx, changes, options.onprogress);
    if (conflicts.length > 0) {
      abortIfOpen(tx);
      await ended;
      return stop.done ? { kind: 'stopped' } : { kind: 'conflict', conflicts };
    }
    if (!(await ended)) throw tx.error ?? new DOMException('undone', 'AbortError');
  } catch (error) {
    abortIfOpen(tx);
    await ended;
    if (stop.done) return { kind: 'stopped' };
    return { kind: 'failed', failure: storageFailureFrom(causeOf(tx, error)) };
  } finally {
    options.signal?.removeEventListener('abort', onabort);
  }
  store.channel?.tell(changes.map(refOf));
  await store.spare?.add(changes);
  return { kind: 'saved', count: changes.length };
}

/** Why a transaction was undone: its own reason (a full disk at the commit) before that of a request. */
function causeOf(tx: IDBTransaction, error: unknown): unknown {
  return tx.error === null || tx.error.name === 'AbortError' ? error : tx.error;
}
