/** The jobs of the backup worker, and the backup it has open between them. */
import {
  planRestore,
  readBackup,
  writeBackup,
  type BackupContent,
  type BackupReading,
  type Digest,
  type FileFault,
  type RestoreMode,
  type RestorePlan,
} from '../formats';
import type { DeviceId } from '../model/ids';
import type { Copy } from '../model/merge';
import type { RecordKind, RecordOf } from '../model/records';
import type { Instant } from '../model/time';
import type { JobHandlers } from './serve-jobs';

/** A backup as the page hears of it: its records stay in the worker until they are planned in. */
export type OpenedBackup = Omit<BackupReading, 'records'> & {
  readonly recordCount: number;
  /** Whether it was made in the demo: nothing of it is anybody's work. */
  readonly demo: boolean;
};

/** What was handed over some records at a time: its number, and how many records it must have. */
export interface Gathered {
  readonly backup: number;
  readonly recordCount: number;
}

export interface PlanInput {
  readonly mine: Gathered;
  readonly mode: RestoreMode;
  readonly device: DeviceId;
  readonly now: Instant;
}

// A type alias, not an interface: only an alias fits the open `Jobs` record.
export type BackupJobs = {
  /**
   * Some records of a backup to be written, under a number of its own: a year's log handed over at once
   * would hold up the page.
   */
  gather: {
    input: {
      readonly backup: number;
      readonly kind: RecordKind;
      readonly records: readonly unknown[];
    };
    output: null;
  };
  /** The bytes of the backup whose records were gathered under the number. */
  write: {
    input: Omit<BackupContent, 'records'> & { readonly gathered: Gathered };
    output: Uint8Array;
  };
  open: { input: Uint8Array; output: OpenedBackup | FileFault };
  /** What the backup opened last would change; it must have been opened by this worker. */
  plan: { input: PlanInput; output: RestorePlan };
  /** The records of the backup opened last, as they are. */
  records: { input: null; output: Copy };
};

/** The handlers of one backup worker. */
export function backupJobs(digest: Digest): JobHandlers<BackupJobs> {
  let opened: BackupReading | undefined;
  const gathered = new Map<number, Partial<Record<RecordKind, unknown[]>>>();

  function requireOpened(): BackupReading {
    if (!opened) throw new Error('The backup is no longer open. Choose the file again.');
    return opened;
  }

  function takeGathered({ backup, recordCount }: Gathered): Copy {
    const records = gathered.get(backup) ?? {};
    gathered.delete(backup);
    const count = Object.values(records).reduce((sum, group) => sum + group.length, 0);
    // A worker that died in between took a part of them with it: never a backup of the rest.
    if (count !== recordCount) {
      throw new Error('A part of what was gathered is lost. Try again.');
    }
    return records as Copy;
  }

  return {
    gather({ backup, kind, records }) {
      let copy = gathered.get(backup);
      if (!copy) gathered.set(backup, (copy = {}));
      (copy[kind] ??= []).push(...records);
      return null;
    },
    write: ({ gathered: handedOver, ...rest }) =>
      writeBackup({ ...rest, records: takeGathered(handedOver) }),
    async open(bytes) {
      opened = undefined;
      const reading = await readBackup(bytes, digest);
      if (reading.kind === 'fault') return reading;
      opened = reading;
      const { records, ...rest } = reading;
      const recordCount = Object.values(records).reduce((sum, group) => sum + group.length, 0);
      const settings = records.settings as readonly RecordOf<'settings'>[] | undefined;
      const demo = settings?.some((each) => each.demo && !each.stamp.deleted) ?? false;
      return { ...rest, recordCount, demo };
    },
    plan: ({ mine, mode, device, now }) =>
      planRestore(takeGathered(mine), requireOpened().records, mode, device, now),
    records: () => requireOpened().records,
  };
}

/** The SHA-256 of bytes, by the browser. */
export const browserDigest: Digest = async (bytes) => {
  const sum = await crypto.subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>);
  return Array.from(new Uint8Array(sum), (byte) => byte.toString(16).padStart(2, '0')).join('');
};
