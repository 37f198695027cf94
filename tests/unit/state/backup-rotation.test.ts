import { describe, expect, it } from 'vitest';
import {
  backupsToDrop,
  daysKept,
  deviceOfBackup,
  newestKept,
  weeksKept,
} from '../../../src/state/backup-rotation';

const nameAt = (ms: number) => {
  const text = new Date(ms).toISOString();
  return `hypocentre-${text.slice(0, 10)}-${text.slice(11, 13)}${text.slice(14, 16)}-quay.zip`;
};
const hourMs = 3_600_000;
const start = Date.UTC(2026, 0, 5, 7); // a Monday

/** A backup every half hour of ten hours a day, each followed by making room, as the app does. */
function yearInFolder(days: number): string[] {
  let held: string[] = [];
  for (let day = 0; day < days; day++) {
    for (let half = 0; half < 20; half++) {
      held.push(nameAt(start + day * 24 * hourMs + half * (hourMs / 2)));
      const drop = new Set(backupsToDrop(held));
      held = held.filter((name) => !drop.has(name));
    }
  }
  return held;
}

describe('making room in the folder of backups', () => {
  it('keeps all while there are few', () => {
    expect(backupsToDrop([3, 1, 2].map((hour) => nameAt(start + hour * hourMs)))).toEqual([]);
  });

  it('after months of half hours holds a few of today, one of each day of a week, one of each of eight weeks', () => {
    const held = yearInFolder(120);
    expect(held.length).toBeLessThanOrEqual(newestKept + daysKept + weeksKept);
    const last = start + 119 * 24 * hourMs;
    const ofDay = (daysBack: number) =>
      held.filter((name) => name.includes(nameAt(last - daysBack * 24 * hourMs).slice(10, 21)));
    expect(ofDay(0)).toHaveLength(newestKept);
    for (let back = 1; back < daysKept; back++)
      expect(ofDay(back), `${back} days back`).toHaveLength(1);
    const oldestDay = Date.parse(held.toSorted()[0]!.slice(11, 21));
    const weeksBack = (last - oldestDay) / (7 * 24 * hourMs);
    expect(weeksBack).toBeGreaterThan(weeksKept - 2);
    expect(weeksBack).toBeLessThan(weeksKept + 1);
  });

  it('knows the device of a backup, and leaves other files alone', () => {
    expect(deviceOfBackup(nameAt(start))).toBe('quay');
    for (const name of ['holiday.zip', 'hypocentre-2026-01-05-0700-quay.zip.crswap'])
      expect(deviceOfBackup(name)).toBeUndefined();
  });
});
