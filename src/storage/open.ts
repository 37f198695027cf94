/** Opening the database, and what a screen says when that does not work. */
import { openDB } from 'idb';
import type { ChangesChannel } from './changes-channel';
import { storageFailure, storageFailureFrom, type StorageFailure } from './failure';
import {
  databaseVersion,
  migrate,
  type MigratingDatabase,
  type MigratingTransaction,
} from './migrations';
import type { AppSchema } from './schema';
import type { Spare } from './spare';
import type { Store } from './store';
import { abortIfOpen } from './transaction';

export interface OpenOptions {
  readonly name: string;
  /** Where saved batches are announced; see `openChangesChannel`. */
  readonly channel?: ChangesChannel;
  /** Where saved changes are written as well. */
  readonly spare?: Spare;
  /** Called once if an open connection is lost; nothing can be saved after it. */
  readonly onlost: (lost: LostConnection) => void;
}

interface Sentences {
  /** One sentence: what happened. */
  readonly message: string;
  /** One sentence: what to do now. */
  readonly wayOn: string;
}

/** Why an open connection is gone. */
export interface LostConnection extends Sentences {
  readonly kind: 'newer-version-elsewhere' | 'deleted-elsewhere' | 'browser-closed';
}

export type OpenResult =
  | { readonly kind: 'open'; readonly store: Store }
  /** The stored data were written by a newer version of the app than this one. */
  | ({ readonly kind: 'newer-version' } & Sentences)
  /** Another tab holds an older version open; `whenFree` settles once it lets go. */
  | ({ readonly kind: 'blocked'; readonly whenFree: Promise<OpenResult> } & Sentences)
  | { readonly kind: 'unavailable'; readonly failure: StorageFailure };

const newerVersion: Sentences = {
  message: 'Your data were last saved by a newer version of Hypocentre than this page is.',
  wayOn: 'Reload the page to get the newer version; nothing was changed.',
};

const blocked: Sentences = {
  message: 'Hypocentre is open in another tab in an older version, which keeps the data in use.',
  wayOn: 'Close the other tabs of Hypocentre; this one goes on by itself.',
};

const lost: Readonly<Record<LostConnection['kind'], Sentences>> = {
  'newer-version-elsewhere': {
    message: 'A newer version of Hypocentre was opened in another tab, so this tab has stopped.',
    wayOn: 'Copy what you typed and have not saved, then reload this page.',
  },
  'deleted-elsewhere': {
    message: 'The stored data are being deleted from another tab, so this tab has stopped.',
    wayOn: 'Copy what you still need from this page before you reload or close it.',
  },
  'browser-closed': {
    message: 'The browser has closed the stored data, as it does when site data are cleared.',
    wayOn: 'Copy what you typed and have not saved, then reload this page.',
  },
};

/**
 * Opens the database, bringing an older one up to this version.
 *
 * @returns `open`, or why not; every kind but `open` has left the data as they were
 * @throws any error that is a bug, such as one in a migration; the data stay at
 *   the version before
 */
export function openStore(options: OpenOptions): Promise<OpenResult> {
  return new Promise((resolve, reject) => {
    const whenFree: Promise<OpenResult> = attempt(options, () =>
      resolve({ kind: 'blocked', ...blocked, whenFree }),
    );
    // After `blocked` these two change nothing: a promise settles once.
    whenFree.then(resolve, reject);
  });
}

async function attempt(options: OpenOptions, onblocked: () => void): Promise<OpenResult> {
  // Absent or null where the browser has storage switched off.
  const scope: { indexedDB?: IDBFactory | null } = globalThis;
  if (!scope.indexedDB) return { kind: 'unavailable', failure: storageFailure('refused') };

  let migrationError: unknown;
  try {
    const db = await openDB<AppSchema>(options.name, databaseVersion, {
      blocked: onblocked,
      upgrade(opening, from, _to, tx) {
        // An aborted upgrade rejects `done` too; the cause is reported once, below.
        tx.done.catch(() => undefined);
        // The types of today do not hold for the stores of yesterday.
        const oldDb = opening as unknown as MigratingDatabase;
        const oldTx = tx as unknown as MigratingTransaction;
        migrate(oldDb, oldTx, from).catch((error: unknown) => {
          // Without the abort a step that failed half-way would be committed.
          migrationError = error;
          abortIfOpen(tx);
        });
      },
      blocking(_version, newVersion, event) {
        // Close at once, or the other tab waits for this one. What is being saved is finished first.
        if (event.target instanceof IDBDatabase) event.target.close();
        report(newVersion === null ? 'deleted-elsewhere' : 'newer-version-elsewhere');
      },
      terminated: () => report('browser-closed'),
    });
    return { kind: 'open', store: { db, channel: options.channel, spare: options.spare } };
  } catch (error) {
    return notOpened(migrationError ?? error);
  }

  function report(kind: LostConnection['kind']): void {
    options.onlost({ kind, ...lost[kind] });
  }
}

function notOpened(error: unknown): OpenResult {
  if (error instanceof DOMException) {
    if (error.name === 'VersionError') return { kind: 'newer-version', ...newerVersion };
    // Firefox in some private windows; there is no connection yet that could have been closed.
    if (error.name === 'InvalidStateError') {
      return { kind: 'unavailable', failure: storageFailure('refused') };
    }
  }
  return { kind: 'unavailable', failure: storageFailureFrom(error) };
}
