import { readFile } from 'node:fs/promises';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { parseRecord, recordKinds, type RecordKind } from '../../../src/model/records';
import { keepUnread } from '../../../src/storage/kept';
import { databaseVersion, migrations } from '../../../src/storage/migrations';
import { openStore } from '../../../src/storage/open';
import { closeStore } from '../../../src/storage/store';
import {
  restoreDatabase,
  saveDatabase,
  type SavedDatabase,
} from '../../fixtures/database/saved-database';
import { databaseName, freshIndexedDB, requireRecords, requireStore } from './harness';

async function savedFile(version: number): Promise<SavedDatabase> {
  const file = new URL(`../../fixtures/database/v${version}.json`, import.meta.url);
  return JSON.parse(await readFile(file, 'utf8')) as SavedDatabase;
}

const storesOfVersion3 = [
  'columnMappings',
  'dismissals',
  'keptSearches',
  'local',
  'noteVersions',
  'otherVersions',
  'pictureBytes',
  'pictures',
  'plans',
  'rehearsals',
  'searchIndex',
];

/** Stores and indexes without what is in them. */
function shapeOf(saved: SavedDatabase) {
  return saved.stores.map(({ records: _records, ...shape }) => shape);
}

beforeEach(freshIndexedDB);
afterEach(() => vi.restoreAllMocks());

describe('S6 every older database is brought up to date with nothing lost', () => {
  it('S6 numbers its steps from 1 without gaps', () => {
    expect(migrations.map(({ version }) => version)).toEqual(migrations.map((_, i) => i + 1));
    expect(databaseVersion).toBe(migrations.length);
  });

  it('S6 has a saved file for every version before this one', async () => {
    for (let version = 1; version < databaseVersion; version++) {
      const saved = await savedFile(version);
      expect(saved).toMatchObject({ format: 'hypocentre-database', version });
    }
  });

  it('S6 makes a new database with a store for each kind of record and its own beside them', async () => {
    closeStore(await requireStore());
    const made = await saveDatabase(databaseName);
    expect(made.version).toBe(databaseVersion);
    expect(made.stores.map(({ name }) => name)).toEqual(
      [...recordKinds, 'meta', 'kept', 'pictureBytes', 'searchIndex', 'local'].sort(),
    );
    for (const { keyPath, autoIncrement, name, indexes } of made.stores) {
      expect({ name, keyPath, autoIncrement }).toEqual({
        name,
        keyPath: 'id',
        autoIncrement: false,
      });
      expect(indexes.map((index) => index.name)).toEqual(name === 'items' ? ['block'] : []);
    }
  });

  it.each([
    [1, ['kept', 'topicMatches', ...storesOfVersion3]],
    [2, storesOfVersion3],
  ])('S6 keeps every record of version %i and adds its empty stores', async (version, empty) => {
    const before = await savedFile(version);
    await restoreDatabase(databaseName, before);

    closeStore(await requireStore());

    const after = await saveDatabase(databaseName);
    expect(after.version).toBe(databaseVersion);
    for (const store of before.stores) {
      expect(store.records.length).toBeGreaterThan(0);
      expect(after.stores).toContainEqual(store);
    }
    const names = new Set(before.stores.map(({ name }) => name));
    const added = after.stores.filter(({ name }) => !names.has(name));
    expect(added.map(({ name, records }) => [name, records])).toEqual(
      empty.toSorted().map((name) => [name, []]),
    );
  });

  it.each([1, 2])('S6 leaves version %i in the same shape as a new one', async (version) => {
    await restoreDatabase(databaseName, await savedFile(version));
    closeStore(await requireStore());
    closeStore(await requireStore({ name: 'fresh' }));
    expect(shapeOf(await saveDatabase(databaseName))).toEqual(shapeOf(await saveDatabase('fresh')));
  });

  it.each([
    // By hand from write-v*.ts, kind by kind: 2 + 1 + 2 + 1 + 3 + 1 + 1 + 1 + 1 + 1 + 1 + 1 (+ 2).
    [1, 16],
    [2, 18],
  ])('S6 records of version %i are what the model of today accepts', async (version, count) => {
    await restoreDatabase(databaseName, await savedFile(version));
    const records = await requireRecords(await requireStore());
    let checkedCount = 0;
    for (const kind of recordKinds satisfies readonly RecordKind[]) {
      for (const record of records[kind]) {
        expect(parseRecord(kind, record)).toEqual({ kind: 'ok', value: record });
        checkedCount += 1;
      }
    }
    expect(checkedCount).toBe(count);
  });

  it('S6 a step that fails half-way leaves the database at its version, and throws', async () => {
    const before = await savedFile(1);
    await restoreDatabase(databaseName, before);
    const step = migrations[1];
    if (!step) throw new Error('there is no second step');
    vi.spyOn(step, 'migrate').mockImplementation(async (db, tx) => {
      db.createObjectStore('half', { keyPath: 'id' });
      await tx.objectStore('notes').put({ id: 'note-1', title: 'spoilt' });
      throw new RangeError('a fault in the step');
    });

    const opening = openStore({ name: databaseName, onlost: () => undefined });
    await expect(opening).rejects.toThrow('a fault in the step');
    expect(await saveDatabase(databaseName)).toEqual(before);
  });

  it('S6 opening a database of this version changes nothing', async () => {
    await restoreDatabase(databaseName, await savedFile(1));
    closeStore(await requireStore());
    const once = await saveDatabase(databaseName);
    const store = await requireStore();
    await keepUnread(store, []);
    closeStore(store);
    expect(await saveDatabase(databaseName)).toEqual(once);
  });
});
