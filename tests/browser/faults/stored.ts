/** What lies in the app's database, read beside the app with bare IndexedDB. */
import { readdir, stat, truncate } from 'node:fs/promises';
import path from 'node:path';
import type { Page } from 'playwright-core';
import type { SavedDatabase } from '../../fixtures/database/saved-database';

export interface Stored {
  readonly version: number;
  readonly records: Readonly<Record<string, readonly { readonly id: string }[]>>;
}

/** Every record of the named stores. */
export function stored(page: Page, names: readonly string[]): Promise<Stored> {
  return page.evaluate(async (wanted) => {
    const open = indexedDB.open('hypocentre');
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      open.onsuccess = () => resolve(open.result);
      open.onerror = () => reject(new Error('the database cannot be opened'));
    });
    const records: Record<string, { id: string }[]> = {};
    for (const name of wanted) {
      records[name] = await new Promise((resolve, reject) => {
        const request = db.transaction(name).objectStore(name).getAll();
        request.onsuccess = () => resolve(request.result as { id: string }[]);
        request.onerror = () => reject(new Error(`the store ${name} cannot be read`));
      });
    }
    const { version } = db;
    db.close();
    return { version, records };
  }, names);
}

/** Makes the app's database as it was saved; the page must be one of the app's address, without the app. */
export async function putDatabase(page: Page, saved: SavedDatabase): Promise<void> {
  await page.evaluate(async (given) => {
    const opening = indexedDB.open('hypocentre', given.version);
    opening.onupgradeneeded = () => {
      for (const { name, keyPath, autoIncrement, indexes, records } of given.stores) {
        const store = opening.result.createObjectStore(name, { keyPath, autoIncrement });
        for (const index of indexes) {
          const { unique, multiEntry } = index;
          store.createIndex(index.name, index.keyPath, { unique, multiEntry });
        }
        for (const record of records) store.add(record);
      }
    };
    await new Promise<void>((resolve, reject) => {
      opening.onsuccess = () => resolve();
      opening.onerror = () => reject(new Error('the database cannot be made'));
    });
    opening.result.close();
  }, saved);
}

/** Writes records into one store of the app's database, beside the app: a reload shows them. */
export async function putRecords(
  page: Page,
  name: string,
  records: readonly object[],
): Promise<void> {
  await page.evaluate(
    async ([storeName, given]) => {
      const opening = indexedDB.open('hypocentre');
      await new Promise<void>((resolve, reject) => {
        opening.onsuccess = () => resolve();
        opening.onerror = () => reject(new Error('the database cannot be opened'));
      });
      const tx = opening.result.transaction(storeName, 'readwrite', { durability: 'strict' });
      for (const record of given) tx.objectStore(storeName).put(record);
      await new Promise<void>((resolve, reject) => {
        tx.oncomplete = () => resolve();
        tx.onabort = () => reject(new Error(`the store ${storeName} cannot be written`));
      });
      opening.result.close();
    },
    [name, records] as const,
  );
}

/** The ZIP files in the browser's private folder, by name. */
export async function filesInPrivateFolder(
  page: Page,
): Promise<{ readonly name: string; readonly bytes: Uint8Array }[]> {
  const files = await page.evaluate(async () => {
    const root = (await navigator.storage.getDirectory()) as unknown as {
      entries(): AsyncIterable<[string, FileSystemFileHandle]>;
    };
    const found: { name: string; text: string }[] = [];
    for await (const [name, handle] of root.entries()) {
      if (!name.endsWith('.zip')) continue;
      const bytes = new Uint8Array(await (await handle.getFile()).arrayBuffer());
      // As text: bytes themselves do not pass from the page to the test.
      found.push({ name, text: Array.from(bytes, (byte) => String.fromCharCode(byte)).join('') });
    }
    return found;
  });
  return files
    .map(({ name, text }) => ({ name, bytes: Uint8Array.from(Buffer.from(text, 'latin1')) }))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}

/**
 * Tears bytes off the end of the log file in which the browser keeps its databases, as a kill in the
 * middle of a write does. The browser must be closed.
 */
export async function tearDatabase(profileFolder: string, byteCount: number): Promise<void> {
  const all = path.join(profileFolder, 'Default', 'IndexedDB');
  const [database] = (await readdir(all)).filter((name) => name.endsWith('.leveldb'));
  const folder = path.join(all, database ?? '');
  const [log] = (await readdir(folder)).filter((name) => name.endsWith('.log'));
  const file = path.join(folder, log ?? '');
  await truncate(file, (await stat(file)).size - byteCount);
}
