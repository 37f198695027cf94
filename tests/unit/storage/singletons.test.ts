import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { applyChanges } from '../../../src/storage/apply-changes';
import { deleteEverything } from '../../../src/storage/delete-everything';
import { deviceOf } from '../../../src/storage/device';
import { keepUnread, listKept } from '../../../src/storage/kept';
import type { KeptEntry, KeptId } from '../../../src/storage/schema';
import { readSearchIndex, writeSearchIndex } from '../../../src/storage/search-index';
import { closeStore } from '../../../src/storage/store';
import { saveDatabase } from '../../fixtures/database/saved-database';
import {
  added,
  at,
  countingIds,
  databaseName,
  edited,
  freshIndexedDB,
  newBlock,
  newItem,
  newNote,
  requireStore,
} from './harness';

beforeEach(freshIndexedDB);
afterEach(() => vi.restoreAllMocks());

function entry(id: string, seconds: number): KeptEntry {
  return {
    id: id as KeptId,
    at: at(seconds),
    from: 'results.csv, row 12',
    reason: 'The date could not be read.',
    content: '31.02.2026;x;y',
  };
}

describe('S11 a device has one id', () => {
  it('S11 makes the id once and keeps it when the app is opened again', async () => {
    const store = await requireStore();
    expect(await deviceOf(store, countingIds('first'))).toEqual({
      kind: 'known',
      device: 'first-1',
    });
    closeStore(store);
    const again = await deviceOf(await requireStore(), countingIds('second'));
    expect(again).toEqual({ kind: 'known', device: 'first-1' });
  });

  it('S11 two tabs that start together agree', async () => {
    const [here, there] = [await requireStore(), await requireStore()];
    const [a, b] = await Promise.all([
      deviceOf(here, countingIds('here')),
      deviceOf(there, countingIds('there')),
    ]);
    expect(a).toMatchObject({ kind: 'known' });
    expect(a).toEqual(b);
  });

  it('S11 says when it cannot be kept', async () => {
    const store = await requireStore();
    store.db.close();
    expect(await deviceOf(store, countingIds('x'))).toMatchObject({
      kind: 'failed',
      failure: { kind: 'closed' },
    });
  });
});

describe('S12 deleting everything leaves nothing', () => {
  it('S12 empties every store, deletion marks, kept entries and the device included', async () => {
    const store = await requireStore();
    const note = newNote('n', 'x');
    await applyChanges(store, [added('notes', note), added('blocks', newBlock('b'))]);
    await applyChanges(store, [edited(note, '', true), added('items', newItem('i', 'b', 1))]);
    await keepUnread(store, [entry('k', 0)]);
    await deviceOf(store, countingIds('d'));

    expect(await deleteEverything(store)).toEqual({ kind: 'deleted' });

    closeStore(store);
    const { stores } = await saveDatabase(databaseName);
    expect(stores.length).toBeGreaterThan(0);
    expect(stores.filter(({ records }) => records.length > 0)).toEqual([]);
  });

  it('S12 a tab that is late with its text index cannot bring deleted text back', async () => {
    const store = await requireStore();
    await deviceOf(store, countingIds('d'));
    const part = { id: 'notes-1', content: 'a year of notes' };
    await writeSearchIndex(store, [part]);
    const read: unknown[] = [];
    const ontake = (parts: readonly unknown[]) => void read.push(...parts);
    await readSearchIndex(store, ontake);
    expect(read.splice(0)).toEqual([part]);
    await deleteEverything(store);
    expect(await writeSearchIndex(store, [part])).toBeUndefined();
    await readSearchIndex(store, ontake);
    expect(read).toEqual([]);
  });

  it('S12 deletes nothing when one store cannot be emptied', async () => {
    const store = await requireStore();
    await applyChanges(store, [added('notes', newNote('n', 'x'))]);
    closeStore(store);
    const before = await saveDatabase(databaseName);
    const again = await requireStore();
    // Called below with the object store it belongs to.

    const clear = IDBObjectStore.prototype.clear;
    vi.spyOn(IDBObjectStore.prototype, 'clear').mockImplementation(function (this: IDBObjectStore) {
      if (this.name === 'topicMatches') throw new DOMException('no', 'UnknownError');
      return clear.call(this);
    });
    expect(await deleteEverything(again)).toMatchObject({
      kind: 'failed',
      failure: { kind: 'unreadable' },
    });
    closeStore(again);
    expect(await saveDatabase(databaseName)).toEqual(before);
  });

  it('S12 another tab cannot bring a deleted record back by changing it', async () => {
    const [here, there] = [await requireStore(), await requireStore()];
    const note = newNote('n', 'x');
    await applyChanges(there, [added('notes', note)]);
    await deleteEverything(here);
    expect(await applyChanges(there, [edited(note, 'y')])).toMatchObject({
      kind: 'conflict',
      conflicts: [{ stored: undefined }],
    });
  });
});

describe('S13 what could not be read is kept as it was', () => {
  it('S13 lists what was kept, the latest first', async () => {
    const store = await requireStore();
    expect(await keepUnread(store, [entry('a', 5), entry('b', 9)])).toEqual({
      kind: 'kept',
      count: 2,
    });
    await keepUnread(store, [entry('c', 7)]);
    expect(await listKept(store)).toEqual({
      kind: 'read',
      entries: [entry('b', 9), entry('c', 7), entry('a', 5)],
    });
  });

  it('S13 keeps all of a list or none of it', async () => {
    const store = await requireStore();
    const bad = { ...entry('b', 2), content: (() => 'x') as unknown as string };
    expect(await keepUnread(store, [entry('a', 1), bad])).toMatchObject({
      kind: 'failed',
      failure: { kind: 'uncloneable' },
    });
    expect(await listKept(store)).toEqual({ kind: 'read', entries: [] });
  });

  it('S13 says when the connection is closed', async () => {
    const store = await requireStore();
    store.db.close();
    const failed = { kind: 'failed', failure: { kind: 'closed' } };
    expect(await keepUnread(store, [entry('a', 1)])).toMatchObject(failed);
    expect(await listKept(store)).toMatchObject(failed);
  });
});
