import { createHash } from 'node:crypto';
import { beforeEach, describe, expect, it } from 'vitest';
import type { DeviceId, NoteId } from '../../../src/model/ids';
import { putBack } from '../../../src/state/put-back';
import { Safekeeping } from '../../../src/state/safekeeping.svelte';
import { Workspace } from '../../../src/state/workspace.svelte';
import {
  openChangesChannel,
  readPictureBytes,
  readSpare,
  Spare,
  writePictureBytes,
} from '../../../src/storage';
import { backupJobs, type BackupJobs } from '../../../src/workers/backup-jobs';
import { WorkerClient } from '../../../src/workers/client';
import { digest } from '../formats/backup/content';
import { at, countingIds, freshIndexedDB, requireStore } from '../storage/harness';
import { memoryFolder } from '../storage/spare-folder';
import { linkedWorker } from '../workers/linked-worker';

beforeEach(freshIndexedDB);

const startClient = () =>
  new WorkerClient<BackupJobs>(() => linkedWorker<BackupJobs>(backupJobs(digest)));

let tabs = 0;

async function openTabWith(folder: ReturnType<typeof memoryFolder>) {
  const channel = openChangesChannel(new BroadcastChannel(`put-back-${++tabs}`));
  const spare = new Spare(1_770_000_000_000 + tabs, `t${tabs}`, () => Promise.resolve(folder));
  const store = await requireStore({ channel, spare });
  const workspace = new Workspace({
    store,
    channel,
    device: 'quay' as DeviceId,
    makeId: countingIds('made'),
    now: () => at(60),
    minutesEast: () => 0,
  });
  await workspace.load();
  return { store, workspace, safekeeping: new Safekeeping(workspace, store, startClient()) };
}

const write = (tab: Awaited<ReturnType<typeof openTabWith>>, id: string, text: string) =>
  tab.workspace.commit(`note ${id}`, [
    {
      kind: 'notes',
      put: { id: id as NoteId, title: id, text, concepts: [], disciplines: [], systems: [] },
    },
  ]);

describe('S15 a database that the browser has thrown away', () => {
  it('S15 is put back whole: the copy, every change since, deletions, and pictures', async () => {
    const folder = memoryFolder();
    const tab = await openTabWith(folder);
    await write(tab, 'a', 'one');
    await write(tab, 'b', 'two');
    await tab.safekeeping.renewSpare();
    await write(tab, 'a', 'one, mended');
    await tab.workspace.commit('away', [{ kind: 'notes', remove: 'b' }]);
    await write(tab, 'c', 'three');
    const bytes = Uint8Array.from([9, 8, 7]).buffer;
    const hash = createHash('sha256').update(new Uint8Array(bytes)).digest('hex');
    await writePictureBytes(tab.store, [{ id: hash, bytes }]);
    const before = structuredClone(tab.workspace.copy());

    freshIndexedDB();
    const after = await openTabWith(folder);
    expect(after.workspace.of('notes').live.size).toBe(0);
    const result = await putBack(after.store, await readSpare(folder), startClient());
    expect(result).toEqual({ kind: 'put-back', count: 3 });
    await after.workspace.load();
    expect(after.workspace.copy()).toEqual(before);
    expect(await readPictureBytes(after.store, hash)).toEqual({ kind: 'read', bytes });
  });

  it('S15 is put back after a restore and its taking back, which remove records without a mark', async () => {
    const folder = memoryFolder();
    const tab = await openTabWith(folder);
    await write(tab, 'a', 'mine');
    const made = await tab.safekeeping.make();
    if (made.kind === 'failed') throw new Error(made.message);
    await write(tab, 'b', 'since');
    const file = new Blob([made.bytes as Uint8Array<ArrayBuffer>]);
    await tab.safekeeping.open(file, 'mine.zip');
    await tab.safekeeping.choose('replace');
    await tab.safekeeping.bringIn();
    await tab.safekeeping.takeBack();
    const before = structuredClone(tab.workspace.copy());
    freshIndexedDB();
    const after = await openTabWith(folder);
    await putBack(after.store, await readSpare(folder), startClient());
    await after.workspace.load();
    const textsOf = (copy: object) => JSON.stringify((copy as { notes: unknown[] }).notes);
    expect(textsOf(after.workspace.copy())).toContain('since');
    expect(textsOf(after.workspace.copy())).toBe(textsOf(before));
  });

  it('S15 stays empty where there is nothing to put back', async () => {
    const folder = memoryFolder();
    const { store } = await openTabWith(folder);
    expect(await putBack(store, await readSpare(folder), startClient())).toEqual({ kind: 'none' });
  });
});
