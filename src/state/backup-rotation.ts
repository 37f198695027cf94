/** Which of a device's backups in its folder make room: the older, the farther apart they are kept. */
import { msPerDay } from '../model/time';

/** As `Safekeeping` names its files: day, minute (UTC), device. */
const namePattern = /^hypocentre-(\d{4})-(\d{2})-(\d{2})-\d{4}-([A-Za-z0-9]{1,8})\.zip$/;

/** The newest, so that a slip of an hour ago can be taken back. */
export const newestKept = 6;
/** One for each of the last days and weeks that have any, so that what is noticed late can be. */
export const daysKept = 7;
export const weeksKept = 8;

/** The device whose backup a file of this name is; undefined for any other file. */
export function deviceOfBackup(name: string): string | undefined {
  return namePattern.exec(name)?.[4];
}

/**
 * The backups that make room: all but the newest six, the newest of each of the last seven days
 * that have one, and the newest of each of the last eight weeks that have one.
 *
 * @param names backups of one device, in any order
 *
 * @example
 * backupsToDrop(threeOfToday); // []
 */
export function backupsToDrop(names: readonly string[]): string[] {
  const newestFirst = names.toSorted().reverse();
  const kept = new Set(newestFirst.slice(0, newestKept));
  keepNewestOfEach(newestFirst, dayOf, daysKept, kept);
  keepNewestOfEach(newestFirst, (name) => Math.floor(dayOf(name) / 7), weeksKept, kept);
  return newestFirst.filter((name) => !kept.has(name)).reverse();
}

function keepNewestOfEach(
  newestFirst: readonly string[],
  spanOf: (name: string) => number,
  most: number,
  kept: Set<string>,
): void {
  const spans = new Set<number>();
  for (const name of newestFirst) {
    const span = spanOf(name);
    if (spans.has(span)) continue;
    if (spans.size === most) return;
    spans.add(span);
    kept.add(name);
  }
}

/** Whole days since 1970-01-01 (UTC) of a backup, by its name. */
function dayOf(name: string): number {
  const [, year, month, day] = namePattern.exec(name) ?? [];
  return Math.floor(Date.UTC(Number(year), Number(month) - 1, Number(day)) / msPerDay);
}
