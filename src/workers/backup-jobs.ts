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
import type { RecordOf } from '../model/records';
import type { Instant } from '../model/time';
import type { JobHandlers } from './serve-jobs';

/** A backup as the page hears of it: its records stay in the worker until they are planned in. */
export type OpenedBackup = Omit<BackupReading, 'records'> & {
  readonly recordCount: number;
  /** Whether it was made in the demo: nothing of it is anybody's work. */
  readonly demo: boolean;
};

export interface PlanInput {
  readonly mine: Copy;
  readonly mode: RestoreMode;
  readonly device: DeviceId;
  readonly now: Instant;
}

// A type alias, not an interface: only an alias fits the open `Jobs` record.
export type BackupJobs = {
  write: { input: BackupContent; output: Uint8Array };
  open: { input: Uint8Array; output: OpenedBackup | FileFault };
  /** What the backup opened last would change; it must have been opened by this worker. */
  plan: { input: PlanInput; output: RestorePlan };
  /** The records of the backup opened last, as they are. */
  records: { input: null; output: Copy };
};

/** The handlers of one backup worker. */
export function backupJobs(digest: Digest): JobHandlers<BackupJobs> {
  let opened: BackupReading | undefined;

  function requireOpened(): BackupReading {
    if (!opened) throw new Error('The backup is no longer open. Choose the file again.');
    return opened;
  }

  return {
    write: (content) => writeBackup(content),
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
      planRestore(mine, requireOpened().records, mode, device, now),
    records: () => requireOpened().records,
  };
}

/** The SHA-256 of bytes, by the browser. */
export const browserDigest: Digest = async (bytes) => {
  const sum = await crypto.subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>);
  return Array.from(new Uint8Array(sum), (byte) => byte.toString(16).padStart(2, '0')).join('');
};
