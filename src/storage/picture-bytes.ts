/** The bytes of pictures, each under its own SHA-256: written before the record that names it. */
import { storageFailureFrom, type StorageFailure } from './failure';
import type { PictureBytes } from './schema';
import type { Store } from './store';
import { abortIfOpen } from './transaction';

export type PictureBytesResult =
  { readonly kind: 'done' } | { readonly kind: 'failed'; readonly failure: StorageFailure };

export type ReadPictureResult =
  /** `bytes` is undefined where none lie under this hash. */
  | { readonly kind: 'read'; readonly bytes: ArrayBuffer | undefined }
  | { readonly kind: 'failed'; readonly failure: StorageFailure };

export type ListPicturesResult =
  | { readonly kind: 'read'; readonly hashes: readonly string[] }
  | { readonly kind: 'failed'; readonly failure: StorageFailure };

/**
 * Stores pictures: all of them or none. Bytes that are there already are the same bytes.
 *
 * @param pictures `id` is the SHA-256 of `bytes` in hexadecimal digits; trusted
 */
export async function writePictureBytes(
  store: Store,
  pictures: readonly PictureBytes[],
): Promise<PictureBytesResult> {
  const written = await change(store, (objects) =>
    // `async` makes a throw at once one of the rejections that `all` looks after.
    pictures.map(async (picture) => objects.put(picture)),
  );
  if (written.kind === 'done') {
    for (const { id, bytes } of pictures) await store.spare?.addPicture(id, bytes);
  }
  return written;
}

/** Removes the bytes under these hashes; for pictures no record names any more. */
export function deletePictureBytes(
  store: Store,
  hashes: readonly string[],
): Promise<PictureBytesResult> {
  return change(store, (objects) => hashes.map(async (hash) => objects.delete(hash)));
}

export async function readPictureBytes(store: Store, hash: string): Promise<ReadPictureResult> {
  try {
    return { kind: 'read', bytes: (await store.db.get('pictureBytes', hash))?.bytes };
  } catch (error) {
    return { kind: 'failed', failure: storageFailureFrom(error) };
  }
}

export async function listPictureHashes(store: Store): Promise<ListPicturesResult> {
  try {
    return { kind: 'read', hashes: await store.db.getAllKeys('pictureBytes') };
  } catch (error) {
    return { kind: 'failed', failure: storageFailureFrom(error) };
  }
}

interface Objects {
  put(value: PictureBytes): Promise<unknown>;
  delete(key: string): Promise<unknown>;
}

async function change(
  store: Store,
  requests: (objects: Objects) => readonly Promise<unknown>[],
): Promise<PictureBytesResult> {
  try {
    const tx = store.db.transaction('pictureBytes', 'readwrite', { durability: 'strict' });
    tx.done.catch(() => undefined); // reported once, below
    try {
      await Promise.all(requests(tx.store));
      await tx.done;
    } catch (error) {
      abortIfOpen(tx);
      throw error;
    }
    return { kind: 'done' };
  } catch (error) {
    return { kind: 'failed', failure: storageFailureFrom(error) };
  }
}
