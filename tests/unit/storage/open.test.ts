import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { applyChanges } from '../../../src/storage/apply-changes';
import { databaseVersion } from '../../../src/storage/migrations';
import { openStore, type LostConnection } from '../../../src/storage/open';
import { closeStore } from '../../../src/storage/store';
import {
  added,
  databaseName,
  endByBrowser,
  freshIndexedDB,
  newNote,
  requireRecords,
  requireStore,
} from './harness';

beforeEach(freshIndexedDB);
afterEach(() => vi.restoreAllMocks());

/** A connection of another program version, which knows nothing of our manners. */
function openBare(version: number): Promise<{ db: IDBDatabase; blocked: boolean }> {
  return new Promise((resolve, reject) => {
    const opening = indexedDB.open(databaseName, version);
    let blocked = false;
    opening.onblocked = () => (blocked = true);
    opening.onupgradeneeded = () => {
      if (!opening.result.objectStoreNames.contains('future')) {
        opening.result.createObjectStore('future');
      }
    };
    opening.onsuccess = () => resolve({ db: opening.result, blocked });
    opening.onerror = () => reject(opening.error ?? new Error('no reason given'));
  });
}

function open() {
  return openStore({ name: databaseName, onlost: () => undefined });
}

describe('S7 a database from a newer version of the app is left alone', () => {
  it('S7 says so instead of throwing, and changes nothing', async () => {
    const newer = await openBare(databaseVersion + 3);
    newer.db.close();

    const result = await open();

    expect(result).toMatchObject({ kind: 'newer-version' });
    if (result.kind !== 'newer-version') throw new Error(result.kind);
    expect(result.message).toContain('newer version');
    expect(result.wayOn).toContain('Reload');
    const again = await openBare(databaseVersion + 3);
    expect([...again.db.objectStoreNames]).toEqual(['future']);
  });
});

describe('S8 tabs of different versions do not hang each other', () => {
  it('S8 a new tab says that an old one is in its way, and goes on by itself once it is gone', async () => {
    const old = await openBare(1);

    const result = await open();
    if (result.kind !== 'blocked') throw new Error(result.kind);
    expect(result.wayOn).toContain('Close the other tabs');
    const settled = vi.fn();
    void result.whenFree.then(settled);
    await new Promise((resolve) => setImmediate(resolve));
    expect(settled).not.toHaveBeenCalled();

    old.db.close();
    expect(await result.whenFree).toMatchObject({ kind: 'open' });
  });

  it('S8 an old tab lets go at once when a newer version opens, and says so once', async () => {
    const lost: LostConnection[] = [];
    const store = await requireStore({ lost });

    const newer = await openBare(databaseVersion + 1);

    expect(newer.blocked).toBe(false);
    expect(lost.map(({ kind }) => kind)).toEqual(['newer-version-elsewhere']);
    expect(await applyChanges(store, [added('notes', newNote('n', 'late'))])).toMatchObject({
      kind: 'failed',
      failure: { kind: 'closed' },
    });
  });

  it('S8 an old tab finishes the save it has begun before it lets go', async () => {
    const store = await requireStore();
    const saving = applyChanges(store, [added('notes', newNote('n', 'in time'))]);
    const newer = await openBare(databaseVersion + 1);
    expect(await saving).toEqual({ kind: 'saved', count: 1 });
    const kept = await new Promise((resolve) => {
      const reading = newer.db.transaction('notes').objectStore('notes').get('n');
      reading.onsuccess = () => resolve(reading.result);
    });
    expect(kept).toEqual(newNote('n', 'in time'));
  });

  it('S8 two tabs of one version are open side by side', async () => {
    const lost: LostConnection[] = [];
    const [first, second] = [await requireStore({ lost }), await requireStore({ lost })];
    await applyChanges(first, [added('notes', newNote('n', 'x'))]);
    expect((await requireRecords(second)).notes).toEqual([newNote('n', 'x')]);
    expect(lost).toEqual([]);
  });

  it('S8 says when the database is deleted from elsewhere', async () => {
    const lost: LostConnection[] = [];
    await requireStore({ lost });
    await new Promise((resolve) => {
      indexedDB.deleteDatabase(databaseName).onsuccess = resolve;
    });
    expect(lost.map(({ kind }) => kind)).toEqual(['deleted-elsewhere']);
  });

  it('S8 a tab that has closed its store is in nobody’s way', async () => {
    const lost: LostConnection[] = [];
    const store = await requireStore({ lost });
    closeStore(store);
    const newer = await openBare(databaseVersion + 1);
    expect(newer.blocked).toBe(false);
    expect(lost).toEqual([]);
  });

  it('S8 says when the browser ends the connection', async () => {
    const lost: LostConnection[] = [];
    const store = await requireStore({ lost });
    await endByBrowser(store);
    expect(lost.map(({ kind }) => kind)).toEqual(['browser-closed']);
    expect(lost[0]?.wayOn).toContain('reload');
  });
});

describe('S5 a browser that refuses storage is met with a sentence', () => {
  it.each([
    ['SecurityError', 'refused'],
    ['InvalidStateError', 'refused'],
    ['QuotaExceededError', 'full'],
    ['UnknownError', 'unreadable'],
  ])('S5 %s while opening is called %s', async (name, kind) => {
    vi.spyOn(IDBFactory.prototype, 'open').mockImplementation(() => {
      throw new DOMException('from the browser', name);
    });
    expect(await open()).toMatchObject({ kind: 'unavailable', failure: { kind } });
  });

  it.each([undefined, null])(
    'S5 a browser whose indexedDB is %s has it switched off',
    async (none) => {
      vi.stubGlobal('indexedDB', none);
      expect(await open()).toMatchObject({ kind: 'unavailable', failure: { kind: 'refused' } });
      vi.unstubAllGlobals();
    },
  );

  it('S5 an error that is nobody else’s fault is thrown', async () => {
    vi.spyOn(IDBFactory.prototype, 'open').mockImplementation(() => {
      throw new TypeError('a bug');
    });
    await expect(open()).rejects.toThrow('a bug');
  });
});
