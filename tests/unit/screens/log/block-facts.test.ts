import { describe, expect, it } from 'vitest';
import type { Block, Item } from '../../../../src/model/log';
import { isReviewed } from '../../../../src/model/log';
import { blockFacts } from '../../../../src/screens/log/block-facts';

const block = (fields: object = {}) =>
  ({ id: 'b', itemCount: 20, mixed: true, ...fields }) as unknown as Block;

const item = (position: number, fields: object = {}) =>
  ({
    id: `i${position}`,
    block: 'b',
    position,
    outcome: 'missed',
    topics: [],
    causes: [],
    missingPiece: '',
    ...fields,
  }) as unknown as Item;

describe('isReviewed', () => {
  it.each([
    ['a topic and the missing piece', { topics: ['pump'], missingPiece: 'It leaks.' }, true],
    ['a cause and a reason', { causes: ['seal'], reason: 'misread' }, true],
    ['a topic alone', { topics: ['pump'] }, false],
    ['a topic and a blank missing piece', { topics: ['pump'], missingPiece: ' \n ' }, false],
    [
      'a reason and the missing piece alone',
      { reason: 'misread', missingPiece: 'It leaks.' },
      false,
    ],
    ['nothing', {}, false],
  ])('of a miss with %s', (_what, fields, reviewed) => {
    expect(isReviewed(item(1, fields))).toBe(reviewed);
  });
});

describe('blockFacts', () => {
  it('counts misses, those reviewed, and no item answered right', () => {
    const facts = blockFacts(block(), [
      item(3, { topics: ['pump'], reason: 'misread' }),
      item(5),
      item(7),
      item(8, { outcome: 'right', topics: ['pump'], reason: 'misread' }),
      item(9, { outcome: 'guessed-right' }),
    ]);
    expect(facts).toEqual({ missed: 3, missedStated: 3, reviewed: 1, contradictions: [] });
  });

  it('says the misses that the block itself states, where it states them', () => {
    const facts = blockFacts(block({ missedCount: 6 }), [item(3), item(5)]);
    expect(facts).toMatchObject({ missed: 2, missedStated: 6, contradictions: [] });
    expect(blockFacts(block({ missedCount: 0 }), [])).toMatchObject({ missedStated: 0 });
  });

  it('L5 says no more than a dozen numbers of a long row', () => {
    const odd = Array.from({ length: 240 }, (_, i) => item(21 + 2 * i));
    expect(blockFacts(block(), odd).contradictions).toEqual([
      'The block says 20 items, but 240 items beyond that are marked: 21, 23, 25, 27, 29, 31, 33, 35, 37, 39, 41, 43 and 228 more. Raise the number of items, or unmark them.',
    ]);
  });

  it('L5 says when a timed block took longer than it was given, and not when nobody timed it', () => {
    const times = { minutesGiven: 60, minutesUsed: 75 };
    expect(blockFacts(block({ ...times, timed: true }), []).contradictions).toEqual([
      'The block was timed at 60 minutes, but 75 were used.',
    ]);
    expect(blockFacts(block({ ...times, timed: false }), []).contradictions).toEqual([]);
    expect(
      blockFacts(block({ ...times, minutesUsed: 60, timed: true }), []).contradictions,
    ).toEqual([]);
  });

  it('L5 says which marked items lie beyond the number of items, in order', () => {
    const beyond = [item(23), item(4), item(21, { outcome: 'right' })];
    expect(blockFacts(block(), beyond).contradictions).toEqual([
      'The block says 20 items, but 2 items beyond that are marked: 21, 23. Raise the number of items, or unmark them.',
    ]);
    expect(blockFacts(block(), [item(20), item(22)]).contradictions[0]).toContain(
      '1 item beyond that is marked: 22.',
    );
    expect(blockFacts(block(), [item(20)]).contradictions).toEqual([]);
  });

  it('L5 says when more items are marked as missed than the block states', () => {
    const marked = [item(1), item(2), item(3), item(4, { outcome: 'right' })];
    expect(blockFacts(block({ missedCount: 2 }), marked).contradictions).toEqual([
      'The block says 2 missed, but 3 are marked as missed.',
    ]);
    expect(blockFacts(block({ missedCount: 3 }), marked).contradictions).toEqual([]);
  });

  it('L5 says when the block states more misses than it has items', () => {
    expect(blockFacts(block({ missedCount: 21 }), []).contradictions).toEqual([
      'The block says 21 missed of 20 items.',
    ]);
    expect(blockFacts(block({ missedCount: 20 }), []).contradictions).toEqual([]);
  });

  it('L5 says when a block of one system names none', () => {
    expect(blockFacts(block({ mixed: false }), []).contradictions).toEqual([
      'The block is marked as one system, but no system is chosen.',
    ]);
    expect(blockFacts(block({ mixed: false, system: 'deck' }), []).contradictions).toEqual([]);
  });

  it('L5 says every contradiction at once and mends none', () => {
    const stored = block({ mixed: false, missedCount: 1, itemCount: 0 });
    const items = [item(1), item(2)];
    const [blockBefore, itemsBefore] = structuredClone([stored, items] as const);
    expect(blockFacts(stored, items).contradictions).toHaveLength(4);
    expect([stored, items]).toEqual([blockBefore, itemsBefore]);
  });
});
