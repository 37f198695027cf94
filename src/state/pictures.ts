/**
 * Pictures on misses, concepts and notes: taken in, and shown again.
 *
 * The bytes are stored first, under their own hash; the record is handed back as a
 * draft, to be committed in the same step as whatever names it. So one Undo takes
 * both back, and bytes that no record came to name harm nothing.
 */
import type { Picture } from '../model/kept-beside';
import { readPictureBytes, writePictureBytes } from '../storage';
import { decodePicture, type DecodePicture } from './picture-codec';
import type { Draft, Workspace } from './workspace.svelte';

export type AddedPicture =
  | { readonly kind: 'ready'; readonly draft: Draft<'pictures'> }
  /** `message`: what was wrong and what to do, for the reader. */
  | { readonly kind: 'refused'; readonly message: string };

export type ShownPicture =
  /** `release` must be called when the address is no longer shown. */
  | { readonly kind: 'shown'; readonly url: string; readonly release: () => void }
  /** The record is here, the bytes are not (another device has them). */
  | { readonly kind: 'missing' }
  | { readonly kind: 'failed'; readonly message: string };

/** Longer side of a stored picture, px: sharp over the full width of a page, a few hundred kB. */
const longestSide = 1_600;
/** What is read at all: a photograph of today's telephones has under 20 MB and 50 million pixels. */
const mostBytes = 40_000_000;
const mostPixels = 120_000_000;

const types: readonly string[] = ['image/png', 'image/jpeg', 'image/webp'];

export class Pictures {
  readonly #workspace: Workspace;
  readonly #decode: DecodePicture;
  /** Addresses in use, by hash, so that a picture shown twice is in memory once. */
  readonly #shown = new Map<string, { readonly url: string; users: number }>();

  constructor(workspace: Workspace, decode: DecodePicture = decodePicture) {
    this.#workspace = workspace;
    this.#decode = decode;
  }

  /**
   * Takes a picture in: makes it small, stores its bytes, and drafts its record.
   *
   * @param alt what it shows, for who cannot see it; may be empty
   */
  async add(blob: Blob, alt: string): Promise<AddedPicture> {
    if (blob.size > mostBytes) {
      const size = Math.round(blob.size / 1e6);
      return refused(
        `This file has ${size} MB, and a picture may have 40. Make it smaller, or take a screenshot of it.`,
      );
    }
    const decoded = await this.#decode(blob);
    if (!decoded) {
      return refused(
        'This is no picture that the browser can read. Save it as PNG or JPEG, or take a screenshot of it.',
      );
    }
    try {
      return await this.#keep(decoded, alt);
    } finally {
      decoded.close();
    }
  }

  async #keep(
    decoded: NonNullable<Awaited<ReturnType<DecodePicture>>>,
    alt: string,
  ): Promise<AddedPicture> {
    if (decoded.width * decoded.height > mostPixels) {
      return refused(
        `This picture has ${decoded.width} by ${decoded.height} pixels, more than can be worked on here. Make it smaller, or take a screenshot of it.`,
      );
    }
    const scale = Math.min(1, longestSide / Math.max(decoded.width, decoded.height));
    const width = Math.max(1, Math.round(decoded.width * scale));
    const height = Math.max(1, Math.round(decoded.height * scale));
    const encoded = await decoded.encode(width, height);
    if (!types.includes(encoded.type)) {
      return refused(`The browser wrote the picture as “${encoded.type}”, which cannot be kept.`);
    }
    const bytes = await encoded.arrayBuffer();
    const hash = hexOf(await crypto.subtle.digest('SHA-256', bytes));
    const written = await writePictureBytes(this.#workspace.store, [{ id: hash, bytes }]);
    if (written.kind === 'failed') {
      return refused(`${written.failure.message} ${written.failure.wayOn}`);
    }
    const draft = {
      id: this.#workspace.makeId<'picture'>(),
      hash,
      type: encoded.type as Picture['type'],
      width,
      height,
      byteCount: bytes.byteLength,
      alt: alt.trim(),
    };
    return { kind: 'ready', draft };
  }

  /** An address under which the picture can be shown until it is released. */
  async show(picture: Picture): Promise<ShownPicture> {
    const { hash } = picture;
    if (!this.#shown.has(hash)) {
      const read = await readPictureBytes(this.#workspace.store, hash);
      if (read.kind === 'failed') {
        return { kind: 'failed', message: `${read.failure.message} ${read.failure.wayOn}` };
      }
      if (!read.bytes) return { kind: 'missing' };
      // Another call may have read it meanwhile: its address serves both.
      if (!this.#shown.has(hash)) {
        const url = URL.createObjectURL(new Blob([read.bytes], { type: picture.type }));
        this.#shown.set(hash, { url, users: 0 });
      }
    }
    return this.#lend(hash);
  }

  /** The same by the picture's id, as notes name it; `missing` for one that is no longer kept. */
  readonly showById = (id: string): Promise<ShownPicture> => {
    const picture = this.#workspace.of('pictures').find(id);
    return picture ? this.show(picture) : Promise.resolve({ kind: 'missing' });
  };

  #lend(hash: string): ShownPicture {
    const entry = this.#shown.get(hash);
    if (!entry) return { kind: 'missing' };
    entry.users += 1;
    let lent = true;
    const release = () => {
      if (!lent) return;
      lent = false;
      entry.users -= 1;
      if (entry.users > 0) return;
      URL.revokeObjectURL(entry.url);
      this.#shown.delete(hash);
    };
    return { kind: 'shown', url: entry.url, release };
  }
}

function refused(message: string): AddedPicture {
  return { kind: 'refused', message };
}

/** "0a1b..." of the bytes of a digest. */
function hexOf(digest: ArrayBuffer): string {
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
}
