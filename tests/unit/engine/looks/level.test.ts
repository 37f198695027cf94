import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { levelDay, lookUse, mixSystems } from '../../../../src/engine/index';
import { chanceOfHolding, mostWaitingDays } from '../../../../src/engine/looks/level';
import type { LocalDay } from '../../../../src/model/time';

const day = (value: number) => value as LocalDay;
const look = (id: string, due: number, gapDays: number, worth = 1) => ({
  id,
  due: day(due),
  gapDays,
  worth,
});

describe('levelDay', () => {
  it('takes the most useful first and says which are let go', () => {
    const looks = [
      look('old and sure', 99, 40),
      look('fell yesterday', 99, 1),
      look('worth much', 100, 40, 5),
      look('tomorrow', 101, 1),
    ];
    const levelled = levelDay(looks, day(100), 1, day(101));
    expect(levelled.today.map(({ id }) => id)).toEqual(['worth much']);
    expect(levelled.waiting.map(({ id }) => id)).toEqual(['fell yesterday']);
    expect(levelled.letGo.map(({ id }) => id)).toEqual(['old and sure']);
  });

  it('never plans more than a day holds, lets nothing pile up, loses nothing, lets go the least useful', () => {
    const looks = fc.array(
      fc.record({
        due: fc.integer({ min: 60, max: 110 }),
        gap: fc.integer({ min: 1, max: 60 }),
        worth: fc.double({ min: 0.1, max: 9, noNaN: true }),
      }),
      { maxLength: 80 },
    );
    fc.assert(
      fc.property(looks, fc.integer({ min: 0, max: 12 }), (drawn, perDay) => {
        const all = drawn.map(({ due, gap, worth }, k) => look(`m${k}`, due, gap, worth));
        const { today, waiting, letGo } = levelDay(all, day(100), perDay, undefined);
        expect(today.length).toBeLessThanOrEqual(perDay);
        expect(waiting.length).toBeLessThanOrEqual(mostWaitingDays * perDay);
        const everyone = [...today, ...waiting, ...letGo];
        expect(everyone.length).toBe(all.filter(({ due }) => due <= 100).length);
        const uses = everyone.map((each) => lookUse(each, day(100)));
        uses.forEach((use, k) => {
          if (k > 0) expect(use).toBeLessThanOrEqual(uses[k - 1]!);
        });
      }),
    );
  });

  it('reckons 0.8 at the end of the gap, and less the longer it is over', () => {
    expect(chanceOfHolding(0)).toBe(1);
    expect(chanceOfHolding(1)).toBeCloseTo(0.8, 12);
    expect(chanceOfHolding(3)).toBeCloseTo(0.64, 12);
  });
});

describe('mixSystems', () => {
  const systemOf = (id: string) => id[0];
  it('changes system at every step where that is possible', () => {
    expect(mixSystems(['h1', 'h2', 'h3', 'k1', 'l1'], systemOf)).toEqual([
      'h1',
      'k1',
      'h2',
      'l1',
      'h3',
    ]);
  });

  it('keeps all, keeps the order within a system, and has the fewest neighbours alike', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom('a', 'b', 'c', 'd')), (systems) => {
        const looks = systems.map((system, k) => `${system}${k}`);
        const mixed = mixSystems(looks, systemOf);
        expect([...mixed].sort()).toEqual([...looks].sort());
        for (const system of 'abcd') {
          const of = (list: string[]) => list.filter((id) => id.startsWith(system));
          expect(of(mixed)).toEqual(of(looks));
        }
        const alike = mixed.filter((id, k) => k > 0 && id[0] === mixed[k - 1]![0]).length;
        const counts = ['a', 'b', 'c', 'd'].map(
          (s) => looks.filter((id) => id.startsWith(s)).length,
        );
        const most = Math.max(...counts);
        // With most of one system, only looks of other systems can stand between them.
        expect(alike).toBe(Math.max(0, most - 1 - (looks.length - most)));
      }),
    );
  });
});
