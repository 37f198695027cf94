import { describe, expect, it } from 'vitest';
import { traceRoots, type TraceLog } from '../../../../src/engine/index';
import { popularityShape } from '../../../../src/engine/roots/popularity';

const now = 1_750_000_000_000;

/** Misses of two topics of which nothing rests on anything; the right items are known by count alone. */
function missesOnly(
  misses: { readonly rope: number; readonly pump: number },
  right: number,
): TraceLog {
  const items = Object.entries(misses).flatMap(([topic, count]) =>
    Array.from({ length: count }, (_, i) => ({
      id: `${topic}${i}`,
      at: now,
      missed: true,
      topics: [topic],
      causes: [],
    })),
  );
  return {
    now,
    concepts: ['rope', 'pump'].map((id) => ({ id, systems: [], restsOn: [] })),
    items,
    unitemised: [{ at: now, right, missed: 0 }],
    readings: [],
  };
}

/**
 * Oracle: the density of a topic's rate with the number of its items integrated out by the sum over a
 * fine grid of them, item number and rate being drawn from their priors and the misses Poisson.
 */
function intervalByGrid(missed: number, meanItems: number, slipRate: number): [number, number] {
  const rates = Array.from({ length: 1_200 }, (_, i) => 0.005 * 2_000 ** (i / 1_199));
  const density = rates.map((rate) => {
    const chance = 1 - Math.exp(-(slipRate + rate));
    let sum = 0;
    for (let items = 0.25; items < 40 * meanItems; items += 0.5) {
      const asked = (popularityShape - 1) * Math.log(items) - (popularityShape * items) / meanItems;
      sum += Math.exp(asked + missed * Math.log(items * chance) - items * chance);
    }
    // A gap's rate is a gamma of shape 2 and rate 2; once more by the rate, as the grid is even in its logarithm.
    return sum * rate * Math.exp(-2 * rate) * rate;
  });
  const total = density.reduce((sum, each) => sum + each, 0);
  const at = (share: number): number => {
    let sum = 0;
    return rates[density.findIndex((each) => (sum += each) >= share * total)]!;
  };
  return [at(0.05), at(0.95)];
}

describe('the rate of a gap where right items are known by count alone', () => {
  it.each([
    { rope: 12, pump: 3, right: 85 },
    { rope: 40, pump: 10, right: 150 },
    { rope: 3, pump: 3, right: 94 },
  ])('has the interval of the items integrated out: $rope of $pump and $right', (given) => {
    const result = traceRoots(missesOnly({ rope: given.rope, pump: given.pump }, given.right));
    const meanItems = (given.rope + given.pump + given.right) / 2;
    const [low, high] = result.roots.find(
      ({ conceptId }) => conceptId === 'rope',
    )!.gapFaultInterval;
    const [lowest, highest] = intervalByGrid(given.rope, meanItems, result.slipRate);
    expect(Math.abs(low / lowest - 1)).toBeLessThan(0.03);
    expect(Math.abs(high / highest - 1)).toBeLessThan(0.03);
  });

  it('is wider than where the same right items are known one by one', () => {
    const { items, ...rest } = missesOnly({ rope: 12, pump: 3 }, 85);
    const right = Array.from({ length: 85 }, (_, i) => ({
      id: `right${i}`,
      at: now,
      missed: false,
      topics: [i < 43 ? 'rope' : 'pump'],
      causes: [],
    }));
    const spreadOf = (log: TraceLog) => {
      const [low, high] = traceRoots(log).roots.find(
        ({ conceptId }) => conceptId === 'rope',
      )!.gapFaultInterval;
      return high / low;
    };
    const known = spreadOf({ ...rest, unitemised: [], items: [...items, ...right] });
    expect(spreadOf({ ...rest, items })).toBeGreaterThan(1.5 * known);
  });
});
