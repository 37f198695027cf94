/**
 * The steps from one version of the database to the next.
 *
 * A step that has been released is history: it is never edited, and it names
 * its stores in full instead of asking the model, which will have moved on.
 * Each is tested from a saved file of the version before it
 * (`tests/fixtures/database`).
 */
import type { IDBPDatabase, IDBPTransaction } from 'idb';

/** Untyped on purpose: the schema of today does not describe the stores of yesterday. */
export type MigratingDatabase = IDBPDatabase;
export type MigratingTransaction = IDBPTransaction<unknown, string[], 'versionchange'>;

export interface Migration {
  /** The version this step leads to. */
  readonly version: number;
  /** What it does, for the reader of the list. */
  readonly summary: string;
  /**
   * Only IndexedDB may be awaited in it: awaiting anything else ends the
   * transaction in the middle of the step.
   */
  readonly migrate: (db: MigratingDatabase, tx: MigratingTransaction) => void | Promise<void>;
}

export const migrations: readonly Migration[] = [
  { version: 1, summary: 'the concept map, the log, study, settings', migrate: firstStores },
  { version: 2, summary: 'topics matched by hand; what could not be read', migrate: keptStores },
  {
    version: 3,
    summary: 'pictures, older versions, searches, rehearsals, plans, choices; the text index',
    migrate: besideStores,
  },
];

/** The version this code reads and writes. */
export const databaseVersion = migrations.length;

/**
 * Runs every step after `from` up to and including `to`, in order, in one transaction.
 *
 * @param from version found; 0 for a database that did not exist
 */
export async function migrate(
  db: MigratingDatabase,
  tx: MigratingTransaction,
  from: number,
  to: number = databaseVersion,
): Promise<void> {
  for (const step of migrations) {
    if (step.version > from && step.version <= to) await step.migrate(db, tx);
  }
}

function firstStores(db: MigratingDatabase): void {
  const names = [
    'disciplines',
    'systems',
    'concepts',
    'blocks',
    'notes',
    'readings',
    'readingEvents',
    'looks',
    'lines',
    'days',
    'settings',
    'meta',
  ];
  for (const name of names) db.createObjectStore(name, { keyPath: 'id' });
  db.createObjectStore('items', { keyPath: 'id' }).createIndex('block', 'block');
}

function keptStores(db: MigratingDatabase): void {
  db.createObjectStore('topicMatches', { keyPath: 'id' });
  db.createObjectStore('kept', { keyPath: 'id' });
}

function besideStores(db: MigratingDatabase): void {
  const names = [
    'columnMappings',
    'pictures',
    'noteVersions',
    'keptSearches',
    'rehearsals',
    'plans',
    'dismissals',
    'otherVersions',
    'pictureBytes',
    'searchIndex',
    'local',
  ];
  for (const name of names) db.createObjectStore(name, { keyPath: 'id' });
}
