import { describe, expect, it } from 'vitest';
import { randomFrom } from '../../../../src/engine/numeric/random';
import { drawPoisson } from '../../../../src/engine/numeric/sampling';
import { compareSince } from '../../../../src/engine/reading/since';

describe('compareSince', () => {
  it('calls few misses what they are: luck', () => {
    expect(compareSince({ misses: 3, items: 200 }, { misses: 1, items: 150 })?.verdict).toBe(
      'could be luck',
    );
  });

  it('sees a clear fall, a clear rise, and gives rates in 100 items', () => {
    const fall = compareSince({ misses: 30, items: 400 }, { misses: 4, items: 200 });
    expect(fall).toMatchObject({ before: 7.5, since: 2, verdict: 'fewer' });
    expect(compareSince({ misses: 4, items: 400 }, { misses: 30, items: 300 })?.verdict).toBe(
      'more',
    );
  });

  it('has nothing to compare without items on both sides or without a miss', () => {
    expect(compareSince({ misses: 3, items: 100 }, { misses: 0, items: 0 })).toBeUndefined();
    expect(compareSince({ misses: 0, items: 100 }, { misses: 0, items: 80 })).toBeUndefined();
  });

  it('turns over when before and since change places', () => {
    const there = compareSince({ misses: 12, items: 300 }, { misses: 5, items: 160 })!;
    const back = compareSince({ misses: 5, items: 160 }, { misses: 12, items: 300 })!;
    expect(back.ratioInterval[0]).toBeCloseTo(1 / there.ratioInterval[1], 8);
  });

  it('holds the true ratio about 90 times in 100', () => {
    const random = randomFrom(31);
    let held = 0;
    const runs = 4_000;
    for (let i = 0; i < runs; i++) {
      const before = drawPoisson(random, 18);
      const since = drawPoisson(random, 7.2);
      // Rates 0.06 and 0.036 an item: a true ratio of 0.6.
      const found = compareSince({ misses: before, items: 300 }, { misses: since, items: 200 });
      if (found && found.ratioInterval[0] <= 0.6 && found.ratioInterval[1] >= 0.6) held += 1;
    }
    // The Jeffreys interval is close to 90 %; 4,000 draws err by 0.5 %, counts are coarse.
    expect(held / runs).toBeGreaterThan(0.87);
    expect(held / runs).toBeLessThan(0.94);
  });
});
