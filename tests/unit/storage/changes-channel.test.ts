import { beforeEach, describe, expect, it } from 'vitest';
import { applyChanges } from '../../../src/storage/apply-changes';
import {
  mostNames,
  openChangesChannel,
  type Changed,
  type ChangesChannel,
} from '../../../src/storage/changes-channel';
import { deleteEverything } from '../../../src/storage/delete-everything';
import type { RecordRef } from '../../../src/storage/schema';
import { closeStore } from '../../../src/storage/store';
import {
  added,
  edited,
  FakeChannels,
  freshIndexedDB,
  newBlock,
  newItem,
  newNote,
  requireStore,
  requireTab,
} from './harness';

beforeEach(freshIndexedDB);

function hearing(channel: ChangesChannel): Changed[] {
  const heard: Changed[] = [];
  channel.listen((changed) => heard.push(changed));
  return heard;
}

/** As messages are, written out by hand. */
function message(changed: unknown) {
  return { format: 'hypocentre-changes', version: 1, changed };
}

describe('S9 every tab hears of what the others have saved', () => {
  it('S9 hears the kind and id of each saved record, and of nothing that was refused', async () => {
    const tabs = new FakeChannels();
    const here = await requireTab(tabs);
    const heard = hearing(openChangesChannel(tabs.join()));
    const note = newNote('n', 'x');

    await applyChanges(here, [added('notes', note), added('blocks', newBlock('b'))]);
    await applyChanges(here, [added('notes', note)]);
    await applyChanges(here, [edited(note, 'y')], { signal: AbortSignal.abort() });
    await applyChanges(here, [edited(note, 'z')]);

    expect(heard).toEqual([
      [
        { kind: 'notes', id: 'n' },
        { kind: 'blocks', id: 'b' },
      ],
      [{ kind: 'notes', id: 'n' }],
    ]);
  });

  it('S9 does not hear its own changes', async () => {
    const channel = openChangesChannel(new FakeChannels().join());
    const heard = hearing(channel);
    const store = await requireStore({ channel });
    await applyChanges(store, [added('notes', newNote('n', 'x'))]);
    expect(heard).toEqual([]);
  });

  it('S9 names up to a thousand records and says "everything" beyond', async () => {
    const tabs = new FakeChannels();
    const here = await requireTab(tabs);
    const heard = hearing(openChangesChannel(tabs.join()));
    const items = (prefix: string, count: number) =>
      Array.from({ length: count }, (_, i) =>
        added('items', newItem(`${prefix}-${i}`, 'b', (i % 500) + 1)),
      );
    await applyChanges(here, items('a', mostNames));
    await applyChanges(here, items('b', mostNames + 1));
    expect(heard[0]).toHaveLength(mostNames);
    expect(heard[1]).toBe('everything');
  });

  it('S9 hears "everything" when all was deleted', async () => {
    const tabs = new FakeChannels();
    const here = await requireTab(tabs);
    const heard = hearing(openChangesChannel(tabs.join()));
    await deleteEverything(here);
    expect(heard).toEqual(['everything']);
  });

  it('S9 keeps what is said before anyone listens', () => {
    const tabs = new FakeChannels();
    const channel = openChangesChannel(tabs.join());
    tabs.say(message([{ kind: 'days', id: 'd' }]));
    const heard = hearing(channel);
    tabs.say(message('everything'));
    expect(heard).toEqual([[{ kind: 'days', id: 'd' }], 'everything']);
  });

  it.each([
    ['a newer version', { ...message([]), version: 2 }],
    ['another format', { ...message([]), format: 'something-else' }],
    ['no object', 'notes'],
    ['null', null],
    ['a kind we do not know', message([{ kind: 'dreams', id: 'd' }])],
    ['a kind of every object', message([{ kind: 'toString', id: 'd' }])],
    ['an empty id', message([{ kind: 'notes', id: '' }])],
    ['one bad name among good ones', message([{ kind: 'notes', id: 'n' }, 7])],
  ])('S9 takes a message with %s to mean everything', (_what, said) => {
    const tabs = new FakeChannels();
    const heard = hearing(openChangesChannel(tabs.join()));
    tabs.say(said);
    expect(heard).toEqual(['everything']);
  });

  it('S9 is silent and deaf after it is closed', async () => {
    const tabs = new FakeChannels();
    const channel = openChangesChannel(tabs.join());
    const heard = hearing(channel);
    closeStore(await requireStore({ channel }));
    channel.tell('everything');
    tabs.say(message('everything'));
    expect(tabs.spoken).toEqual([]);
    expect(heard).toEqual([]);
  });

  it('S9 works over a real BroadcastChannel', async () => {
    const here = openChangesChannel(new BroadcastChannel('hypocentre-test'));
    const there = openChangesChannel(new BroadcastChannel('hypocentre-test'));
    const heard = new Promise<Changed>((resolve) => there.listen(resolve));
    const refs: RecordRef[] = [{ kind: 'items', id: newItem('i', 'b', 1).id }];
    here.tell(refs);
    expect(await heard).toEqual(refs);
    here.close();
    there.close();
  });
});
