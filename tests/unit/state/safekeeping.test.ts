import { createHash } from 'node:crypto';
import { beforeEach, describe, expect, it } from 'vitest';
import type { ConceptId, DeviceId, NoteId, PictureId } from '../../../src/model/ids';
import { settingsId } from '../../../src/model/settings';
import { Safekeeping } from '../../../src/state/safekeeping.svelte';
import { Workspace, type Draft } from '../../../src/state/workspace.svelte';
import {
  listKept,
  openChangesChannel,
  readPictureBytes,
  writePictureBytes,
} from '../../../src/storage';
import { backupJobs, type BackupJobs } from '../../../src/workers/backup-jobs';
import { WorkerClient } from '../../../src/workers/client';
import { digest } from '../formats/backup/content';
import { at, countingIds, freshIndexedDB, requireStore } from '../storage/harness';
import { linkedWorker } from '../workers/linked-worker';

/** A device of its own: its own database, its own name. */
async function openDevice(name: string, seconds = 60) {
  const channel = openChangesChannel(new BroadcastChannel(`safe-${name}`));
  const store = await requireStore({ channel, name });
  const clock = { seconds };
  const workspace = new Workspace({
    store,
    channel,
    device: name as DeviceId,
    makeId: countingIds(`made-${name}`),
    now: () => at(clock.seconds),
    minutesEast: () => 0,
  });
  await workspace.load();
  const client = new WorkerClient<BackupJobs>(() => linkedWorker<BackupJobs>(backupJobs(digest)));
  const safekeeping = new Safekeeping(workspace, store, client);
  return { workspace, store, safekeeping, clock };
}

type Device = Awaited<ReturnType<typeof openDevice>>;

function note(id: string, text: string): Draft<'notes'> {
  return { id: id as NoteId, title: id, text, concepts: [], disciplines: [], systems: [] };
}

const write = (device: Device, id: string, text: string) =>
  device.workspace.commit(`note ${id}`, [{ kind: 'notes', put: note(id, text) }]);

async function backupOf(device: Device): Promise<Blob> {
  const made = await device.safekeeping.make();
  if (made.kind === 'failed') throw new Error(made.message);
  return new Blob([made.bytes as Uint8Array<ArrayBuffer>]);
}

async function bringIn(device: Device, file: Blob, mode: 'merge' | 'replace' = 'merge') {
  expect(await device.safekeeping.open(file, 'copy.zip')).toBeUndefined();
  expect(await device.safekeeping.choose(mode)).toBeUndefined();
  const { preview } = device.safekeeping;
  expect(await device.safekeeping.bringIn()).toBeUndefined();
  return preview;
}

const textsOf = ({ workspace }: Device) =>
  Object.fromEntries([...workspace.of('notes').live.values()].map(({ id, text }) => [id, text]));

beforeEach(freshIndexedDB);

