import { describe, expect, it } from 'vitest';
import { parseRecord } from '../../../src/model/records';
import type { LocalDay } from '../../../src/model/time';
import type { Ranking } from '../../../src/state/roots.svelte';
import {
  blocksOn,
  newAmongFirst,
  reviewMinutesAMiss,
  topRootChange,
  toReview,
} from '../../../src/state/today-facts';

const stamp = { origin: 'quay', revision: { quay: 1 }, changedAt: 1_000, deleted: false };
function requireRecord<K extends Parameters<typeof parseRecord>[0]>(kind: K, input: object) {
  const parsed = parseRecord(kind, { ...input, stamp });
  if (parsed.kind === 'rejected') throw new Error(JSON.stringify(parsed.faults));
  return parsed.value;
}
const block = (id: string, day: number, changes: object = {}) =>
  requireRecord('blocks', { id, day, itemCount: 40, source: '', ...changes });
const miss = (id: string, blockId: string, position: number, changes: object = {}) =>
  requireRecord('items', {
    id,
    block: blockId,
    position,
    outcome: 'missed',
    topics: [],
    causes: [],
    missingPiece: '',
    optionTurns: [],
    ...changes,
  });
const ranking = (...roots: [string, number][]) =>
  ({ roots: roots.map(([conceptId, traced]) => ({ conceptId, traced })) }) as unknown as Ranking;

describe('today', () => {
  it('counts the blocks of the day, by their own total of misses where that is higher', () => {
    const blocks = [
      block('a', 100, { missedCount: 9 }),
      block('b', 100, { itemCount: 20 }),
      block('c', 99),
    ];
    const items = [miss('1', 'a', 1), miss('2', 'b', 1), miss('3', 'b', 2), miss('4', 'c', 1)];
    expect(blocksOn(100 as LocalDay, blocks, items)).toMatchObject({ itemCount: 60, missed: 11 });
  });

  it('puts the newest misses first among those to review', () => {
    const blocks = new Map(
      [block('a', 99), block('b', 100)].map((each) => [each.id as string, each]),
    );
    const items = [
      miss('1', 'a', 4),
      miss('2', 'b', 9),
      miss('3', 'b', 2),
      miss('done', 'b', 1, { topics: ['pump'], missingPiece: 'seal' }),
      miss('half', 'a', 1, { topics: ['pump'] }),
    ];
    expect(toReview(blocks, items).map(({ id }) => id)).toEqual(['3', '2', 'half', '1']);
  });

  it('reckons four minutes a miss until twenty were timed', () => {
    const few = [miss('1', 'a', 1)];
    expect(reviewMinutesAMiss([block('a', 1, { reviewMinutes: 30 })], few)).toBe(4);
    const many = Array.from({ length: 20 }, (_, k) => miss(`m${k}`, 'a', k + 1));
    expect(reviewMinutesAMiss([block('a', 1, { reviewMinutes: 130 }), block('b', 2)], many)).toBe(
      6.5,
    );
  });

  it('tells where the first root stood, and who is new among the first', () => {
    const now = ranking(['pump', 6], ['seal', 4], ['rope', 0.1]);
    const before = ranking(['seal', 5], ['pump', 4.5], ['knot', 1]);
    expect(topRootChange(now, before)).toMatchObject({
      root: { conceptId: 'pump' },
      before: { place: 2, traced: 4.5 },
    });
    expect(topRootChange(now, undefined)?.before).toBeUndefined();
    expect(topRootChange(ranking(['pump', 0.2]), before)).toBeUndefined();
    expect(newAmongFirst(now, before, 1)).toEqual(['pump']);
    expect(newAmongFirst(now, before, 3)).toEqual([]);
  });
});
