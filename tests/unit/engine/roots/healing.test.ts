/** Gaps that have healed fall, and those that last do not. */
import { describe, expect, test } from 'vitest';
import {
  sampleRoots,
  traceRoots,
  type TraceItem,
  type TraceLog,
} from '../../../../src/engine/index';

const day = 86_400_000;
const topics = Array.from({ length: 20 }, (_, t) => `t${t}`);

/**
 * Eight weeks of two items a day on t0 and on t1, and one a day on every other topic. Up to
 * `healedDaysAgo` three in four of t0 are missed and none after; of t1 three in four all along; of
 * the others one in nine.
 */
function logOf(healedDaysAgo: number, more: Partial<TraceLog> = {}): TraceLog {
  const items: TraceItem[] = [];
  for (let age = 56; age > 0; age--) {
    for (const [t, topic] of topics.entries()) {
      for (let k = 0; k < (t < 2 ? 2 : 1); k++) {
        const place = 2 * age + k;
        const missed =
          t === 0
            ? age > healedDaysAgo && place % 4 !== 0
            : t === 1
              ? place % 4 !== 0
              : (age + 4 * t) % 9 === 0;
        items.push({
          id: `${topic}-${age}-${k}`,
          at: -age * day,
          missed,
          topics: [topic],
          causes: [],
        });
      }
    }
  }
  const concepts = topics.map((id) => ({ id, systems: [], restsOn: [] }));
  return { now: 0, concepts, items, unitemised: [], readings: [], ...more };
}

function chanceOf(log: TraceLog, id: string, heals?: boolean): number {
  const result = traceRoots(log, heals === undefined ? {} : { heals });
  return result.roots.find((root) => root.conceptId === id)!.gapChance;
}

describe('a gap that has healed', () => {
  test('falls within two weeks, where fading alone would let it linger', () => {
    const log = logOf(14);
    expect(chanceOf(log, 't0', false)).toBeGreaterThan(0.9);
    expect(chanceOf(log, 't0')).toBeLessThan(0.1);
    expect(chanceOf(log, 't1')).toBeGreaterThan(0.95);
  });

  test('falls in the sampled result too, and its traced misses with it', async () => {
    const log = logOf(14);
    const options = { sweeps: 60, warmUp: 40, chains: 2, mostDoublings: 0 };
    const lingering = await sampleRoots(log, { ...options, heals: false });
    const result = await sampleRoots(log, options);
    const of = (from: typeof result) => from.roots.find((root) => root.conceptId === 't0')!;
    expect(of(result).gapChance).toBeLessThan(0.2);
    expect(of(result).traced).toBeLessThan(of(lingering).traced / 4);
  });

  test('is believed sooner where it was read about', () => {
    const few = (log: TraceLog): TraceLog => ({
      ...log,
      // Of t0 only the first two of the last two weeks are left.
      items: log.items.filter(({ id, at }) => !id.startsWith('t0-') || at < -13 * day),
    });
    const unread = chanceOf(few(logOf(14)), 't0');
    const read = chanceOf(
      few(logOf(14, { readings: [{ at: -14 * day, concepts: ['t0'] }] })),
      't0',
    );
    expect(read).toBeLessThan(unread);
  });

  test('of which nothing was asked since is still held for one', () => {
    const log = logOf(14);
    const unasked = {
      ...log,
      items: log.items.filter(({ id, at }) => !id.startsWith('t0-') || at < -14 * day),
    };
    expect(chanceOf(unasked, 't0')).toBeGreaterThan(0.8);
  });
});
