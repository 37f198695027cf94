import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { holdsNow, nextLook, type LookSubject } from '../../../../src/engine/index';
import type { LocalDay } from '../../../../src/model/time';

const day = (value: number) => value as LocalDay;
const subject = (since: number, ...looks: [number, 'had-it' | 'not-yet'][]): LookSubject => ({
  id: 'm',
  since: day(since),
  looks: looks.map(([at, outcome]) => ({ day: day(at), outcome })),
});
const due = (s: LookSubject, paper?: number) =>
  nextLook(s, paper === undefined ? undefined : day(paper))?.day;

/** Follows a schedule to its end: looks on their day or some days late. */
function follow(since: number, paper: number, outcomes: boolean[], delays: number[]) {
  const looks: [number, 'had-it' | 'not-yet'][] = [];
  const days: number[] = [];
  for (let k = 0; k < 200; k++) {
    const next = due(subject(since, ...looks), paper);
    if (next === undefined) break;
    const made = next + (delays[k % Math.max(1, delays.length)] ?? 0);
    days.push(next);
    if (made >= paper) break;
    looks.push([made, (outcomes[k] ?? true) ? 'had-it' : 'not-yet']);
  }
  return { looks, days };
}

const since = fc.integer({ min: 0, max: 50 });
const daysLeft = fc.integer({ min: 1, max: 400 });
const outcomes = fc.array(fc.boolean(), { maxLength: 12 });
const delays = fc.array(fc.integer({ min: 0, max: 6 }), { maxLength: 6 });

describe('nextLook', () => {
  it('waits the published gap, then doubles what was kept, by hand', () => {
    // Missed on day 100, paper on day 170: 70 days left, 21 days.
    expect(due(subject(100), 170)).toBe(121);
    // Held after 21 days: 42 more would be day 163, the first of the final week.
    expect(due(subject(100, [121, 'had-it']), 170)).toBe(163);
    // Held on day 110 already (10 days kept): 20 more.
    expect(due(subject(100, [110, 'had-it']), 170)).toBe(130);
    expect(due(subject(100, [121, 'not-yet']), 170)).toBe(122);
    expect(due(subject(100, [121, 'not-yet'], [122, 'had-it']), 170)).toBe(124);
    // Held at the last look in the final week: settled.
    expect(due(subject(100, [121, 'had-it'], [163, 'had-it']), 170)).toBeUndefined();
    expect(due(subject(100, [163, 'not-yet']), 170)).toBe(164);
  });

  it('comes back after three weeks while no paper day is chosen', () => {
    expect(due(subject(100))).toBe(121);
  });

  it('never falls on paper day or after it, and never twice on one day', () => {
    fc.assert(
      fc.property(since, daysLeft, outcomes, delays, (start, left, held, late) => {
        const { looks, days } = follow(start, start + left, held, late);
        let before = start;
        days.forEach((next, k) => {
          expect(next).toBeLessThan(start + left);
          expect(next).toBeGreaterThan(before);
          before = looks[k]?.[0] ?? next;
        });
      }),
    );
  });

  it('lets gaps grow with success, save where paper day cuts the last one short', () => {
    fc.assert(
      fc.property(since, daysLeft, (start, left) => {
        const paper = start + left;
        const { days } = follow(start, paper, [], []);
        const gaps = days.map((next, k) => next - (days[k - 1] ?? start));
        gaps.forEach((gap, k) => {
          if (k === 0) return;
          const cut = days[k]! === paper - 4;
          if (!cut) expect(gap).toBeGreaterThan(gaps[k - 1]!);
        });
      }),
    );
  });

  it('holds to the end: with every look held on its day, the last one is in the final week', () => {
    fc.assert(
      fc.property(since, fc.integer({ min: 8, max: 400 }), (start, left) => {
        const { days } = follow(start, start + left, [], []);
        expect(days.at(-1)).toBeGreaterThanOrEqual(start + left - 7);
      }),
    );
  });

  it('waits at least as long when more time is left, whatever happened before', () => {
    fc.assert(
      fc.property(
        since,
        daysLeft,
        fc.integer({ min: 0, max: 90 }),
        outcomes,
        (start, left, more, held) => {
          const { looks } = follow(start, start + left, held, []);
          for (let k = 0; k <= looks.length; k++) {
            const s = subject(start, ...looks.slice(0, k));
            const sooner = due(s, start + left);
            const later = due(s, start + left + more);
            if (sooner === undefined) continue;
            expect(later).toBeGreaterThanOrEqual(sooner);
          }
        },
      ),
    );
  });

  it('lets a look that was let go wait as long again, but not past its last look', () => {
    const let21 = { ...subject(100), letGo: [day(125)] };
    expect(due(let21, 400)).toBe(125 + 21);
    expect(due({ ...let21, letGo: [day(120)] }, 400)).toBe(121); // it was not due yet
    expect(due(let21, 140)).toBe(136);
  });

  it('takes the last of several looks of one day, in any order of days', () => {
    const mixed = subject(100, [122, 'had-it'], [121, 'had-it'], [121, 'not-yet']);
    expect(due(mixed, 400)).toBe(124);
    expect(holdsNow(mixed)).toBe(true);
    expect(holdsNow(subject(100, [121, 'had-it'], [121, 'not-yet']))).toBe(false);
  });
});
