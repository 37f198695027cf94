import { describe, expect, it } from 'vitest';
import { simulateSteps, simulateToPaper, type SimulationInput } from '../../../../src/engine/index';
import type { LocalDay } from '../../../../src/model/time';

const day = (value: number) => value as LocalDay;
const misses = (count: number, since = 90) =>
  Array.from({ length: count }, (_, k) => ({
    id: `m${k}`,
    since: day(since - (k % 40)),
    looks: [],
    worth: 1 + (k % 3),
  }));

const input: SimulationInput = {
  subjects: misses(200),
  today: day(100),
  paperDay: day(160),
  perDay: 20,
  keptShares: [],
  newMissesPerDay: 0,
  heldBefore: 80,
  notHeldBefore: 20,
  runs: 60,
  seed: 7,
};

describe('simulateToPaper', () => {
  it('settles all when everything holds and every day has room', () => {
    const sure = simulateToPaper({ ...input, heldBefore: 1e9, notHeldBefore: 0 });
    expect(sure.settled).toEqual([1, 1, 1]);
    expect(sure.openMisses).toBe(200);
    expect(sure.unseen).toBe(0);
  });

  it('settles none when no look is made', () => {
    const none = simulateToPaper({ ...input, perDay: 0 });
    expect(none.settled).toEqual([0, 0, 0]);
    expect(none.unseen).toBe(200);
    expect(simulateToPaper({ ...input, keptShares: [0] }).settled).toEqual([0, 0, 0]);
  });

  it('settles about the chance of holding when one look each is all there is time for', () => {
    // Due in the last week once, and a miss that fell has no day left after the last one.
    const one = simulateToPaper({
      ...input,
      subjects: misses(400, 100).map((miss) => ({ ...miss, since: day(90) })),
      today: day(158),
      paperDay: day(159),
      perDay: 1_000,
      heldBefore: 7e6,
      notHeldBefore: 3e6,
      runs: 400,
    });
    // 400 misses at 0.7: a standard error of 0.023, of the median of 400 runs about 0.0014.
    expect(one.settled[1]).toBeGreaterThan(0.69);
    expect(one.settled[1]).toBeLessThan(0.71);
    // 1.645 standard errors on each side, to a third of one.
    expect(one.settled[2] - one.settled[0]).toBeGreaterThan(2 * 1.645 * 0.0229 - 0.015);
    expect(one.settled[2] - one.settled[0]).toBeLessThan(2 * 1.645 * 0.0229 + 0.015);
  });

  it('settles more with more time a day, and fewer when days are skipped', () => {
    const median = (changes: Partial<SimulationInput>) =>
      simulateToPaper({ ...input, subjects: misses(600), ...changes }).settled[1];
    const usual = median({});
    expect(median({ perDay: 40 })).toBeGreaterThan(usual);
    expect(median({ keptShares: [1, 1, 0, 0] })).toBeLessThan(usual);
  });

  it('never plans more looks on a day than it holds, and none from paper day on', () => {
    const { looksByDay } = simulateToPaper({ ...input, subjects: misses(900), newMissesPerDay: 8 });
    expect(looksByDay.map((each) => each.day)).toEqual(
      Array.from({ length: 60 }, (_, d) => 100 + d),
    );
    for (const { most } of looksByDay) expect(most).toBeLessThanOrEqual(20);
  });

  it('is the same for the same seed, and reports each run', () => {
    expect(simulateToPaper(input)).toEqual(simulateToPaper(input));
    const steps = [];
    for (const done of simulateSteps({ ...input, runs: 5 })) steps.push(done);
    expect(steps).toEqual([1, 2, 3, 4, 5]);
  });

  it('has nothing to simulate on paper day or after it', () => {
    expect(simulateToPaper({ ...input, paperDay: day(100) })).toMatchObject({
      openMisses: 0,
      looksByDay: [],
    });
  });
});
