/**
 * Backups: made, looked into, brought in, taken back.
 *
 * Everything heavy runs in a worker that is started when it is first needed. What a backup would
 * change is worked out before anything is changed, and the copy of before is kept on the device,
 * so that bringing one in can be taken back, also after a reload.
 */
import { missesCsv } from '../formats';
import type {
  BackupContent,
  BackupFault,
  KindCounts,
  NamedChange,
  RestoreMode,
  RestorePlan,
} from '../formats';
import type { OtherVersion } from '../model/kept-beside';
import { asideRecord, chosenStamp, sameContent, versionOf, type Copy } from '../model/merge';
import { recordKinds, type AnyRecord, type RecordKind } from '../model/records';
import { settingsId } from '../model/settings';
import { nextStamp } from '../model/stamp';
import type { Instant } from '../model/time';
import {
  dropKept,
  keepUnread,
  listKept,
  listPictureHashes,
  readLocal,
  readPictureBytes,
  replaceAll,
  writeLocal,
  writePictureBytes,
  type KeptEntry,
  type Store,
} from '../storage';
import type { BackupJobs, Gathered, OpenedBackup } from '../workers/backup-jobs';
import type { WorkerClient } from '../workers/client';
import { lastBackupName, parseLastBackup, type LastBackup } from './last-backup';
import { otherWork } from './other-work';
import type { Workspace } from './workspace.svelte';

export type { KindCounts, NamedChange, RestoreMode } from '../formats';

export interface MadeBackup {
  readonly kind: 'made';
  readonly bytes: Uint8Array;
  readonly name: string;
  readonly at: Instant;
  /** Saves that the records in it had been through. */
  readonly saves: number;
}

export interface Failed {
  readonly kind: 'failed';
  readonly message: string;
}

/** A backup that was opened, with what bringing it in would do. */
export interface Preview {
  readonly opened: OpenedBackup;
  readonly fileName: string;
  readonly mode: RestoreMode;
  readonly counts: readonly KindCounts[];
  readonly named: readonly NamedChange[];
  readonly disputed: number;
}

/** Two versions of one record that were written at once. */
export interface Dispute {
  readonly kind: RecordKind;
  readonly shown: AnyRecord;
  readonly other: AnyRecord;
  readonly aside: OtherVersion;
}

/** Where the copy of before a restore lies among the device's own values. */
const beforeName = 'beforeRestore';
/** In ms: what another tab saved so lately may not have reached this one. */
const otherTabMs = 60_000;
/** Records handed to the worker at once: some 20 ms of copying. */
const recordsAtOnce = 1_000;

export class Safekeeping {
  readonly #workspace: Workspace;
  readonly #store: Store;
  readonly #client: WorkerClient<BackupJobs>;
  #last = $state.raw<LastBackup>();
  #preview = $state.raw<Preview>();
  #plan: RestorePlan | undefined;
  #seen: Copy | undefined;
  /** When a backup was brought in that can still be taken back. */
  #restoredAt = $state<number>();
  #busy = $state('');
  /** Backups begun: each has a number in the worker. */
  #backups = 0;
  #kept = $state.raw<readonly KeptEntry[]>([]);
  /** Saves that the records had been through when the spare copy was made. */
  #spareSaves: number | undefined;

  constructor(workspace: Workspace, store: Store, client: WorkerClient<BackupJobs>) {
    this.#workspace = workspace;
    this.#store = store;
    this.#client = client;
  }

  get last(): LastBackup | undefined {
    return this.#last;
  }

  get preview(): Preview | undefined {
    return this.#preview;
  }

  get restoredAt(): number | undefined {
    return this.#restoredAt;
  }

  /** What could not be brought in and is kept as it was, the latest first. */
  get kept(): readonly KeptEntry[] {
    return this.#kept;
  }

  /** What is being done just now, in words; empty when nothing is. */
  get busy(): string {
    return this.#busy;
  }

  /** Records changed since the last backup, or ever; those of a shipped map count once they are changed. */
  get changedSince(): number {
    const { changed, saves } = this.#ownWork();
    // With a clock set back since, a change may be dated before the backup.
    if (changed === 0 && this.#last?.saves !== undefined && this.#last.saves !== saves) return 1;
    return changed;
  }

  /** Records of one's own changed or deleted since the last backup, and the saves of all of them. */
  #ownWork(): { changed: number; saves: number } {
    const since = this.#last?.at;
    let [changed, saves] = [0, 0];
    for (const kind of recordKinds) {
      const collection = this.#workspace.of(kind);
      void collection.live; // what is stored is no state that Svelte follows; this is
      for (const record of collection.stored) {
        if (!isOwnWork(kind, record)) continue;
        saves += savesOf(record);
        const { changedAt, deleted } = record.stamp;
        // What was written and deleted before any backup is no loss.
        if (since === undefined ? !deleted : changedAt > since) changed += 1;
      }
    }
    return { changed, saves };
  }

