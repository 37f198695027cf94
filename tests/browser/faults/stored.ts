/** What lies in the app's database, read beside the app with bare IndexedDB. */
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
