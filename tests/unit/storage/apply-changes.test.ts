import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Change } from '../../../src/storage/change';
import { applyChanges } from '../../../src/storage/apply-changes';
import { chunkSize } from '../../../src/storage/write-chunks';
import {
  added,
  edited,
  endByBrowser,
  FakeChannels,
  freshIndexedDB,
  newBlock,
  newItem,
  newNote,
  requireRecords,
  requireStore,
  requireTab,
} from './harness';

/** What fake-indexeddb keeps behind a transaction; used to fail as a browser would. */
interface FakeTransaction {
  _abort(errorName: string): void;
  _requests: { operation: () => unknown }[];
}

beforeEach(freshIndexedDB);
afterEach(() => vi.restoreAllMocks());

function manyItems(count: number): Change[] {
  return Array.from({ length: count }, (_, i) =>
    added('items', newItem(`item-${i}`, 'block-1', (i % 500) + 1)),
  );
}

/** Lets the given add (from 1) do something before it is handed to the store. */
function onAdd(which: number, act: (tx: FakeTransaction) => void): void {
  // Called below with the object store it belongs to.

  const add = IDBObjectStore.prototype.add;
  let count = 0;
  vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(function (
    this: IDBObjectStore,
    value: unknown,
  ) {
    const request = add.call(this, value);
    count += 1;
    if (count === which) act(this.transaction as unknown as FakeTransaction);
    return request;
  });
}

describe('S1 a batch is saved whole or not at all', () => {
  it('S1 saves records of several kinds in one transaction', async () => {
    const store = await requireStore();
    const transactions = vi.spyOn(IDBDatabase.prototype, 'transaction');

    const result = await applyChanges(store, [
      added('blocks', newBlock('block-1')),
      added('items', newItem('item-1', 'block-1', 1)),
      added('items', newItem('item-2', 'block-1', 2)),
    ]);

    expect(result).toEqual({ kind: 'saved', count: 3 });
    expect(transactions).toHaveBeenCalledTimes(1);
    const { blocks, items, notes } = await requireRecords(store);
    expect(blocks).toEqual([newBlock('block-1')]);
    expect(items.map((item) => item.id)).toEqual(['item-1', 'item-2']);
    expect(notes).toEqual([]);
  });

  it('S1 leaves out the whole batch when one record of the last chunk cannot be cloned', async () => {
    const store = await requireStore();
    const uncloneable = { ...newNote('n', 'x'), title: (() => 'x') as unknown as string };

    const result = await applyChanges(store, [
      ...manyItems(chunkSize + 3),
      added('notes', uncloneable),
    ]);

    expect(result).toMatchObject({ kind: 'failed', failure: { kind: 'uncloneable' } });
    expect((await requireRecords(store)).items).toEqual([]);
  });

  it('S1 leaves out the whole batch when a changed record cannot be cloned', async () => {
    const store = await requireStore();
    const note = newNote('n', 'first');
    await applyChanges(store, [added('notes', note)]);
    const change = edited(note, 'second');
    const bad = { ...change, record: { ...change.record, title: Symbol() as unknown as string } };

    const result = await applyChanges(store, [added('blocks', newBlock('b')), bad]);

    expect(result).toMatchObject({ kind: 'failed', failure: { kind: 'uncloneable' } });
    const { notes, blocks } = await requireRecords(store);
    expect(notes).toEqual([note]);
    expect(blocks).toEqual([]);
  });

  it('S1 leaves out the whole batch when the disk is full in the middle', async () => {
    const store = await requireStore();
    onAdd(chunkSize + 2, (tx) => {
      const request = tx._requests.at(-1);
      if (!request) throw new Error('the add left no request');
      request.operation = () => {
        throw new DOMException('no room', 'QuotaExceededError');
      };
    });

    const result = await applyChanges(store, manyItems(chunkSize + 5));

    expect(result).toMatchObject({ kind: 'failed', failure: { kind: 'full' } });
    expect((await requireRecords(store)).items).toEqual([]);
  });

  it('S1 leaves out the whole batch when the disk is full only at the commit', async () => {
    const store = await requireStore();
    onAdd(3, (tx) => tx._abort('QuotaExceededError'));

    const result = await applyChanges(store, manyItems(3));

    expect(result).toMatchObject({ kind: 'failed', failure: { kind: 'full' } });
    expect((await requireRecords(store)).items).toEqual([]);
  });

  it('S1 says that the connection is closed', async () => {
    const store = await requireStore();
    store.db.close();
    expect(await applyChanges(store, manyItems(1))).toMatchObject({
      kind: 'failed',
      failure: { kind: 'closed' },
    });
  });

  it('S1 leaves out the whole batch when the browser ends the connection in the middle', async () => {
    const store = await requireStore();
    const applying = applyChanges(store, manyItems(chunkSize + 1));
    await endByBrowser(store);
    expect(await applying).toMatchObject({ kind: 'failed', failure: { kind: 'interrupted' } });
    expect((await requireRecords(await requireStore())).items).toEqual([]);
  });

  it('S1 undoes what a callback of the caller breaks off, and throws its error', async () => {
    const store = await requireStore();
    const applying = applyChanges(store, manyItems(3), {
      onprogress: () => {
        throw new RangeError('a fault of the caller');
      },
    });
    await expect(applying).rejects.toThrow('a fault of the caller');
    expect((await requireRecords(store)).items).toEqual([]);
  });

  it('S1 opens no transaction for an empty batch', async () => {
    const store = await requireStore();
    const transactions = vi.spyOn(IDBDatabase.prototype, 'transaction');
    expect(await applyChanges(store, [])).toEqual({ kind: 'saved', count: 0 });
    expect(transactions).not.toHaveBeenCalled();
  });
});

