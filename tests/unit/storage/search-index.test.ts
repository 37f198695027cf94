import { beforeEach, describe, expect, it } from 'vitest';
import { closeStore } from '../../../src/storage/store';
import { deviceOf } from '../../../src/storage/device';
import { readSearchIndex, writeSearchIndex } from '../../../src/storage/search-index';
import { countingIds, freshIndexedDB, requireStore } from './harness';

beforeEach(freshIndexedDB);

/** As after a start of the app: the device is known. */
async function begunStore() {
  const store = await requireStore();
  await deviceOf(store, countingIds('device'));
  return store;
}

/** Everything that is read, in one list, or why it could not be. */
async function readAll(store: Parameters<typeof readSearchIndex>[0]) {
  const parts: unknown[] = [];
  const failure = await readSearchIndex(store, (some) => parts.push(...some));
  return failure ?? parts;
}

describe('the saved text index', () => {
  it('is empty at first, and holds what was written when the app is opened again', async () => {
    const store = await begunStore();
    expect(await readAll(store)).toEqual([]);
    const counts = Uint32Array.of(3, 1, 4);
    await writeSearchIndex(store, [
      { id: 'part-0', content: { words: ['acid'], counts } },
      { id: 'part-1', content: 'anything at all' },
    ]);
    closeStore(store);
    const read = await readAll(await requireStore());
    expect(read).toEqual([
      { id: 'part-0', content: { words: ['acid'], counts } },
      { id: 'part-1', content: 'anything at all' },
    ]);
  });

  it('replaces and removes parts in one step', async () => {
    const store = await begunStore();
    await writeSearchIndex(store, [
      { id: 'a', content: 1 },
      { id: 'b', content: 2 },
    ]);
    expect(await writeSearchIndex(store, [{ id: 'a' }, { id: 'b', content: 3 }])).toBeUndefined();
    expect(await readAll(store)).toEqual([{ id: 'b', content: 3 }]);
  });

  it('is handed over a few parts at a time, none left out and none twice', async () => {
    const store = await begunStore();
    const put = Array.from({ length: 8 }, (_, i) => ({ id: `part-${i}`, content: i }));
    await writeSearchIndex(store, put);
    const sizes: number[] = [];
    await readSearchIndex(store, (some) => sizes.push(some.length));
    expect(sizes.length).toBeGreaterThan(1);
    expect(await readAll(store)).toEqual(put);
  });

  it('S5 names a failure of the storage instead of throwing, to read and to write', async () => {
    const store = await begunStore();
    closeStore(store);
    const read = await readAll(store);
    expect(read).toMatchObject({ wayOn: expect.stringMatching(/\S/) as string });
    const failure = await writeSearchIndex(store, [{ id: 'a', content: 1 }]);
    expect(failure?.wayOn).toMatch(/\S/);
  });
});
