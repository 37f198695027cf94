import { describe, expect, it } from 'vitest';
import { randomFrom } from '../../../../src/engine/numeric/random';
import { changesToFind } from '../../../../src/engine/trends/changed-answers';
import { compareAll, type TrendBlock } from '../../../../src/engine/trends/comparisons';

const many = (count: number, right: number, more: Partial<TrendBlock> = {}): TrendBlock[] =>
  Array.from({ length: count }, (_, i) => ({ items: 40, right: right + (i % 3) - 1, ...more }));
const found = (blocks: readonly TrendBlock[], id: string) =>
  compareAll(blocks, 90).rates.find((each) => each.id === id)!;

describe('compareAll', () => {
  it('puts every block on the side its facts say, and leaves out those it does not know', () => {
    const blocks = [
      ...many(6, 30, { timed: true, secondsGiven: 90, sleepHours: 8, startMinutes: 719 }),
      ...many(4, 30, { timed: false, secondsGiven: 120, sleepHours: 7.4, startMinutes: 720 }),
      ...many(5, 30),
    ];
    for (const id of ['timed', 'minutes', 'sleep', 'hour'])
      expect([found(blocks, id).one.blocks, found(blocks, id).other.blocks], id).toEqual([6, 4]);
  });

  it('counts what lies on the line: 7.5 hours as enough, two hours of review, the paper’s own pace', () => {
    const blocks = many(4, 30, { sleepHours: 7.5, reviewRatio: 2, secondsGiven: 90.4 });
    expect(found(blocks, 'sleep').one.blocks).toBe(4);
    expect(found(blocks, 'review').one.blocks).toBe(3);
    expect(found(blocks, 'minutes').one.blocks).toBe(4);
  });

  it('sets a block against the review of the one before it', () => {
    const blocks = [
      ...many(3, 20, { reviewRatio: 3 }),
      ...many(3, 35, { reviewRatio: 1 }),
      ...many(1, 35),
    ];
    const review = found(blocks, 'review');
    // Of seven, the first has none before it; three follow a long review, three a short one.
    expect([review.one.blocks, review.other.blocks]).toEqual([3, 3]);
    expect(review.one.share).toBeCloseTo((20 + 21 + 34) / 120, 12);
  });

  it('compares the last fifth of placed blocks with the rest of them', () => {
    const timed = many(4, 38, { missedAt: [39, 40], timed: true });
    // Without a clock nothing fades for want of time: such a block is left out.
    const blocks = [...timed, ...many(1, 38, { missedAt: [1, 2], timed: false })].map((block) => ({
      ...block,
      right: 38,
    }));
    const last = found(blocks, 'last-fifth');
    expect(last.one).toMatchObject({ blocks: 4, items: 32, share: 24 / 32 });
    expect(last.other).toMatchObject({ items: 128, share: 1 });
  });

  it('tells a clear difference, a close one, an unclear one and too few', () => {
    expect(
      found([...many(20, 34, { timed: true }), ...many(20, 24, { timed: false })], 'timed')
        .standing,
    ).toBe('differs');
    expect(
      found([...many(60, 30, { timed: true }), ...many(60, 30, { timed: false })], 'timed'),
    ).toMatchObject({ standing: 'close', moreBlocks: 0 });
    const unclear = found(
      [...many(5, 30, { timed: true }), ...many(5, 29, { timed: false })],
      'timed',
    );
    expect(unclear.standing).toBe('unclear');
    expect(unclear.moreBlocks).toBeGreaterThan(0);
    const few = found(
      [...many(20, 30, { timed: true }), ...many(2, 20, { timed: false })],
      'timed',
    );
    expect(few).toMatchObject({ standing: 'few', found: undefined });
    expect(few.moreBlocks).toBeGreaterThan(0);
  });

  it('seldom finds anything in a log where nothing matters', () => {
    const random = randomFrom(44);
    let logs = 0;
    const rounds = 150;
    for (let round = 0; round < rounds; round++) {
      const blocks = Array.from({ length: 60 }, (): TrendBlock => {
        let right = 0;
        for (let i = 0; i < 40; i++) if (random.uniform() < 0.7) right += 1;
        return {
          items: 40,
          right,
          timed: random.uniform() < 0.5,
          mixed: random.uniform() < 0.7,
          startMinutes: 1440 * random.uniform(),
          sleepHours: 6 + 3 * random.uniform(),
          reviewRatio: 4 * random.uniform(),
        };
      });
      if (compareAll(blocks, 90).rates.some(({ standing }) => standing === 'differs')) logs += 1;
    }
    // At most one log in twenty is expected: 7.5 of 150, standard deviation 2.7, and three of them.
    expect(logs).toBeLessThanOrEqual(16);
  });

  it('adjusts every chance for the others', () => {
    const blocks = [
      ...many(20, 33, { timed: true, mixed: true }),
      ...many(20, 30, { timed: false, mixed: false }),
    ];
    const { rates, changed } = compareAll(blocks, 90);
    for (const each of rates)
      if (each.found) expect(each.adjusted).toBeGreaterThanOrEqual(each.found.chance);
    expect(changed.standing).toBe('few');
  });

  it('adds up the changed answers of blocks that tell both kinds', () => {
    const changed = compareAll(many(4, 30, { changed: { toRight: 5, fromRight: 0 } }), 90).changed;
    expect(changed).toMatchObject({ changes: 20, standing: 'differs' });
  });

  it('says how many changes, and blocks at the rate so far, would tell whether they help', () => {
    const told = (count: number, toRight: number, fromRight: number) =>
      compareAll([...many(count, 30, { changed: { toRight, fromRight } }), ...many(9, 30)], 90)
        .changed;
    const needed = changesToFind()!;
    expect(told(4, 1, 1)).toMatchObject({ standing: 'few', moreChanges: needed - 8 });
    const unclear = told(6, 2, 1);
    expect(unclear).toMatchObject({ standing: 'unclear', moreChanges: needed - 18 });
    // Three a block that tells of them.
    expect(unclear.moreBlocks).toBe(Math.ceil((needed - 18) / 3));
    expect(told(50, 1, 1)).toMatchObject({ standing: 'close', moreChanges: 0, moreBlocks: 0 });
    expect(compareAll(many(3, 30), 90).changed.moreBlocks).toBeUndefined();
  });

  it('does without any block', () => {
    for (const each of compareAll([], 90).rates)
      expect(each).toMatchObject({ standing: 'few', moreBlocks: undefined });
  });
});
