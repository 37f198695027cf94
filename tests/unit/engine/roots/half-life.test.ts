import { describe, expect, test } from 'vitest';
import {
  chooseHalfLife,
  traceRoots,
  type TraceItem,
  type TraceLog,
} from '../../../../src/engine/index';
import { randomFrom } from '../../../../src/engine/numeric/random';

const day = 86_400_000;

/** Twelve topics, forty items a day for `days`; `chanceAt` says how likely topic t is missed that day. */
function logOf(
  days: number,
  perDay: number,
  chanceAt: (topic: number, day: number) => number,
  seed: number,
): TraceLog {
  const random = randomFrom(seed);
  const items: TraceItem[] = [];
  for (let d = 0; d < days; d++)
    for (let k = 0; k < perDay; k++) {
      const topic = Math.floor(random.uniform() * 12);
      const missed = random.uniform() < chanceAt(topic, d);
      items.push({ id: `${d}-${k}`, at: d * day, missed, topics: [`t${topic}`], causes: [] });
    }
  const concepts = Array.from({ length: 12 }, (_, t) => ({
    id: `t${t}`,
    systems: [],
    restsOn: [],
  }));
  return { now: days * day, concepts, items, unitemised: [], readings: [] };
}

describe('chooseHalfLife', () => {
  test('forgets quickly where gaps move from topic to topic', () => {
    const moving = logOf(
      180,
      10,
      (topic, d) => (topic % 6 === Math.floor(d / 30) % 6 ? 0.8 : 0.08),
      71,
    );
    const choice = chooseHalfLife(moving);
    expect(choice.kind).toBe('best');
    expect(choice.halfLifeDays).toBe(30);
    expect(choice.losses.map((each) => each.halfLifeDays)).toEqual([30, 60, 90, 180, Infinity]);
  });

  test('does not forget faster than by default where nothing changes', () => {
    for (const seed of [72, 73, 74, 75, 76, 77]) {
      const steady = logOf(360, 6, (topic) => (topic < 3 ? 0.7 : 0.08), seed);
      expect(chooseHalfLife(steady).halfLifeDays).toBeGreaterThanOrEqual(90);
    }
  });

  test('the losses are those of foretelling each stretch from what came before', () => {
    const log = logOf(40, 12, (topic) => (topic < 3 ? 0.7 : 0.08), 73);
    const choice = chooseHalfLife(log);
    // By hand: 480 items, the first 144 (12 days) teach, ten stretches of 34 rounded up to days.
    let loss = 0;
    let count = 0;
    for (let start = 12; start < 40; start += 3) {
      const before = log.items.filter((item) => item.at < start * day);
      const then = log.items.filter(
        (item) => item.at >= start * day && item.at < (start + 3) * day,
      );
      const result = traceRoots(
        { ...log, now: start * day, items: before },
        { halfLifeDays: 60, tolerance: 1e-6 },
      );
      for (const item of then) {
        const chance = result.missChance(item);
        loss -= Math.log(item.missed ? chance : 1 - chance);
        count += 1;
      }
    }
    expect(choice.itemCount).toBe(count);
    const found = choice.losses.find((each) => each.halfLifeDays === 60)!;
    // The passes it runs stop at a thousandth.
    expect(found.logLoss).toBeCloseTo(loss / count, 3);
  });

  test('leaves the default standing with few items, or without items answered right', () => {
    const few = logOf(10, 12, () => 0.3, 74);
    expect(chooseHalfLife(few)).toEqual({
      halfLifeDays: 90,
      kind: 'few-items',
      losses: [],
      itemCount: 0,
    });
    const misses = logOf(60, 12, () => 1, 75);
    expect(chooseHalfLife(misses).kind).toBe('misses-only');
  });
});

describe('a healed gap', () => {
  test('falls within two weeks of logging and does not linger', () => {
    const healedOn = 60;
    // Topics 0 and 1 are gaps; 0 heals.
    const chance = (topic: number, d: number) =>
      topic === 1 || (topic === 0 && d < healedOn) ? 0.7 : 0.08;
    const at = (d: number) => {
      const log = logOf(d, 40, chance, 76);
      const result = traceRoots(log, { halfLifeDays: 30 });
      const place = result.roots.findIndex((root) => root.conceptId === 't0');
      return {
        place,
        root: result.roots[place]!,
        other: result.roots.find((root) => root.conceptId === 't1')!,
      };
    };
    const before = at(healedOn);
    expect(before.place).toBeLessThan(2);
    const after = at(healedOn + 14);
    expect(after.root.trend).toBeLessThan(0);
    expect(after.root.faultRate).toBeLessThan(0.7 * before.root.faultRate);
    expect(after.root.traced).toBeLessThan(after.other.traced);
    const later = at(healedOn + 60);
    expect(later.root.traced).toBeLessThan(0.35 * later.other.traced);
    expect(later.root.trendInterval![1]).toBeGreaterThan(later.root.trend!);
  });

  test('falls at once to half its evidence when it is read', () => {
    const log = logOf(30, 40, (topic) => (topic === 0 ? 0.7 : 0.08), 77);
    const read = { ...log, readings: [{ at: log.now, concepts: ['t0'] }] };
    const before = traceRoots(log).roots[0]!;
    const after = traceRoots(read).roots.find((root) => root.conceptId === 't0')!;
    expect(after.exposure / before.exposure).toBeCloseTo(0.5, 10);
    expect(after.traced / before.traced).toBeLessThan(0.6);
  });
});
