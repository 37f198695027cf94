import { beforeEach, describe, expect, it } from 'vitest';
import { applyChanges } from '../../../src/storage/apply-changes';
import { deleteEverything } from '../../../src/storage/delete-everything';
import { readSpare, Spare } from '../../../src/storage/spare';
import { added, edited, freshIndexedDB, newNote, requireStore } from './harness';
import { memoryFolder } from './spare-folder';

beforeEach(freshIndexedDB);

async function openSpared(tab = 'a1') {
  const folder = memoryFolder();
  let now = 0;
  const find = () => Promise.resolve(folder);
  const spare = new Spare(1_770_000_000_000, tab, find, () => ++now);
  return { folder, spare, store: await requireStore({ spare }) };
}

const textsOf = async (folder: ReturnType<typeof memoryFolder>) =>
  (await readSpare(folder)).lines.map((line) => (line.record as { text: string }).text);

describe('S15 the spare copy', () => {
  it('S15 holds every change before it is called saved, in order, and none that was refused', async () => {
    const { folder, store } = await openSpared();
    const note = newNote('n', 'one – μ');
    await applyChanges(store, [added('notes', note)]);
    expect(await textsOf(folder)).toEqual(['one – μ']);
    await applyChanges(store, [edited(note, 'two')]);
    expect(await applyChanges(store, [edited(note, 'based on the old one')])).toMatchObject({
      kind: 'conflict',
    });
    expect(await textsOf(folder)).toEqual(['one – μ', 'two']);
  });

  it('S15 takes thousands at once in a file of their own, and small ones in files of limited size', async () => {
    const { folder, store } = await openSpared();
    const many = Array.from({ length: 1_203 }, (_, i) => newNote(`n${i}`, `text ${i}`));
    await applyChanges(
      store,
      many.map((note) => added('notes', note)),
    );
    expect(await textsOf(folder)).toEqual(many.map(({ text }) => text));
    expect(folder.files.size).toBe(1);
    for (let i = 0; i < 30; i++) {
      await applyChanges(store, [added('notes', newNote(`long${i}`, 'x'.repeat(10_000)))]);
    }
    expect(folder.files.size).toBeGreaterThan(2);
    expect(await textsOf(folder)).toHaveLength(1_233);
  });

  it('S15 fails no save when it has no room, says so, and goes on when there is room again', async () => {
    const { folder, spare, store } = await openSpared();
    folder.full = true;
    const first = await applyChanges(store, [added('notes', newNote('n', 'unspared'))]);
    expect(first).toEqual({ kind: 'saved', count: 1 });
    expect(spare.trouble).toBe('QuotaExceededError');
    folder.full = false;
    await applyChanges(store, [added('notes', newNote('m', 'spared'))]);
    expect([spare.trouble, await textsOf(folder)]).toEqual(['', ['spared']]);
  });

  it('S15 puts a copy in place of the changes before it, and loses none made meanwhile', async () => {
    const { folder, spare, store } = await openSpared();
    await applyChanges(store, [added('notes', newNote('n', 'before'))]);
    folder.files.set(
      '1769999999999-b2-0001.jsonl',
      new TextEncoder().encode('{"kind":"notes","at":1}'),
    );
    folder.files.set(
      '1769999999999-c3-0001.jsonl',
      new TextEncoder().encode('{"kind":"notes","at":1}'),
    );
    await spare.renew(async () => {
      await applyChanges(store, [added('notes', newNote('m', 'meanwhile'))]);
      return new TextEncoder().encode('the copy');
    }, 6);
    expect(await textsOf(folder)).toEqual(['meanwhile']);
    expect(await (await readSpare(folder)).copy?.text()).toBe('the copy');
    // Few changes since a copy are put back one by one; many are worth another copy.
    let made = 0;
    const again = () => {
      made += 1;
      return Promise.resolve(new TextEncoder().encode('another copy'));
    };
    await spare.renew(again, 6);
    expect(made).toBe(0);
    for (let i = 0; i < 4; i++) {
      await applyChanges(store, [added('notes', newNote(`long${i}`, '水'.repeat(199_000)))]);
    }
    await spare.renew(again, 6);
    expect([made, await textsOf(folder)]).toEqual([1, []]);
    expect(await (await readSpare(folder)).copy?.text()).toBe('another copy');
  });

  it('S15 puts the changes of several tabs in the order they were saved', async () => {
    const { folder } = await openSpared();
    const lines = (...ats: number[]) =>
      new TextEncoder().encode(ats.map((at) => `{"kind":"notes","at":${at}}\n`).join(''));
    folder.files.set('1769999999998-b2-0001.jsonl', lines(2, 9));
    folder.files.set('1769999999999-c3-0001.jsonl', lines(5));
    expect((await readSpare(folder)).lines.map(({ at }) => at)).toEqual([2, 5, 9]);
  });

  it('S15 leaves a file that another tab wrote to lately to that tab', async () => {
    const { folder, spare } = await openSpared();
    const name = '1769999999999-b2-0001.jsonl';
    folder.files.set(name, new TextEncoder().encode('{"kind":"notes","at":1}'));
    await spare.renew(() => Promise.resolve(new Uint8Array([1])), 4);
    expect(folder.files.has(name)).toBe(true);
  });

  it('S15 reads past a line that was cut off, and keeps pictures by their hash', async () => {
    const { folder, spare } = await openSpared();
    const hash = 'ab'.repeat(32);
    await spare.addPicture(hash, Uint8Array.from([1, 2, 3]).buffer);
    folder.files.set(
      '1770000000001-a1-0001.jsonl',
      new TextEncoder().encode('{"kind":"notes","at":7}\n{"ki'),
    );
    const content = await readSpare(folder);
    expect(content.lines).toEqual([{ kind: 'notes', at: 7 }]);
    const bytes = await content.pictures.get(hash)?.();
    expect(bytes && [...new Uint8Array(bytes)]).toEqual([1, 2, 3]);
  });

  it('S12 goes with everything else, and what was in it does not come back with the next save', async () => {
    const { folder, store } = await openSpared();
    await applyChanges(store, [added('notes', newNote('n', 'secret'))]);
    await deleteEverything(store);
    expect([...folder.files.keys()]).toEqual([]);
    await applyChanges(store, [added('notes', newNote('m', 'anew'))]);
    expect(await textsOf(folder)).toEqual(['anew']);
  });

  it('S15 does nothing where the browser has no such folder', async () => {
    const spare = new Spare(1, 'a1', () => Promise.resolve(undefined));
    const store = await requireStore({ spare });
    expect(await applyChanges(store, [added('notes', newNote('n', 'x'))])).toMatchObject({
      kind: 'saved',
    });
    expect(spare.trouble).toBe('');
  });
});
