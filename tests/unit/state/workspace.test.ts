import { beforeEach, describe, expect, it } from 'vitest';
import { newBlock } from '../../../src/state/new-records';
import { Workspace, type DraftChange } from '../../../src/state/workspace.svelte';
import type { LocalDay } from '../../../src/model/time';
import { openChangesChannel } from '../../../src/storage';
import {
  at,
  countingIds,
  device,
  freshIndexedDB,
  requireRecords,
  requireStore,
} from '../storage/harness';

let tabCount = 0;

/** A tab with its own connection to the same database; Node's own BroadcastChannel joins them. */
async function openTab(): Promise<Workspace> {
  const channel = openChangesChannel(new BroadcastChannel('workspace-test'));
  const store = await requireStore({ channel });
  const workspace = new Workspace({
    store,
    channel,
    device,
    makeId: countingIds(`tab-${++tabCount}`),
    now: () => at(60),
    minutesEast: () => 0,
  });
  await workspace.load();
  return workspace;
}

const monday = 20_501 as LocalDay;

function blockChange(workspace: Workspace): Extract<DraftChange, { kind: 'blocks'; put: unknown }> {
  return { kind: 'blocks', put: newBlock(workspace.makeId(), monday, undefined) };
}

/** Waits until the other tab has heard of a change; fails by the test's own time limit. */
async function until(holds: () => boolean): Promise<void> {
  while (!holds()) await new Promise((resolve) => setImmediate(resolve));
}

beforeEach(freshIndexedDB);