describe('S2 what another tab has saved is never overwritten unseen', () => {
  it('S2 refuses a change based on an older revision and shows both records', async () => {
    const tabs = new FakeChannels();
    const [here, there] = [await requireTab(tabs), await requireTab(tabs)];
    const note = newNote('n', 'as both read it');
    await applyChanges(here, [added('notes', note)]);
    const first = edited(note, 'saved by the other tab');
    await applyChanges(there, [first]);

    const second = edited(note, 'typed here');
    const result = await applyChanges(here, [added('blocks', newBlock('b')), second]);

    expect(result).toEqual({
      kind: 'conflict',
      conflicts: [{ kind: 'notes', id: 'n', stored: first.record, offered: second.record }],
    });
    const { notes, blocks } = await requireRecords(here);
    expect(notes).toEqual([first.record]);
    expect(blocks).toEqual([]);
  });

  it('S2 names every record in dispute, changed and new, and only those', async () => {
    const store = await requireStore();
    const seen = newNote('seen', 'a');
    const moved = newNote('moved', 'b');
    const taken = newNote('taken', 'c');
    await applyChanges(store, [
      added('notes', seen),
      added('notes', moved),
      added('notes', taken),
      added('blocks', newBlock('b')),
    ]);
    await applyChanges(store, [edited(moved, 'b2')]);

    const result = await applyChanges(store, [
      added('notes', newNote('fresh', 'd')),
      edited(moved, 'b3'),
      added('notes', { ...taken, text: 'another' }),
      edited(seen, 'a2'),
      added('blocks', newBlock('b')),
    ]);

    if (result.kind !== 'conflict') throw new Error(result.kind);
    const names = result.conflicts.map(({ kind, id }) => `${kind} ${id}`);
    expect(names.sort()).toEqual(['blocks b', 'notes moved', 'notes taken']);
    const texts = (await requireRecords(store)).notes.map(({ id, text }) => [id, text]);
    expect(texts).toEqual([
      ['moved', 'b2'],
      ['seen', 'a'],
      ['taken', 'c'],
    ]);
  });

  it('S2 finds a conflict in the first chunk although the last ones are sound', async () => {
    const store = await requireStore();
    await applyChanges(store, [added('items', newItem('item-1', 'block-1', 1))]);
    const result = await applyChanges(store, manyItems(2 * chunkSize + 1));
    expect(result).toMatchObject({ kind: 'conflict', conflicts: [{ id: 'item-1' }] });
    expect((await requireRecords(store)).items).toHaveLength(1);
  });

  it('S2 refuses a change of a record that is gone', async () => {
    const store = await requireStore();
    const change = edited(newNote('n', 'never stored'), 'changed');
    expect(await applyChanges(store, [change])).toEqual({
      kind: 'conflict',
      conflicts: [{ kind: 'notes', id: 'n', stored: undefined, offered: change.record }],
    });
    expect((await requireRecords(store)).notes).toEqual([]);
  });

  it('S2 refuses a revision that another device has moved on', async () => {
    const store = await requireStore();
    const note = newNote('n', 'x');
    const merged = {
      ...note,
      stamp: { ...note.stamp, revision: { ...note.stamp.revision, 'device-9': 2 } },
    };
    await applyChanges(store, [added('notes', merged)]);
    expect(await applyChanges(store, [edited(note, 'y')])).toMatchObject({ kind: 'conflict' });
    expect(await applyChanges(store, [edited(merged, 'y')])).toMatchObject({ kind: 'saved' });
  });

  it('S2 lets exactly one of two tabs through that save at the same moment', async () => {
    const tabs = new FakeChannels();
    const [here, there] = [await requireTab(tabs), await requireTab(tabs)];
    const note = newNote('n', 'x');
    await applyChanges(here, [added('notes', note)]);
    const results = await Promise.all([
      applyChanges(here, [edited(note, 'from here')]),
      applyChanges(there, [edited(note, 'from there')]),
    ]);
    expect(results.map(({ kind }) => kind).sort()).toEqual(['conflict', 'saved']);
  });
});