describe('bringing a backup in', () => {
  it('makes an empty device equal, stamps, deletion marks and pictures too', async () => {
    const quay = await openDevice('quay');
    await write(quay, 'a', 'one');
    await write(quay, 'b', 'two');
    await quay.workspace.commit('away', [{ kind: 'notes', remove: 'b' }]);
    const bytes = Uint8Array.from([9, 8, 7]);
    const hash = createHash('sha256').update(bytes).digest('hex');
    await writePictureBytes(quay.store, [{ id: hash, bytes: bytes.buffer }]);
    await quay.workspace.commit('picture', [
      {
        kind: 'pictures',
        put: {
          id: 'p' as PictureId,
          hash,
          type: 'image/png',
          width: 3,
          height: 1,
          byteCount: 3,
          alt: 'x',
        },
      },
    ]);

    const cabin = await openDevice('cabin');
    const preview = await bringIn(cabin, await backupOf(quay));
    expect(preview?.counts).toEqual([
      { kind: 'notes', added: 1, changed: 0, removed: 0, same: 0 },
      { kind: 'pictures', added: 1, changed: 0, removed: 0, same: 0 },
    ]);
    expect(cabin.workspace.copy()).toEqual(quay.workspace.copy());
    expect(await readPictureBytes(cabin.store, hash)).toEqual({
      kind: 'read',
      bytes: bytes.buffer,
    });
  });

  it('changes nothing before it is told to, and nothing when another tab saved in between', async () => {
    const quay = await openDevice('quay');
    await write(quay, 'a', 'one');
    const file = await backupOf(quay);
    const cabin = await openDevice('cabin');
    await cabin.safekeeping.open(file, 'copy.zip');
    expect(textsOf(cabin)).toEqual({});
    await write(cabin, 'c', 'meanwhile');
    expect(await cabin.safekeeping.bringIn()).toMatchObject({ kind: 'failed' });
    expect(textsOf(cabin)).toEqual({ c: 'meanwhile' });
  });

  it('by replacing makes the device like the backup, on top of newer versions', async () => {
    const quay = await openDevice('quay');
    await write(quay, 'a', 'old');
    const file = await backupOf(quay);
    await write(quay, 'a', 'new');
    await write(quay, 'd', 'since');
    const before = quay.workspace.of('notes').find('a')!.stamp;
    const preview = await bringIn(quay, file, 'replace');
    expect(preview?.counts).toEqual([{ kind: 'notes', added: 0, changed: 1, removed: 1, same: 0 }]);
    expect(preview?.named).toEqual([
      { kind: 'notes', what: 'removed', title: 'd' },
      { kind: 'notes', what: 'changed', title: 'a' },
    ]);
    expect(textsOf(quay)).toEqual({ a: 'old' });
    // Newer than what it replaced, or the next merge would bring "new" back.
    expect(quay.workspace.of('notes').find('a')!.stamp.revision).toEqual({
      quay: (before.revision['quay'] ?? 0) + 1,
    });
  });

  it('can be taken back, exactly, also by a tab opened afterwards', async () => {
    const quay = await openDevice('quay');
    await write(quay, 'a', 'theirs');
    const cabin = await openDevice('cabin');
    await write(cabin, 'c', 'mine');
    const before = structuredClone(cabin.workspace.copy());
    await bringIn(cabin, await backupOf(quay));
    expect(textsOf(cabin)).toEqual({ a: 'theirs', c: 'mine' });

    const later = await openDevice('cabin');
    await later.safekeeping.load();
    expect(later.safekeeping.restoredAt).toBe(at(60));
    expect(await later.safekeeping.takeBack()).toBeUndefined();
    expect(later.workspace.copy()).toEqual(before);
    expect(later.safekeeping.restoredAt).toBeUndefined();
  });

  it('keeps what is damaged, with its place, and brings the rest in', async () => {
    const quay = await openDevice('quay');
    for (let i = 0; i < 30; i++) await write(quay, `n${i}`, `text ${i} `.repeat(30));
    const bytes = new Uint8Array(await (await backupOf(quay)).arrayBuffer());
    // Cut inside the documents: the list at the end of the file is gone, the first one is not.
    const cut = new Blob([bytes.slice(0, Math.floor(bytes.length * 0.9))]);
    const cabin = await openDevice('cabin');
    await cabin.safekeeping.open(cut, 'cut.zip');
    const faults = cabin.safekeeping.preview?.opened.faults ?? [];
    expect(faults.length).toBeGreaterThan(0);
    // Replacing would take away here what the damage lost there.
    await write(cabin, 'mine', 'still here');
    expect(await cabin.safekeeping.choose('replace')).toMatchObject({ kind: 'failed' });
    expect(await cabin.safekeeping.choose('merge')).toBeUndefined();
    expect(await cabin.safekeeping.bringIn()).toBeUndefined();
    expect(textsOf(cabin)).toHaveProperty('mine');
    const kept = await listKept(cabin.store);
    expect(kept.kind === 'read' && kept.entries.length).toBe(faults.length);
    expect(kept.kind === 'read' && kept.entries[0]?.from).toMatch(/^cut\.zip: /);

    const later = await openDevice('cabin');
    await later.safekeeping.load();
    expect(later.safekeeping.kept).toHaveLength(faults.length);
    expect(await later.safekeeping.dropKept()).toBeUndefined();
    expect(later.safekeeping.kept).toEqual([]);
    expect(await listKept(later.store)).toEqual({ kind: 'read', entries: [] });
  });

  it('replaces where nothing was written yet, merges where something was, and leaves the demo apart', async () => {
    const quay = await openDevice('quay');
    await write(quay, 'a', 'one');
    const file = await backupOf(quay);
    const modeOn = async (device: Device) => {
      expect(await device.safekeeping.open(file, 'copy.zip')).toBeUndefined();
      return device.safekeeping.preview?.mode;
    };
    const fresh = await openDevice('fresh');
    const begun = { id: settingsId, theme: 'system', paperName: '', started: true, demo: false };
    await fresh.workspace.commit('the beginning', [
      { kind: 'settings', put: begun as Draft<'settings'> },
    ]);
    expect(await modeOn(fresh)).toBe('replace');
    // This backup has no settings, and without any the app would begin anew.
    expect(fresh.safekeeping.preview?.counts).not.toContainEqual(
      expect.objectContaining({ kind: 'settings', removed: 1 }),
    );
    await write(fresh, 'b', 'two');
    expect(await modeOn(fresh)).toBe('merge');

    const demo = await openDevice('demo');
    const settings = {
      id: settingsId,
      theme: 'system',
      paperName: '',
      started: true,
      demo: true,
    } as Draft<'settings'>;
    await demo.workspace.commit('the beginning', [{ kind: 'settings', put: settings }]);
    expect((await demo.safekeeping.open(file, 'copy.zip'))?.message).toMatch(/^This is the demo/);
    const ofDemo = await backupOf(demo);
    expect((await quay.safekeeping.open(ofDemo, 'demo.zip'))?.message).toMatch(/made in the demo/);
  });

  it('says what is wrong with a file that is no backup', async () => {
    const { safekeeping } = await openDevice('quay');
    const failed = await safekeeping.open(new Blob(['item,result\n1,right\n']), 'results.csv');
    expect(failed?.message).toMatch(/not a backup/);
    expect(safekeeping.preview).toBeUndefined();
  });
});