describe('Workspace', () => {
  it('shows a record only once it is stored, and finds it again after a fresh start', async () => {
    const tab = await openTab();
    const change = blockChange(tab);
    expect(await tab.commit('new block', [change])).toMatchObject({ kind: 'saved' });
    expect(tab.of('blocks').find(change.put.id)?.itemCount).toBe(40);
    const again = await openTab();
    expect(again.of('blocks').find(change.put.id)?.day).toBe(monday);
  });

  it('takes a step back and does it again, naming it', async () => {
    const tab = await openTab();
    const change = blockChange(tab);
    await tab.commit('new block', [change]);
    await tab.amend('items of the block', 'blocks', change.put.id, { itemCount: 23 });
    expect(tab.undoLabel).toBe('items of the block');

    await tab.undo();
    expect(tab.of('blocks').find(change.put.id)?.itemCount).toBe(40);
    await tab.undo();
    expect(tab.of('blocks').find(change.put.id)).toBeUndefined();
    expect(tab.undoLabel).toBeUndefined();

    await tab.redo();
    await tab.redo();
    expect(tab.of('blocks').find(change.put.id)?.itemCount).toBe(23);
    expect(tab.redoLabel).toBeUndefined();
  });

  it('keeps a deletion as a mark in the store', async () => {
    const tab = await openTab();
    const change = blockChange(tab);
    await tab.commit('new block', [change]);
    await tab.commit('delete block', [{ kind: 'blocks', remove: change.put.id }]);
    const records = await requireRecords(await requireStore());
    expect(records.blocks.map(({ id, stamp }) => [id, stamp.deleted])).toEqual([
      [change.put.id, true],
    ]);
  });

  it('shows in one tab what another has saved', async () => {
    const [here, there] = [await openTab(), await openTab()];
    const change = blockChange(here);
    await here.commit('new block', [change]);
    await until(() => there.of('blocks').live.size === 1);
    await there.amend('source', 'blocks', change.put.id, { source: 'ferry notebook' });
    await until(() => here.of('blocks').find(change.put.id)?.source === 'ferry notebook');
  });

  it('keeps what another tab wrote into a different field of the same record', async () => {
    const [here, there] = [await openTab(), await openTab()];
    const change = blockChange(here);
    await here.commit('new block', [change]);
    await until(() => there.of('blocks').live.size === 1);
    await there.amend('source', 'blocks', change.put.id, { source: 'ferry notebook' });
    await until(() => here.of('blocks').find(change.put.id)?.source === 'ferry notebook');
    await here.amend('items', 'blocks', change.put.id, { itemCount: 17 });
    const records = await requireRecords(await requireStore());
    expect(records.blocks[0]).toMatchObject({ source: 'ferry notebook', itemCount: 17 });
  });

  it('L3 keeps both of two fields of one record that this tab changes at once', async () => {
    const tab = await openTab();
    const change = blockChange(tab);
    await tab.commit('new block', [change]);
    await Promise.all([
      tab.amend('items', 'blocks', change.put.id, { itemCount: 19 }),
      tab.amend('source', 'blocks', change.put.id, { source: 'ferry notebook' }),
    ]);
    const records = await requireRecords(await requireStore());
    expect(records.blocks[0]).toMatchObject({ itemCount: 19, source: 'ferry notebook' });
    // Taken back one by one.
    await tab.undo();
    expect(tab.of('blocks').find(change.put.id)).toMatchObject({ itemCount: 19, source: '' });
  });

  it('refuses a change based on what another tab has replaced, and then shows the other version', async () => {
    const [here, there] = [await openTab(), await openTab()];
    const change = blockChange(here);
    await here.commit('new block', [change]);
    await until(() => there.of('blocks').live.size === 1);
    // Both write at once: neither has heard of the other yet.
    const [first, second] = await Promise.all([
      here.amend('items', 'blocks', change.put.id, { itemCount: 11 }),
      there.amend('items', 'blocks', change.put.id, { itemCount: 29 }),
    ]);
    expect([first.kind, second.kind].sort()).toEqual(['conflict', 'saved']);
    const winner = first.kind === 'saved' ? 11 : 29;
    const loser = first.kind === 'saved' ? there : here;
    expect(loser.of('blocks').find(change.put.id)?.itemCount).toBe(winner);
    expect(loser.undoLabel).not.toBe('items');
  });

  it('does not take a step back over another tab’s later change', async () => {
    const [here, there] = [await openTab(), await openTab()];
    const change = blockChange(here);
    await here.commit('new block', [change]);
    await here.amend('items', 'blocks', change.put.id, { itemCount: 12 });
    await until(() => there.of('blocks').find(change.put.id)?.itemCount === 12);
    await there.amend('items', 'blocks', change.put.id, { itemCount: 31 });
    await until(() => here.of('blocks').find(change.put.id)?.itemCount === 31);
    expect((await here.undo()).kind).toBe('conflict');
    expect(here.of('blocks').find(change.put.id)?.itemCount).toBe(31);
  });

  it('L2 takes back a text typed in several saves as one step', async () => {
    const tab = await openTab();
    const change = blockChange(tab);
    await tab.commit('new block', [change]);
    for (const source of ['f', 'fer', 'ferry']) {
      await tab.amend('source', 'blocks', change.put.id, { source }, { typing: true });
    }
    await tab.undo();
    expect(tab.of('blocks').find(change.put.id)?.source).toBe('');
    expect(tab.undoLabel).toBe('new block');
  });

  it('L2 does not take back a later change for a notice that stands for an earlier one', async () => {
    const tab = await openTab();
    const change = blockChange(tab);
    await tab.commit('new block', [change]);
    const first = await tab.amend('items', 'blocks', change.put.id, { itemCount: 12 });
    await tab.amend('source', 'blocks', change.put.id, { source: 'ferry' });
    const step = first.kind === 'saved' ? first.step : undefined;
    expect(step).toBeDefined();
    expect(await tab.undo(step)).toEqual({ kind: 'conflict', refs: [] });
    expect(tab.of('blocks').find(change.put.id)).toMatchObject({ itemCount: 12, source: 'ferry' });
  });

  it('saves a batch as one step: a stopped one leaves nothing', async () => {
    const tab = await openTab();
    const batch = Array.from({ length: 7 }, () => blockChange(tab));
    expect(await tab.commit('bring in', batch, { signal: AbortSignal.abort() })).toEqual({
      kind: 'stopped',
    });
    expect(tab.of('blocks').live.size).toBe(0);
    await tab.commit('bring in', batch);
    expect(tab.of('blocks').live.size).toBe(7);
    await tab.undo();
    expect(tab.of('blocks').live.size).toBe(0);
  });
});
