import { describe, expect, it } from 'vitest';
import type { Block, Item } from '../../../src/model/log';
import type { Day } from '../../../src/model/study';
import { instantOfLocal, type LocalDay } from '../../../src/model/time';
import { countByGroup, countedBlocks } from '../../../src/state/trend-input';

const day = 20_480 as LocalDay;
const block = (id: string, more: object = {}) =>
  ({ id, day, itemCount: 10, source: '', ...more }) as unknown as Block;
const item = (blockId: string, position: number, more: object = {}) =>
  ({
    id: `${blockId}-${position}`,
    block: blockId,
    position,
    outcome: 'missed',
    topics: [],
    causes: [],
    ...more,
  }) as unknown as Item;
const counted = (blocks: Block[], items: Item[] = [], days: Day[] = []) =>
  countedBlocks(blocks, items, days, () => 60);

describe('countedBlocks', () => {
  it('takes the larger of misses marked and misses stated', () => {
    const items = [item('a', 1), item('a', 2), item('b', 1)];
    const found = counted([block('a'), block('b', { missedCount: 4 })], items);
    expect(found.map(({ right }) => right)).toEqual([8, 6]);
    // Where a miss is not marked nobody knows its place.
    expect(found.map(({ missedAt }) => missedAt)).toEqual([[1, 2], undefined]);
  });

  it('leaves out blocks nobody knows the right items of', () => {
    const found = counted(
      [
        block('only', { onlyMisses: true }),
        block('fresh'),
        block('empty', { itemCount: 0 }),
        block('perfect', { missedCount: 0 }),
      ],
      [item('only', 3)],
    );
    expect(found.map((each) => each.block.id)).toEqual(['perfect']);
    expect(found[0]?.right).toBe(10);
  });

  it('knows the hour, the night before, the pace and the review of a block', () => {
    const startedAt = instantOfLocal(day, 615, 60);
    const [found] = counted(
      [
        block('a', {
          startedAt,
          minutesGiven: 15,
          minutesUsed: 12,
          reviewMinutes: 36,
          missedCount: 1,
          changedToRight: 2,
        }),
      ],
      [item('a', 9, { reason: 'changed-from-right' }), item('a', 10, { reason: 'out-of-time' })],
      [{ id: 'd', day, sleepHours: 7.5, rest: false } as unknown as Day],
    );
    expect(found).toMatchObject({
      startMinutes: 615,
      sleepHours: 7.5,
      secondsGiven: 90,
      secondsUsed: 72,
      reviewRatio: 3,
      changed: { toRight: 2, fromRight: 1 },
      notReached: 1,
    });
  });

  it('lists them as they were sat', () => {
    const found = counted([
      block('late', { missedCount: 1, startedAt: instantOfLocal(day, 900, 60) }),
      block('next', { missedCount: 1, day: day + 1 }),
      block('early', { missedCount: 1, startedAt: instantOfLocal(day, 400, 60) }),
    ]);
    expect(found.map((each) => each.block.id)).toEqual(['early', 'late', 'next']);
  });
});

describe('countByGroup', () => {
  it('counts only blocks whose right items are itemised, each item in all its groups', () => {
    const whole = Array.from({ length: 10 }, (_, i) =>
      item('a', i + 1, { outcome: i < 3 ? 'missed' : 'right' }),
    );
    const items = [...whole, item('b', 1)];
    const blocks = counted([block('a'), block('b')], items);
    const groups = countByGroup(blocks, items, ({ position }) =>
      position === 1 ? ['x', 'y'] : ['x'],
    );
    expect(groups).toEqual([
      { id: 'x', items: 10, right: 7 },
      { id: 'y', items: 1, right: 0 },
    ]);
  });
});
