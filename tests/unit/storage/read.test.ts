import { beforeEach, describe, expect, it } from 'vitest';
import { recordKinds } from '../../../src/model/records';
import { applyChanges } from '../../../src/storage/apply-changes';
import { readAll } from '../../../src/storage/read-all';
import { readItemsOfBlock, readRecords } from '../../../src/storage/read-records';
import {
  added,
  edited,
  endByBrowser,
  freshIndexedDB,
  newBlock,
  newItem,
  newNote,
  requireRecords,
  requireStore,
} from './harness';

beforeEach(freshIndexedDB);

describe('S10 reading gives what is stored, as of one moment, deletion marks included', () => {
  it('S10 reads every kind, empty ones as empty lists', async () => {
    const records = await requireRecords(await requireStore());
    expect(Object.keys(records).sort()).toEqual([...recordKinds].sort());
    for (const kind of recordKinds) expect(records[kind]).toEqual([]);
  });

  it('S10 keeps a deleted record as a mark', async () => {
    const store = await requireStore();
    const note = newNote('n', 'x');
    await applyChanges(store, [added('notes', note), added('notes', newNote('m', 'y'))]);
    await applyChanges(store, [edited(note, 'x', true)]);
    const { notes } = await requireRecords(store);
    expect(notes.map(({ id, stamp }) => [id, stamp.deleted])).toEqual([
      ['m', false],
      ['n', true],
    ]);
  });

  it('S10 sees a batch that is being saved whole or not at all', async () => {
    const store = await requireStore();
    const other = await requireStore();
    const items = Array.from({ length: 300 }, (_, i) =>
      added('items', newItem(`i${i}`, 'b', i + 1)),
    );
    const before = requireRecords(other);
    const saving = applyChanges(store, [added('blocks', newBlock('b')), ...items]);
    const during = requireRecords(other);
    await saving;
    expect((await before).items).toHaveLength(0);
    const { blocks, items: seen } = await during;
    expect([blocks.length, seen.length]).toSatisfy(
      ([b, i]: number[]) => (b === 0 && i === 0) || (b === 1 && i === 300),
    );
  });

  it('S10 reads the named records in the order of their names, with gaps for those that are not there', async () => {
    const store = await requireStore();
    const [note, block] = [newNote('n', 'x'), newBlock('b')];
    await applyChanges(store, [added('notes', note), added('blocks', block)]);
    const result = await readRecords(store, [
      { kind: 'notes', id: newNote('gone', '').id },
      { kind: 'blocks', id: block.id },
      { kind: 'notes', id: note.id },
    ]);
    expect(result).toEqual({
      kind: 'read',
      records: [
        { kind: 'notes', id: 'gone', record: undefined },
        { kind: 'blocks', id: 'b', record: block },
        { kind: 'notes', id: 'n', record: note },
      ],
    });
    expect(await readRecords(store, [])).toEqual({ kind: 'read', records: [] });
  });

  it('S10 reads the items of one block and of no other', async () => {
    const store = await requireStore();
    await applyChanges(store, [
      added('items', newItem('i1', 'b1', 1)),
      added('items', newItem('i2', 'b2', 1)),
      added('items', newItem('i3', 'b1', 2)),
    ]);
    const result = await readItemsOfBlock(store, newBlock('b1').id);
    if (result.kind !== 'read') throw new Error(result.failure.message);
    expect(result.items.map(({ id }) => id).sort()).toEqual(['i1', 'i3']);
  });

  it('S10 says when the browser ends the connection in the middle', async () => {
    const store = await requireStore();
    const reading = readAll(store);
    await endByBrowser(store);
    expect(await reading).toMatchObject({ kind: 'failed', failure: { kind: 'interrupted' } });
  });

  it('S10 says when the connection is closed', async () => {
    const store = await requireStore();
    store.db.close();
    const failed = { kind: 'failed', failure: { kind: 'closed' } };
    expect(await readAll(store)).toMatchObject(failed);
    expect(await readRecords(store, [{ kind: 'notes', id: newNote('n', '').id }])).toMatchObject(
      failed,
    );
    expect(await readItemsOfBlock(store, newBlock('b').id)).toMatchObject(failed);
  });
});
