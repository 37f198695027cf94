/** The last backup of this device, as it remembers it among its own values, and how urgent the next is. */
import { msPerDay, type Instant } from '../model/time';

/** Its name among the device's own values. */
export const lastBackupName = 'lastBackup';

export interface LastBackup {
  readonly at: Instant;
  readonly how: 'download' | 'folder';
  /**
   * Saves that the records had been through when it was made: tells that something changed even
   * where the clock was set back since. Missing in what older versions remembered.
   */
  readonly saves?: number;
}

/** Checks the value under `lastBackupName`; undefined for anything else. */
export function parseLastBackup(value: unknown): LastBackup | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const { at, how, saves } = value as { at?: unknown; how?: unknown; saves?: unknown };
  if (typeof at !== 'number' || !Number.isFinite(at)) return undefined;
  return {
    at: at as Instant,
    how: how === 'folder' ? 'folder' : 'download',
    ...(typeof saves === 'number' && { saves }),
  };
}

/** How urgent a backup is: the words grow plainer with age. */
export type Urgency = 'fresh' | 'due' | 'overdue';

const dueAfterDays = 7;
const overdueAfterDays = 21;
/** Below so many changes a missing backup is no loss to speak of. */
const fewChanges = 20;

/**
 * @param lastAt when the last backup was made, in ms; undefined for never
 * @param changedSince records changed since
 *
 * @example
 * urgencyOf(now - 8 * msPerDay, 3, now); // 'due'
 */
export function urgencyOf(lastAt: number | undefined, changedSince: number, now: number): Urgency {
  if (changedSince === 0) return 'fresh';
  if (lastAt === undefined) return changedSince < fewChanges ? 'fresh' : 'overdue';
  const ageDays = (now - lastAt) / msPerDay;
  // Made in the future: the clock was set back, and its age is not known.
  if (ageDays < -1) return 'due';
  if (ageDays >= overdueAfterDays) return 'overdue';
  return ageDays >= dueAfterDays ? 'due' : 'fresh';
}
