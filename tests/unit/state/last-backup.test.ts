import { describe, expect, it } from 'vitest';
import { msPerDay } from '../../../src/model/time';
import { parseLastBackup, urgencyOf } from '../../../src/state/last-backup';

describe('the last backup', () => {
  it('is known by its time alone, and is nothing without one', () => {
    expect(parseLastBackup({ at: 5, how: 'folder', saves: 12 })).toEqual({
      at: 5,
      how: 'folder',
      saves: 12,
    });
    expect(parseLastBackup({ at: 5, how: 'pigeon', saves: 'many' })).toEqual({
      at: 5,
      how: 'download',
    });
    for (const other of [undefined, null, 5, {}, { at: 'yesterday' }, { at: NaN }])
      expect(parseLastBackup(other)).toBeUndefined();
  });

  it('is the more urgent the older it is, and never while nothing has changed', () => {
    const now = 1_770_000_000_000;
    const after = (days: number, changes: number) => urgencyOf(now - days * msPerDay, changes, now);
    expect([0, 6.9, 7, 20.9, 21, 300].map((days) => after(days, 3))).toEqual([
      'fresh',
      'fresh',
      'due',
      'due',
      'overdue',
      'overdue',
    ]);
    expect(after(300, 0)).toBe('fresh');
    expect(urgencyOf(undefined, 19, now)).toBe('fresh');
    expect(urgencyOf(undefined, 20, now)).toBe('overdue');
  });

  it('made in the future, as after a clock was set back, is due', () => {
    expect(urgencyOf(9 * msPerDay, 1, 2 * msPerDay)).toBe('due');
  });
});
