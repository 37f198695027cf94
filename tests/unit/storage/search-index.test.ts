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

describe('the saved text index', () => {
  it('is empty at first, and holds what was written when the app is opened again', async () => {
    const store = await begunStore();
    expect(await readSearchIndex(store)).toEqual({ kind: 'read', parts: [] });
    const counts = Uint32Array.of(3, 1, 4);
    await writeSearchIndex(store, [
      { id: 'part-0', content: { words: ['acid'], counts } },
      { id: 'part-1', content: 'anything at all' },
    ]);
    closeStore(store);
    const read = await readSearchIndex(await requireStore());
    expect(read).toEqual({
      kind: 'read',
      parts: [
        { id: 'part-0', content: { words: ['acid'], counts } },
        { id: 'part-1', content: 'anything at all' },
      ],
    });
  });

  it('replaces and removes parts in one step', async () => {
    const store = await begunStore();
    await writeSearchIndex(store, [
      { id: 'a', content: 1 },
      { id: 'b', content: 2 },
    ]);
    expect(await writeSearchIndex(store, [{ id: 'a' }, { id: 'b', content: 3 }])).toBeUndefined();
    expect(await readSearchIndex(store)).toEqual({
      kind: 'read',
      parts: [{ id: 'b', content: 3 }],
    });
  });

  it('S5 names a failure of the storage instead of throwing, to read and to write', async () => {
    const store = await begunStore();
    closeStore(store);
    const read = await readSearchIndex(store);
    expect(read.kind).toBe('failed');
    const failure = await writeSearchIndex(store, [{ id: 'a', content: 1 }]);
    expect(failure?.wayOn).toMatch(/\S/);
  });
});