describe('S3 what a person typed is on the disk before it is called saved', () => {
  it('S3 asks for strict durability, and for less only when told to', async () => {
    const store = await requireStore();
    const transactions = vi.spyOn(IDBDatabase.prototype, 'transaction');
    await applyChanges(store, [added('notes', newNote('a', 'x'))]);
    await applyChanges(store, [added('notes', newNote('b', 'x'))], { durability: 'relaxed' });
    expect(transactions.mock.calls.map(([, mode, options]) => [mode, options?.durability])).toEqual(
      [
        ['readwrite', 'strict'],
        ['readwrite', 'relaxed'],
      ],
    );
  });

  it('S3 answers only after the transaction has ended', async () => {
    const store = await requireStore();
    const order: string[] = [];
    onAdd(1, (tx) =>
      (tx as unknown as IDBTransaction).addEventListener('complete', () => order.push('committed')),
    );
    await applyChanges(store, manyItems(1));
    order.push('answered');
    expect(order).toEqual(['committed', 'answered']);
  });
});

describe('S4 a batch can be stopped until it is committed', () => {
  it('S4 undoes everything when stopped in the middle', async () => {
    const store = await requireStore();
    const stopper = new AbortController();
    const seen: number[] = [];
    const result = await applyChanges(store, manyItems(3 * chunkSize), {
      signal: stopper.signal,
      onprogress: (done) => {
        seen.push(done);
        if (done === 2 * chunkSize) stopper.abort();
      },
    });
    expect(result).toEqual({ kind: 'stopped' });
    expect(seen).toEqual([chunkSize, 2 * chunkSize]);
    expect((await requireRecords(store)).items).toEqual([]);
  });

  it('S4 undoes everything when stopped between two requests', async () => {
    const store = await requireStore();
    const stopper = new AbortController();
    const applying = applyChanges(store, manyItems(5), { signal: stopper.signal });
    stopper.abort();
    expect(await applying).toEqual({ kind: 'stopped' });
    expect((await requireRecords(store)).items).toEqual([]);
  });

  it('S4 begins nothing when stopped before, and takes back nothing when stopped after', async () => {
    const store = await requireStore();
    const options = { signal: AbortSignal.abort() };
    expect(await applyChanges(store, manyItems(1), options)).toEqual({ kind: 'stopped' });

    const stopper = new AbortController();
    const result = await applyChanges(store, manyItems(1), { signal: stopper.signal });
    stopper.abort();
    expect(result).toEqual({ kind: 'saved', count: 1 });
    expect((await requireRecords(store)).items).toHaveLength(1);
  });

  it('S4 reports progress that grows to the whole', async () => {
    const store = await requireStore();
    const seen: [number, number][] = [];
    const count = 2 * chunkSize + 7;
    const onprogress = (done: number, total: number) => void seen.push([done, total]);
    await applyChanges(store, manyItems(count), { onprogress });
    expect(seen).toEqual([
      [chunkSize, count],
      [2 * chunkSize, count],
      [count, count],
    ]);
  });
});

describe('S14 mistakes of the caller are thrown before anything is touched', () => {
  it('S14 refuses two changes of one record, naming it', async () => {
    const store = await requireStore();
    const note = newNote('n', 'x');
    const twice = [added('notes', note), edited(note, 'y')];
    await expect(applyChanges(store, twice)).rejects.toThrow(
      new RangeError('applyChanges: got two changes of notes "n"; need at most one'),
    );
  });

  it('S14 takes one id in two kinds for two records', async () => {
    const store = await requireStore();
    const changes = [added('notes', newNote('x', '')), added('blocks', newBlock('x'))];
    expect(await applyChanges(store, changes)).toMatchObject({ kind: 'saved' });
  });

  it('S14 refuses a record whose revision was not moved on', async () => {
    const store = await requireStore();
    const note = newNote('n', 'x');
    await applyChanges(store, [added('notes', note)]);
    const stale: Change = {
      kind: 'notes',
      record: { ...note, text: 'y' },
      basedOn: note.stamp.revision,
    };
    await expect(applyChanges(store, [stale])).rejects.toThrow(RangeError);
    expect((await requireRecords(store)).notes).toEqual([note]);
  });
});
