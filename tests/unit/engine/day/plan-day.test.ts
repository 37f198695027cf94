import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planDay } from '../../../../src/engine/index';

const at = (hours: number, minutes = 0) => hours * 60 + minutes;

describe('planDay', () => {
  it('lays work in order with a pause after each fifty minutes, by hand', () => {
    const plan = planDay({
      tasks: [
        { kind: 'block', minutes: 60 },
        { kind: 'looks', minutes: 15 },
      ],
      startMinutes: at(18),
      workMinutes: 120,
      bedtimeMinutes: at(23),
    });
    expect(plan.slots).toEqual([
      { kind: 'block', from: at(18), until: at(18, 50), shortened: false },
      { kind: 'pause', from: at(18, 50), until: at(19), shortened: false },
      { kind: 'block', from: at(19), until: at(19, 10), shortened: false },
      { kind: 'looks', from: at(19, 10), until: at(19, 25), shortened: false },
    ]);
    expect(plan.workMinutes).toBe(75);
  });

  it('gives each its least first, then the rest in order, and leaves out what has no room', () => {
    const plan = planDay({
      tasks: [
        { kind: 'review', minutes: 80, leastMinutes: 20 },
        { kind: 'block', minutes: 55 },
        { kind: 'huge', minutes: 90 },
        { kind: 'looks', minutes: 3 },
      ],
      startMinutes: at(20),
      workMinutes: 90,
      bedtimeMinutes: at(22, 30),
    });
    // Until 21:30 there are 50 minutes, a pause and 30: 20 + 55 + 3, and 2 over for the review.
    expect(plan.slots).toEqual([
      { kind: 'review', from: at(20), until: at(20, 22), shortened: true },
      { kind: 'block', from: at(20, 22), until: at(20, 50), shortened: false },
      { kind: 'pause', from: at(20, 50), until: at(21), shortened: false },
      { kind: 'block', from: at(21), until: at(21, 27), shortened: false },
      { kind: 'looks', from: at(21, 27), until: at(21, 30), shortened: false },
    ]);
    expect(plan.leftOut.map(({ kind }) => kind)).toEqual(['huge']);
    const short = planDay({
      tasks: [
        { kind: 'block', minutes: 60 },
        { kind: 'review', minutes: 80, leastMinutes: 20 },
      ],
      startMinutes: at(20),
      workMinutes: 30,
    });
    expect(short.slots).toEqual([
      { kind: 'review', from: at(20), until: at(20, 30), shortened: true },
    ]);
  });

  it('does not part what is done against the clock, and rests before it where much came first', () => {
    const block = { kind: 'block', minutes: 60, whole: true };
    const after = (minutes: number, bedtimeMinutes = at(23)) =>
      planDay({
        tasks: [
          { kind: 'looks', minutes },
          block,
          { kind: 'reading', minutes: 20, leastMinutes: 5 },
        ],
        startMinutes: at(18),
        workMinutes: 180,
        bedtimeMinutes,
      }).slots.map(({ kind, from, until }) => `${kind} ${from - at(18)}-${until - at(18)}`);
    expect(after(10)).toEqual(['looks 0-10', 'block 10-70', 'pause 70-80', 'reading 80-100']);
    expect(after(30)).toEqual([
      'looks 0-30',
      'pause 30-40',
      'block 40-100',
      'pause 100-110',
      'reading 110-130',
    ]);
    // Work until 20:00: the second pause leaves 10 minutes of the 20 for reading.
    expect(after(30, at(21))).toEqual([
      'looks 0-30',
      'pause 30-40',
      'block 40-100',
      'pause 100-110',
      'reading 110-120',
    ]);
    // Until 19:30 there is no room for the block.
    expect(after(30, at(20, 30))).toEqual(['looks 0-30', 'reading 30-50']);
  });

  it('plans nothing when bedtime is near or past', () => {
    const late = {
      tasks: [{ kind: 'looks', minutes: 5 }],
      workMinutes: 60,
      bedtimeMinutes: at(23),
    };
    expect(planDay({ ...late, startMinutes: at(22) }).slots).toEqual([]);
    expect(planDay({ ...late, startMinutes: at(23, 30) }).leftOut).toHaveLength(1);
  });

  it('never works beyond the minutes given, into the hour before bed, or fifty minutes in a row save for what is whole', () => {
    const task = fc.record({
      kind: fc.constantFrom('a', 'b', 'c'),
      minutes: fc.integer({ min: 0, max: 200 }),
      leastMinutes: fc.option(fc.integer({ min: 1, max: 60 }), { nil: undefined }),
      whole: fc.boolean(),
    });
    fc.assert(
      fc.property(
        fc.array(task, { maxLength: 6 }),
        fc.integer({ min: 0, max: 1_400 }),
        fc.integer({ min: 0, max: 600 }),
        fc.integer({ min: 0, max: 1_700 }),
        (tasks, startMinutes, workMinutes, bedtimeMinutes) => {
          const { slots } = planDay({ tasks, startMinutes, workMinutes, bedtimeMinutes });
          const longest = Math.max(0, ...tasks.map(({ minutes, whole }) => (whole ? minutes : 0)));
          let clock = startMinutes;
          let work = 0;
          let stretch = 0;
          for (const { kind, from, until } of slots) {
            expect(from).toBe(clock);
            expect(until).toBeGreaterThan(from);
            clock = until;
            if (kind === 'pause') stretch = 0;
            else {
              work += until - from;
              stretch += until - from;
            }
            expect(stretch).toBeLessThanOrEqual(Math.max(50, 15 + longest));
          }
          expect(work).toBeLessThanOrEqual(workMinutes);
          if (slots.length > 0) expect(clock).toBeLessThanOrEqual(bedtimeMinutes - 60);
          expect(slots.at(-1)?.kind).not.toBe('pause');
        },
      ),
    );
  });
});
