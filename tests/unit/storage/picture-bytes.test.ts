import { beforeEach, describe, expect, it } from 'vitest';
import { readLocal, writeLocal } from '../../../src/storage/local';
import {
  deletePictureBytes,
  listPictureHashes,
  readPictureBytes,
  writePictureBytes,
} from '../../../src/storage/picture-bytes';
import { closeStore } from '../../../src/storage/store';
import { freshIndexedDB, requireStore } from './harness';

beforeEach(freshIndexedDB);

const bytesOf = (...bytes: number[]) => Uint8Array.from(bytes).buffer;

describe('the bytes of pictures', () => {
  it('S1 come back as they were written, each under its hash, and go when they are deleted', async () => {
    const store = await requireStore();
    const pictures = [
      { id: 'aa', bytes: bytesOf(3, 1, 4) },
      { id: 'bb', bytes: bytesOf(2, 7) },
    ];
    expect(await writePictureBytes(store, pictures)).toEqual({ kind: 'done' });
    expect(await readPictureBytes(store, 'bb')).toEqual({ kind: 'read', bytes: bytesOf(2, 7) });
    await deletePictureBytes(store, ['bb']);
    expect(await listPictureHashes(store)).toEqual({ kind: 'read', hashes: ['aa'] });
    expect(await readPictureBytes(store, 'bb')).toEqual({ kind: 'read', bytes: undefined });
    closeStore(store);
  });

  it('S1 are stored all or not at all', async () => {
    const store = await requireStore();
    const unclonable = { id: 'cc', bytes: (() => 1) as unknown as ArrayBuffer };
    const result = await writePictureBytes(store, [{ id: 'aa', bytes: bytesOf(1) }, unclonable]);
    expect(result.kind).toBe('failed');
    expect(await listPictureHashes(store)).toEqual({ kind: 'read', hashes: [] });
    closeStore(store);
  });
});

describe('values of this device', () => {
  it('come back under their name, and are gone once set to nothing', async () => {
    const store = await requireStore();
    expect(await readLocal(store, 'lastBackup')).toEqual({ kind: 'read', value: undefined });
    await writeLocal(store, 'lastBackup', { at: 12 });
    expect(await readLocal(store, 'lastBackup')).toEqual({ kind: 'read', value: { at: 12 } });
    await writeLocal(store, 'lastBackup', undefined);
    expect(await readLocal(store, 'lastBackup')).toEqual({ kind: 'read', value: undefined });
    closeStore(store);
  });
});