describe('edits made on two devices at once', () => {
  async function disputing() {
    const quay = await openDevice('quay');
    await write(quay, 'a', 'as it was');
    const cabin = await openDevice('cabin');
    await bringIn(cabin, await backupOf(quay));
    quay.clock.seconds = 70;
    await write(quay, 'a', 'from the quay');
    cabin.clock.seconds = 80;
    await write(cabin, 'a', 'from the cabin');
    return { quay, cabin };
  }

  it('are both kept and shown, and a choice on one device ends it on the other', async () => {
    const { quay, cabin } = await disputing();
    await bringIn(quay, await backupOf(cabin));
    await bringIn(cabin, await backupOf(quay));
    for (const device of [quay, cabin]) {
      expect(textsOf(device)).toEqual({ a: 'from the cabin' });
      expect(device.safekeeping.disputes.map(({ other }) => other)).toMatchObject([
        { text: 'from the quay' },
      ]);
    }
    expect(await quay.safekeeping.settle(quay.safekeeping.disputes[0]!, 'other')).toBeUndefined();
    expect(textsOf(quay)).toEqual({ a: 'from the quay' });
    expect(quay.safekeeping.disputes).toEqual([]);
    await bringIn(cabin, await backupOf(quay));
    expect(textsOf(cabin)).toEqual({ a: 'from the quay' });
    expect(cabin.safekeeping.disputes).toEqual([]);
  });
});

describe('the last backup', () => {
  it('is remembered on the device, with what changed since', async () => {
    const quay = await openDevice('quay');
    await write(quay, 'a', 'one');
    expect([quay.safekeeping.last, quay.safekeeping.changedSince]).toEqual([undefined, 1]);
    const made = await quay.safekeeping.make();
    if (made.kind === 'failed') throw new Error(made.message);
    expect(made.name).toBe('hypocentre-2026-02-03-0406-quay.zip');
    await quay.safekeeping.remember(made, 'download');
    quay.clock.seconds = 90;
    await write(quay, 'b', 'two');
    const later = await openDevice('quay');
    await later.safekeeping.load();
    expect(later.safekeeping.last).toEqual({ at: at(60), how: 'download', saves: 1 });
    expect(later.safekeeping.changedSince).toBe(1);
  });

  it('counts what was deleted since, and sees a change made after the clock was set back', async () => {
    const quay = await openDevice('quay');
    for (const id of ['a', 'b', 'c']) await write(quay, id, 'one');
    const made = await quay.safekeeping.make();
    if (made.kind === 'failed') throw new Error(made.message);
    await quay.safekeeping.remember(made, 'download');
    expect(quay.safekeeping.changedSince).toBe(0);
    quay.clock.seconds = -90_000;
    await write(quay, 'd', 'dated before the backup');
    expect(quay.safekeeping.changedSince).toBe(1);
    quay.clock.seconds = 120;
    await quay.workspace.commit('away', [
      { kind: 'notes', remove: 'a' },
      { kind: 'notes', remove: 'b' },
    ]);
    expect(quay.safekeeping.changedSince).toBe(2);
  });

  it('does not count a shipped map that nobody changed, but a concept of one’s own', async () => {
    const quay = await openDevice('quay');
    const concept = (id: string): Draft<'concepts'> => ({
      id: id as ConceptId,
      name: id,
      aliases: [],
      covers: '',
      disciplines: [],
      systems: [],
      restsOn: [],
    });
    await quay.workspace.commit('map', [{ kind: 'concepts', put: concept('anion-gap') }]);
    expect(quay.safekeeping.changedSince).toBe(0);
    const own = '0b9a4c1e-77aa-4f7e-9d2f-1f6f0d1c2b3a';
    await quay.workspace.commit('own', [{ kind: 'concepts', put: concept(own) }]);
    expect(quay.safekeeping.changedSince).toBe(1);
  });
});
