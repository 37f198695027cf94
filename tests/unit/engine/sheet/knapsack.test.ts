import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { solveKnapsack, type KnapsackThing } from '../../../../src/engine/sheet/knapsack';

const thing = fc.record({
  weight: fc.integer({ min: 0, max: 20 }),
  value: fc.integer({ min: 0, max: 30 }),
});

/** Every subset tried. */
function bestBySearch(things: readonly KnapsackThing[], capacity: number): number {
  let best = 0;
  for (let subset = 0; subset < 2 ** things.length; subset++) {
    let [weight, value] = [0, 0];
    things.forEach((each, i) => {
      if (Math.floor(subset / 2 ** i) % 2 === 1) {
        weight += each.weight;
        value += each.value;
      }
    });
    if (weight <= capacity) best = Math.max(best, value);
  }
  return best;
}

describe('solveKnapsack', () => {
  it('takes nothing where there is nothing or no room', () => {
    expect(solveKnapsack([], 10)).toEqual({ taken: [], weight: 0, value: 0 });
    expect(solveKnapsack([{ weight: 3, value: 5 }], 2)).toEqual({
      taken: [false],
      weight: 0,
      value: 0,
    });
  });

  it('takes what weighs nothing, and of equal values the lighter', () => {
    expect(solveKnapsack([{ weight: 0, value: 2 }], 0).taken).toEqual([true]);
    expect(
      solveKnapsack(
        [
          { weight: 5, value: 4 },
          { weight: 3, value: 4 },
        ],
        6,
      ).taken,
    ).toEqual([false, true]);
  });

  it('is as good as trying every subset', () => {
    fc.assert(
      fc.property(
        fc.array(thing, { maxLength: 10 }),
        fc.integer({ min: 0, max: 90 }),
        (things, capacity) => {
          const { taken, weight, value } = solveKnapsack(things, capacity);
          const chosen = things.filter((_, i) => taken[i]);
          expect(value).toBe(bestBySearch(things, capacity));
          expect(chosen.reduce((sum, each) => sum + each.value, 0)).toBe(value);
          expect(chosen.reduce((sum, each) => sum + each.weight, 0)).toBe(weight);
          expect(weight).toBeLessThanOrEqual(capacity);
        },
      ),
      { seed: 61, numRuns: 300 },
    );
  });

  it('is worth the same in whatever order the things are listed', () => {
    fc.assert(
      fc.property(fc.array(thing, { maxLength: 25 }), (things) => {
        const backwards = things.toReversed();
        expect(solveKnapsack(backwards, 70).value).toBe(solveKnapsack(things, 70).value);
      }),
      { seed: 62, numRuns: 100 },
    );
  });

  it('names the entry that is wrong', () => {
    expect(() =>
      solveKnapsack(
        [
          { weight: 1, value: 1 },
          { weight: -1, value: 1 },
        ],
        5,
      ),
    ).toThrow(/things\[1\]\.weight/);
    expect(() => solveKnapsack([{ weight: 1, value: NaN }], 5)).toThrow(/things\[0\]\.value/);
    expect(() => solveKnapsack([], -1)).toThrow(/capacity/);
  });
});
