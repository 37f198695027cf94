/** Putting a whole copy of the log in place of the one that is stored, all or nothing. */
import type { Copy } from '../model/merge';
import { recordKinds, type AnyRecord, type RecordKind } from '../model/records';
import { compareRevisions } from '../model/stamp';
import type { Change } from './change';
import { storageFailureFrom, type StorageFailure } from './failure';
import type { RecordRef } from './schema';
import type { Store } from './store';
import { abortIfOpen } from './transaction';

export type ReplaceResult =
  | { readonly kind: 'replaced'; readonly written: number; readonly removed: number }
  /** Something was saved since `seen` was read; nothing was changed. */
  | { readonly kind: 'conflict' }
  | { readonly kind: 'failed'; readonly failure: StorageFailure };

/**
 * Makes the stored records those of `next`, in one transaction, stamps and all.
 *
 * Only what differs is written. The other tabs are told to read everything anew.
 *
 * @param seen what was stored when `next` was worked out; anything else stored is a conflict
 */
export async function replaceAll(store: Store, seen: Copy, next: Copy): Promise<ReplaceResult> {
  const written: Change[] = [];
  let removed = 0;
  const gone: RecordRef[] = [];
  try {
    const tx = store.db.transaction([...recordKinds], 'readwrite', { durability: 'strict' });
    tx.done.catch(() => undefined); // reported once, below
    try {
      const stored = await Promise.all(
        recordKinds.map(async (kind) => tx.objectStore(kind).getAll() as Promise<AnyRecord[]>),
      );
      const unseen = recordKinds.some((kind, i) => !sameRevisions(stored[i] ?? [], seen[kind]));
      if (unseen) {
        abortIfOpen(tx);
        return { kind: 'conflict' };
      }
      const requests: Promise<unknown>[] = [];
      for (const [i, kind] of recordKinds.entries()) {
        const here = new Map((stored[i] ?? []).map((record) => [record.id as string, record]));
        const objects = tx.objectStore(kind) as unknown as Objects;
        for (const record of next[kind] ?? []) {
          const old = here.get(record.id);
          here.delete(record.id);
          if (old && isSame(old, record)) continue;
          written.push({ kind, record, basedOn: undefined } as Change);
          // It may be an older version than the one it replaces.
          gone.push({ kind, id: record.id });
          requests.push(attempt(() => objects.put(record)));
        }
        for (const id of here.keys()) {
          removed += 1;
          gone.push({ kind, id: id as AnyRecord['id'] });
          requests.push(attempt(() => objects.delete(id)));
        }
      }
      await Promise.all(requests);
      await tx.done;
    } catch (error) {
      abortIfOpen(tx);
      throw error;
    }
  } catch (error) {
    return { kind: 'failed', failure: storageFailureFrom(error) };
  }
  store.channel?.tell('everything');
  await store.spare?.add(written, gone);
  return { kind: 'replaced', written: written.length, removed };
}

interface Objects {
  put(record: AnyRecord): Promise<unknown>;
  delete(id: string): Promise<unknown>;
}

/** A throw at once becomes one of the rejections that `all` looks after. */
async function attempt(request: () => Promise<unknown>): Promise<unknown> {
  return request();
}

function sameRevisions(stored: readonly AnyRecord[], seen: Copy[RecordKind] = []): boolean {
  if (stored.length !== seen.length) return false;
  const byId = new Map(seen.map((record) => [record.id as string, record]));
  return stored.every((record) => {
    const known = byId.get(record.id);
    return known !== undefined && isSame(known, record);
  });
}

/** The same version: revisions alone would do, were it not for versions in dispute. */
function isSame(one: AnyRecord, other: AnyRecord): boolean {
  const [a, b] = [one.stamp, other.stamp];
  return (
    compareRevisions(a.revision, b.revision) === 'same' &&
    a.changedAt === b.changedAt &&
    a.deleted === b.deleted
  );
}