  /** Edits made on two devices at once that nobody has chosen between. */
  get disputes(): readonly Dispute[] {
    return [...this.#workspace.of('otherVersions').live.values()].flatMap((aside) => {
      const version = versionOf(aside);
      const shown =
        version && (this.#workspace.of(version.kind).findStored(version.record.id) as AnyRecord);
      if (!shown || sameContent(shown, version.record)) return [];
      return [{ kind: version.kind, shown, other: version.record, aside }];
    });
  }

  /** The misses as CSV. */
  missesTable(): string {
    const workspace = this.#workspace;
    return missesCsv({
      blocks: workspace.of('blocks').live,
      items: workspace.of('items').live,
      concepts: workspace.of('concepts').live,
      systems: workspace.of('systems').live,
    });
  }

  /** Reads what the device remembers of its backups. */
  async load(): Promise<void> {
    const [last, before] = await Promise.all([
      readLocal(this.#store, lastBackupName),
      readLocal(this.#store, beforeName),
    ]);
    if (last.kind === 'read') this.#last = parseLastBackup(last.value);
    if (before.kind === 'read') this.#restoredAt = beforeOf(before.value)?.at;
    await this.#loadKept();
  }

  async #loadKept(): Promise<void> {
    const kept = await listKept(this.#store);
    if (kept.kind === 'read') this.#kept = kept.entries;
  }

  /** Lets go of what could not be brought in. */
  async dropKept(): Promise<Failed | undefined> {
    const dropped = await dropKept(this.#store);
    if (dropped.kind === 'failed') return failedBy(dropped.failure);
    this.#kept = [];
    return undefined;
  }

  /** The bytes of a backup of everything on this device. */
  async make(): Promise<MadeBackup | Failed> {
    this.#busy = 'Gathering everything into one file…';
    try {
      const pictures = await this.#pictures();
      return 'message' in pictures ? pictures : await this.#write(pictures.list);
    } finally {
      this.#busy = '';
    }
  }

  async #write(pictures: BackupContent['pictures']): Promise<MadeBackup | Failed> {
    const at = this.#workspace.now;
    const { saves } = this.#ownWork();
    const gathered = await this.#gather(this.#workspace.copy());
    const { device } = this.#workspace;
    const result = await this.#client.run(
      'write',
      { gathered, madeAt: at, device, pictures },
      { supersedes: false },
    );
    if (result.kind === 'failed') return { kind: 'failed', message: result.message };
    if (result.kind !== 'done') return { kind: 'failed', message: 'It was stopped.' };
    return { kind: 'made', bytes: result.output, name: this.#fileName(at), at, saves };
  }

  /** Hands a copy to the worker, some records at a time. */
  async #gather(copy: Copy): Promise<Gathered> {
    const backup = (this.#backups += 1);
    let recordCount = 0;
    for (const [kind, records] of Object.entries(copy)) {
      for (let from = 0; from < records.length; from += recordsAtOnce) {
        const some = records.slice(from, from + recordsAtOnce);
        const input = { backup, kind: kind as RecordKind, records: some };
        recordCount += some.length;
        // Not waited for: jobs are done in their order, and the count tells whether one was lost.
        void this.#client.run('gather', input, { supersedes: false });
        await otherWork();
      }
    }
    return { backup, recordCount };
  }

  /** Brings the spare copy beside the database up to date, where anything was saved since. */
  async renewSpare(): Promise<void> {
    const { spare } = this.#store;
    const { saves } = this.#ownWork();
    if (!spare || saves === 0 || saves === this.#spareSaves) return;
    this.#spareSaves = saves;
    // Its pictures lie beside it, each written once.
    const make = async () => {
      const made = await this.#write([]);
      if (made.kind === 'made') return made.bytes;
      this.#spareSaves = undefined; // the next attempt may work
      return undefined;
    };
    await spare.renew(make, this.#workspace.now - otherTabMs);
  }

  /** Why the spare copy could not be written; empty when it could. */
  get spareTrouble(): string {
    return this.#store.spare?.trouble ?? '';
  }

  /** To be called once the file is where it belongs. */
  async remember({ at, saves }: MadeBackup, how: LastBackup['how']): Promise<void> {
    this.#last = { at, how, saves };
    await writeLocal(this.#store, lastBackupName, this.#last);
  }

  /** Opens a backup and works out what it would change; undefined when it went well. */
  async open(file: Blob, fileName: string): Promise<Failed | undefined> {
    this.#preview = undefined;
    if (this.#isDemo) {
      return {
        kind: 'failed',
        message:
          'This is the demo, and its invented log would be mixed with yours. Leave the demo first, then choose “Open a backup” on the first screen.',
      };
    }
    this.#busy = 'Reading the backup…';
    try {
      const bytes = new Uint8Array(await file.arrayBuffer());
      const result = await this.#client.run('open', bytes);
      if (result.kind === 'failed') return { kind: 'failed', message: result.message };
      if (result.kind !== 'done') return { kind: 'failed', message: 'It was stopped.' };
      if (result.output.kind === 'fault') {
        return { kind: 'failed', message: `${result.output.message} ${result.output.mend}` };
      }
      if (result.output.demo) {
        return {
          kind: 'failed',
          message: 'This backup was made in the demo: nothing of it belongs into your log.',
        };
      }
      return await this.#planIn(result.output, fileName, this.#usualMode(result.output));
    } catch {
      return {
        kind: 'failed',
        message: 'The file could not be read from the disk. Choose it again.',
      };
    } finally {
      this.#busy = '';
    }
  }

  get #isDemo(): boolean {
    return this.#workspace.of('settings').find(settingsId)?.demo ?? false;
  }

  /** A device on which nothing was written yet is made as the backup is; else nothing is taken away. */
  #usualMode({ faults }: OpenedBackup): RestoreMode {
    const written = (['blocks', 'items', 'notes', 'lines', 'days'] as const).some(
      (kind) => this.#workspace.of(kind).live.size > 0,
    );
    return written || faults.length > 0 ? 'merge' : 'replace';
  }

  /** Works the preview out anew for the other way of bringing it in. */
  async choose(mode: RestoreMode): Promise<Failed | undefined> {
    if (!this.#preview) return undefined;
    const { opened, fileName } = this.#preview;
    // What a damaged file lost would be taken away here as if it had been deleted.
    if (mode === 'replace' && opened.faults.length > 0) {
      return { kind: 'failed', message: 'A damaged backup can be merged, but replaces nothing.' };
    }
    this.#busy = 'Working out what would change…';
    try {
      return await this.#planIn(opened, fileName, mode);
    } finally {
      this.#busy = '';
    }
  }

  close(): void {
    this.#preview = undefined;
    this.#plan = undefined;
    this.#seen = undefined;
  }

  /** Brings the opened backup in: all of it or nothing. */
  async bringIn(): Promise<Failed | undefined> {
    const [preview, plan, seen] = [this.#preview, this.#plan, this.#seen];
    if (!preview || !plan || !seen) return { kind: 'failed', message: 'No backup is open.' };
    const kept = await keepUnread(this.#store, this.#keptEntries(preview));
    if (kept.kind === 'failed') return failedBy(kept.failure);
    const pictures = await writePictureBytes(
      this.#store,
      preview.opened.pictures.map(({ hash, bytes }) => ({ id: hash, bytes: bytes.slice().buffer })),
    );
    if (pictures.kind === 'failed') return failedBy(pictures.failure);

    // The copy of before, so that this can be taken back even after a reload.
    const before = await this.make();
    if (before.kind === 'failed') return before;
    const at = this.#workspace.now;
    const saved = await writeLocal(this.#store, beforeName, { at, bytes: before.bytes });
    if (saved.kind === 'failed') return failedBy(saved.failure);

    this.#busy = 'Bringing it in…';
    try {
      const failed = await this.#replace(seen, plan.next);
      if (failed) return failed;
    } finally {
      this.#busy = '';
    }
    this.#restoredAt = at;
    this.close();
    await this.#loadKept();
    return undefined;
  }

  /** Puts everything back as it was before the last backup was brought in. */
  async takeBack(): Promise<Failed | undefined> {
    const read = await readLocal(this.#store, beforeName);
    const before = read.kind === 'read' ? beforeOf(read.value) : undefined;
    if (!before) return { kind: 'failed', message: 'There is no copy of before any more.' };
    const opened = await this.#client.run('open', before.bytes);
    if (opened.kind !== 'done' || opened.output.kind === 'fault') {
      return { kind: 'failed', message: 'The copy of before cannot be read.' };
    }
    const records = await this.#client.run('records', null);
    if (records.kind !== 'done') {
      return { kind: 'failed', message: 'The copy of before cannot be read.' };
    }
    const failed = await this.#replace(this.#workspace.copy(), records.output);
    if (failed) return failed;
    this.close();
    this.#restoredAt = undefined;
    await writeLocal(this.#store, beforeName, undefined);
    return undefined;
  }

  /** Ends a dispute: the version chosen is shown on every device that hears of it. */
  async settle(dispute: Dispute, keep: 'shown' | 'other'): Promise<Failed | undefined> {
    const workspace = this.#workspace;
    const [device, now] = [workspace.device, workspace.now];
    const chosen = keep === 'shown' ? dispute.shown : dispute.other;
    const versions = [{ record: dispute.shown }, { record: dispute.other }];
    const record = {
      ...chosen,
      stamp: chosenStamp(chosen.stamp, versions, device, now),
    } as AnyRecord;
    const aside = asideRecord(dispute.kind, dispute.other).id;
    const seen = workspace.copy();
    const withChoice: { [K in RecordKind]?: readonly AnyRecord[] } = { ...seen };
    const put = (kind: RecordKind, id: string, made: AnyRecord) => {
      withChoice[kind] = (withChoice[kind] ?? []).map((old) => (old.id === id ? made : old));
    };
    put(dispute.kind, record.id, record);
    put('otherVersions', aside, {
      ...dispute.aside,
      stamp: nextStamp(dispute.aside.stamp, device, now, true),
    });
    return this.#replace(seen, withChoice);
  }

  async #planIn(
    opened: OpenedBackup,
    fileName: string,
    mode: RestoreMode,
  ): Promise<Failed | undefined> {
    const seen = this.#workspace.copy();
    const { device, now } = this.#workspace;
    const mine = await this.#gather(seen);
    const result = await this.#client.run('plan', { mine, mode, device, now });
    if (result.kind === 'failed') return { kind: 'failed', message: result.message };
    if (result.kind !== 'done') return undefined; // another plan has taken its place
    this.#seen = seen;
    this.#plan = result.output;
    const { counts, named, disputed } = result.output;
    this.#preview = { opened, fileName, mode, counts, named, disputed };
    return undefined;
  }

  async #replace(seen: Copy, next: Copy): Promise<Failed | undefined> {
    const result = await replaceAll(this.#store, seen, next);
    if (result.kind === 'failed') return failedBy(result.failure);
    if (result.kind === 'conflict') {
      return {
        kind: 'failed',
        message: 'Something was saved in another tab in between. Nothing was changed; try again.',
      };
    }
    const trouble = await this.#workspace.load();
    this.#workspace.forgetSteps();
    return trouble === undefined ? undefined : { kind: 'failed', message: trouble };
  }

  async #pictures(): Promise<Failed | { list: { hash: string; bytes: Uint8Array }[] }> {
    const hashes = await listPictureHashes(this.#store);
    if (hashes.kind === 'failed') return failedBy(hashes.failure);
    const wanted = new Set(
      [...this.#workspace.of('pictures').stored]
        .filter(({ stamp }) => !stamp.deleted)
        .map(({ hash }) => hash),
    );
    const list: { hash: string; bytes: Uint8Array }[] = [];
    for (const hash of hashes.hashes) {
      if (!wanted.has(hash)) continue;
      const read = await readPictureBytes(this.#store, hash);
      if (read.kind === 'failed') return failedBy(read.failure);
      if (read.bytes) list.push({ hash, bytes: new Uint8Array(read.bytes) });
    }
    return { list };
  }

  #keptEntries({ opened, fileName }: Preview): KeptEntry[] {
    return opened.faults.map(({ place, message, content }: BackupFault) => ({
      id: this.#workspace.makeId(),
      at: this.#workspace.now,
      from: `${fileName}: ${place}`,
      reason: message,
      content: content ?? '',
    }));
  }

  /** Sorts by time, and tells devices apart. */
  #fileName(at: Instant): string {
    const stamp = new Date(at).toISOString().slice(0, 16).replace('T', '-').replace(':', '');
    return `hypocentre-${stamp}-${deviceMark(this.#workspace.device)}.zip`;
  }
}

/**
 * Kinds that come with a shipped map, or from another device beside what is shown: untouched, they
 * are no work that could be lost here.
 */
const shippedKinds: readonly RecordKind[] = [
  'disciplines',
  'systems',
  'concepts',
  'readings',
  'settings',
  'otherVersions',
];

/** The ids that the app makes; those of shipped maps are words. */
const madeHere = /^[0-9a-f]{8}-[0-9a-f]{4}-/;

function isOwnWork(kind: RecordKind, record: AnyRecord): boolean {
  return !shippedKinds.includes(kind) || savesOf(record) > 1 || madeHere.test(record.id);
}

const savesOf = ({ stamp }: AnyRecord) =>
  Object.values(stamp.revision).reduce((sum, count) => sum + count, 0);

/** Enough of a device's id to tell a person's few devices apart in a file's name. */
export const deviceMark = (device: string) => device.replace(/[^A-Za-z0-9]/g, '').slice(0, 8);

function failedBy(failure: { readonly message: string; readonly wayOn: string }): Failed {
  return { kind: 'failed', message: `${failure.message} ${failure.wayOn}` };
}

function beforeOf(value: unknown): { at: number; bytes: Uint8Array } | undefined {
  const found = value as { at?: unknown; bytes?: unknown } | undefined;
  if (typeof found?.at !== 'number' || !(found.bytes instanceof Uint8Array)) return undefined;
  return { at: found.at, bytes: found.bytes };
}
