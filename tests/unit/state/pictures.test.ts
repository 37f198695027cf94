import { createHash } from 'node:crypto';
import { beforeEach, describe, expect, it } from 'vitest';
import type { DecodePicture } from '../../../src/state/picture-codec';
import { Pictures } from '../../../src/state/pictures';
import { listPictureHashes } from '../../../src/storage';
import { freshIndexedDB } from '../storage/harness';
import { openTab } from './tab';

beforeEach(freshIndexedDB);

/** Stands in for the browser: a "picture" is text that says its width and height, written as such again. */
const decode: DecodePicture = async (blob) => {
  const size = /^picture (\d+)x(\d+)$/.exec(await blob.text());
  if (!size) return undefined;
  return {
    width: Number(size[1]),
    height: Number(size[2]),
    encode: (width, height) =>
      Promise.resolve(new Blob([`small ${width}x${height}`], { type: 'image/webp' })),
    close: () => undefined,
  };
};

const sized = (width: number, height: number) => new Blob([`picture ${width}x${height}`]);
const hashOf = (text: string) => createHash('sha256').update(text).digest('hex');

describe('a picture that is taken in', () => {
  it('is made small with its sides in proportion, and named by the SHA-256 of what is stored', async () => {
    const { workspace, store } = await openTab();
    const added = await new Pictures(workspace, decode).add(sized(4_000, 3_000), ' A loop. ');
    const text = 'small 1600x1200';
    expect(added).toMatchObject({
      kind: 'ready',
      draft: {
        hash: hashOf(text),
        type: 'image/webp',
        width: 1_600,
        height: 1_200,
        byteCount: text.length,
        alt: 'A loop.',
      },
    });
    expect(await listPictureHashes(store)).toEqual({ kind: 'read', hashes: [hashOf(text)] });
  });

  it('keeps the size it has when that is small enough, and never has a side of no pixel', async () => {
    const { workspace } = await openTab();
    const pictures = new Pictures(workspace, decode);
    expect(await pictures.add(sized(700, 1_600), '')).toMatchObject({
      draft: { width: 700, height: 1_600 },
    });
    expect(await pictures.add(sized(16_000, 3), '')).toMatchObject({
      draft: { width: 1_600, height: 1 },
    });
  });

  it('is refused with a way on when it is none or too large, and nothing is stored', async () => {
    const { workspace, store } = await openTab();
    const pictures = new Pictures(workspace, decode);
    for (const [blob, says] of [
      [new Blob(['date,result']), /no picture that the browser can read.*screenshot/],
      [sized(20_000, 20_000), /20000 by 20000 pixels/],
      [{ size: 41_000_000 } as Blob, /41 MB, and a picture may have 40/],
    ] as const) {
      const added = await pictures.add(blob, '');
      expect(added.kind === 'refused' && added.message).toMatch(says);
    }
    expect(await listPictureHashes(store)).toEqual({ kind: 'read', hashes: [] });
  });

  it('is shown under one address however often, which goes with its last user', async () => {
    const { workspace } = await openTab();
    const pictures = new Pictures(workspace, decode);
    const added = await pictures.add(sized(30, 20), 'A knot.');
    if (added.kind !== 'ready') throw new Error(added.message);
    await workspace.commit('add a picture', [{ kind: 'pictures', put: added.draft }]);
    const picture = workspace.of('pictures').find(added.draft.id);
    if (!picture) throw new Error('the picture was not stored');
    const [one, two] = await Promise.all([pictures.show(picture), pictures.show(picture)]);
    if (one.kind !== 'shown' || two.kind !== 'shown') throw new Error('not shown');
    expect(one.url).toBe(two.url);
    expect(await (await fetch(one.url)).text()).toBe('small 30x20');
    one.release();
    one.release(); // twice is once
    expect(await (await fetch(one.url)).text()).toBe('small 30x20');
    two.release();
    await expect(fetch(one.url)).rejects.toThrow();
  });

  it('is said to be missing where its bytes are on another device', async () => {
    const { workspace } = await openTab();
    const pictures = new Pictures(workspace, decode);
    const added = await pictures.add(sized(30, 20), '');
    if (added.kind !== 'ready') throw new Error(added.message);
    const draft = { ...added.draft, hash: hashOf('elsewhere') };
    await workspace.commit('add a picture', [{ kind: 'pictures', put: draft }]);
    const picture = workspace.of('pictures').find(draft.id);
    expect(picture && (await pictures.show(picture))).toEqual({ kind: 'missing' });
  });
});
