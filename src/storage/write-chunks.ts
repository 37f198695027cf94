/** The requests of one batch: check and write each record, a few hundred at a time. */
import type { AnyRecord } from '../model/records';
import { compareRevisions, type Revision } from '../model/stamp';
import { conflictOf, type Change, type Conflict } from './change';

/**
 * Records handed over at a time. Each costs about 0.07 ms of the page's own
 * time (20,000 took 1,390 ms), so a chunk stays near one frame of 16 ms; waiting
 * once in 200 costs next to nothing, while waiting for each takes four times as long.
 */
export const chunkSize = 200;

/**
 * Writes the changes and returns those that are in conflict.
 *
 * With a conflict the transaction is left open and half written: the caller must
 * abort it. Rejects with the first error.
 */
export async function writeInChunks(
  tx: IDBTransaction,
  changes: readonly Change[],
  onprogress: ((done: number, total: number) => void) | undefined,
): Promise<readonly Conflict[]> {
  const conflicts: Conflict[] = [];
  for (let start = 0; start < changes.length; start += chunkSize) {
    const chunk = changes.slice(start, start + chunkSize);
    await writeChunk(tx, chunk, conflicts);
    onprogress?.(start + chunk.length, changes.length);
  }
  return conflicts;
}

/** Settles when every request of the chunk has reported; found conflicts are added to `conflicts`. */
function writeChunk(
  tx: IDBTransaction,
  chunk: readonly Change[],
  conflicts: Conflict[],
): Promise<void> {
  return new Promise((resolve, reject) => {
    let waiting = chunk.length;
    const done = () => {
      waiting -= 1;
      if (waiting === 0) resolve();
    };
    const clash = (change: Change, stored: unknown) => {
      conflicts.push(conflictOf(change, stored));
      done();
    };

    for (const change of chunk) {
      const objectStore = tx.objectStore(change.kind);
      if (change.basedOn === undefined) addNew(objectStore, change);
      else replaceSeen(objectStore, change, change.basedOn);
    }

    function addNew(objectStore: IDBObjectStore, change: Change): void {
      const adding = objectStore.add(change.record);
      adding.onsuccess = done;
      adding.onerror = (event) => {
        if (adding.error?.name !== 'ConstraintError') {
          reject(errorOf(adding));
          return;
        }
        // The id is taken. Keep the transaction alive to learn by what, and of the other conflicts.
        event.preventDefault();
        event.stopPropagation();
        read(objectStore, change, (stored) => clash(change, stored));
      };
    }

    function replaceSeen(objectStore: IDBObjectStore, change: Change, seen: Revision): void {
      read(objectStore, change, (stored) => {
        if (!isStored(stored) || compareRevisions(stored.stamp.revision, seen) !== 'same') {
          clash(change, stored);
          return;
        }
        const putting = objectStore.put(change.record);
        putting.onsuccess = done;
        putting.onerror = () => reject(errorOf(putting));
      });
    }

    function read(
      objectStore: IDBObjectStore,
      change: Change,
      onread: (stored: unknown) => void,
    ): void {
      const reading = objectStore.get(change.record.id);
      reading.onerror = () => reject(errorOf(reading));
      reading.onsuccess = () => {
        try {
          onread(reading.result);
        } catch (error) {
          // A record that cannot be cloned throws here, where nobody else would hear of it.
          reject(error instanceof Error ? error : new Error(String(error)));
        }
      };
    }
  });
}

function isStored(input: unknown): input is AnyRecord {
  return input !== undefined;
}

function errorOf(request: IDBRequest): Error {
  return request.error ?? new DOMException('no reason given', 'AbortError');
}
