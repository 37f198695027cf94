import { describe, expect, it } from 'vitest';
import { randomFrom } from '../../../../src/engine/numeric/random';
import { foretell } from '../../../../src/engine/roots/foretell';
import type { TraceLog } from '../../../../src/engine/roots/tracing';

const msPerDay = 86_400_000;

/** Blocks of 20 items a day apart, on four concepts with chances to miss of their own. */
function log(blockCount: number, seed: number): TraceLog {
  const random = randomFrom(seed);
  const chances = { keel: 0.5, mast: 0.1, sail: 0.1, rope: 0.25 };
  const names = Object.keys(chances) as (keyof typeof chances)[];
  const items = Array.from({ length: blockCount * 20 }, (_, i) => {
    const topic = names[Math.floor(random.uniform() * 4)]!;
    return {
      id: `i${i}`,
      at: Math.floor(i / 20) * msPerDay,
      missed: random.uniform() < chances[topic],
      topics: [topic],
      causes: [],
    };
  });
  const concepts = names.map((id) => ({ id, systems: ['deck'], restsOn: [] }));
  return { now: blockCount * msPerDay, concepts, items, unitemised: [], readings: [] };
}

describe('foretell', () => {
  it('needs 400 items, some of them right', () => {
    expect(foretell(log(5, 1)).kind).toBe('few-items');
    const only = log(40, 1);
    expect(
      foretell({ ...only, items: only.items.map((item) => ({ ...item, missed: true })) }).kind,
    ).toBe('misses-only');
  });

  it('foretells every later block from what came before it, and nothing from what came after', () => {
    const found = foretell(log(40, 2));
    expect(found.kind).toBe('foretold');
    for (const { madeAt, at, items, right, expectedRight } of found.blocks) {
      expect(at).toBeGreaterThanOrEqual(madeAt);
      expect(items).toBe(20);
      expect(right).toBeLessThanOrEqual(20);
      expect(expectedRight).toBeGreaterThan(0);
    }
    // Ten stretches of the last 70 %: each item of them foretold once at short reach.
    expect(found.items.length).toBe(560);
    // What happens in the last block cannot change what was foretold of any block.
    const changed = log(40, 2);
    const last = Math.max(...changed.items.map(({ at }) => at));
    const other = foretell({
      ...changed,
      items: changed.items.map((item) =>
        item.at === last ? { ...item, missed: !item.missed } : item,
      ),
    });
    expect(other.blocks.map(({ expectedRight }) => expectedRight)).toEqual(
      found.blocks.map(({ expectedRight }) => expectedRight),
    );
  });

  it('is right on average, and knows the harder topic', () => {
    const found = foretell(log(80, 3));
    // Mean chance to miss (.5 + .1 + .1 + .25) / 4 = .2375; 1,600 items have a standard error of .011.
    expect(Math.abs(found.now - 0.7625)).toBeLessThan(0.04);
    const sum = (part: (item: { chance: number; right: boolean }) => number) =>
      found.items.reduce((total, item) => total + part(item), 0);
    expect(
      Math.abs(sum(({ chance }) => chance) - sum(({ right }) => Number(right))) /
        found.items.length,
    ).toBeLessThan(0.05);
    expect(
      Math.max(...found.items.map(({ chance }) => chance)) -
        Math.min(...found.items.map(({ chance }) => chance)),
    ).toBeGreaterThan(0.2);
  });
});
