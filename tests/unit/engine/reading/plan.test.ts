import { describe, expect, it } from 'vitest';
import { planReadings } from '../../../../src/engine/index';
import { bestByTryingAll, plainGain, plainGreedy } from '../../../oracles/engine/best-readings';
import { randomInstance } from '../../../oracles/engine/random-readings';

/** Main or touched, as the app writes them. */
const graded = (uniform: number) => (uniform < 0.5 ? 0.6 : 0.3);

const reading = (id: string, minutes: number, main: string, touched?: string) => ({
  id,
  minutes,
  covers: [{ concept: main, degree: 0.6 }, ...(touched ? [{ concept: touched, degree: 0.3 }] : [])],
});

describe('planReadings', () => {
  it('counts a second reading on the same concept only for what the first leaves, by hand', () => {
    const plan = planReadings({
      readings: [reading('long', 40, 'buffer'), reading('short', 10, 'buffer', 'shunt')],
      worth: new Map([
        ['buffer', 5],
        ['shunt', 2],
      ]),
      budgetMinutes: 60,
    });
    // 5 (1 - 0.4 * 0.4) + 2 * 0.3
    expect(plan.gain).toBeCloseTo(4.8, 12);
    expect(plan.minutesLeft).toBe(10);
    const long = plan.readings.find(({ id }) => id === 'long');
    expect(long?.lossWithout).toBeCloseTo(5 * 0.4 * 0.6, 12);
    expect(plan.readings.reduce((sum, { gain }) => sum + gain, 0)).toBeCloseTo(plan.gain, 12);
  });

  it('finds the best of every set on 200 small graded problems, or says a true bound', () => {
    let sum = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const instance = randomInstance(seed, 3 + (seed % 8), 7, graded);
      const { readings, worth, budgetMinutes } = instance;
      const best = bestByTryingAll(readings, worth, budgetMinutes);
      const plan = planReadings(instance);
      const set = readings.filter(({ id }) => plan.readings.some((chosen) => chosen.id === id));
      expect(plan.gain, `seed ${seed}`).toBeCloseTo(plainGain(set, worth), 9);
      expect(plan.bound, `seed ${seed}`).toBeGreaterThanOrEqual(best - 1e-9);
      if (best > 0) expect(plan.gain / best).toBeGreaterThanOrEqual(1 - 1 / Math.E);
      sum += best > 0 ? plan.gain / best : 1;
    }
    expect(sum / 200).toBeGreaterThan(0.999);
  });

  it('is never worse than plain greedy, with no work allowed for more', () => {
    for (let seed = 1; seed <= 25; seed++) {
      const instance = randomInstance(seed, 150, 90, graded);
      const plain = plainGreedy(instance.readings, instance.worth, instance.budgetMinutes);
      const lazy = planReadings(instance, { mostEvaluations: 0 });
      expect(lazy.gain, `seed ${seed}`).toBeGreaterThanOrEqual(plain.gain - 1e-9);
      const plan = planReadings(instance);
      expect(plan.gain, `seed ${seed}`).toBeGreaterThanOrEqual(lazy.gain - 1e-9);
      expect(plan.gain / plan.bound, `seed ${seed}`).toBeGreaterThan(1 - 1 / Math.E);
    }
  });

  it('works out few gains where plain greedy works out all, each time', () => {
    const instance = randomInstance(4, 2_000, 2_000, graded);
    const plan = planReadings(instance, { mostEvaluations: 0 });
    // One look at all, the bounds beside it, and a handful again for each reading taken.
    expect(plan.evaluations).toBeLessThan(2_000 * (plan.readings.length + 5));
  });

  it('does not depend on the order in which readings are given', () => {
    const instance = randomInstance(9, 14, 9, graded);
    const plan = planReadings(instance);
    const turned = planReadings({ ...instance, readings: instance.readings.toReversed() });
    expect(turned.gain).toBeCloseTo(plan.gain, 9);
  });

  it('keeps what is pinned even over the budget, leaves out what is refused, and names the next best', () => {
    const input = {
      readings: [
        reading('dull', 30, 'rare'),
        reading('best', 20, 'buffer'),
        reading('second', 20, 'shunt'),
        reading('third', 20, 'gap'),
      ],
      worth: new Map([
        ['rare', 0],
        ['buffer', 9],
        ['shunt', 5],
        ['gap', 3],
      ]),
      budgetMinutes: 50,
    };
    const plan = planReadings({ ...input, pinned: ['dull'], refused: ['best'] });
    expect(plan.readings.map(({ id }) => id).sort()).toEqual(['dull', 'second']);
    const second = plan.readings.find(({ id }) => id === 'second');
    expect(second?.lossWithout).toBeCloseTo(3, 12);
    expect(second?.nextBest).toEqual({ id: 'third', gain: expect.closeTo(1.8, 12) as number });
    const over = planReadings({ ...input, budgetMinutes: 10, pinned: ['dull'] });
    expect(over.minutesLeft).toBe(-20);
  });

  it('plans nothing in no minutes, with no readings, or with nothing worth reading', () => {
    const worth = new Map([['buffer', 4]]);
    const readings = [reading('a', 5, 'buffer')];
    expect(planReadings({ readings, worth, budgetMinutes: 0 }).readings).toEqual([]);
    expect(planReadings({ readings: [], worth, budgetMinutes: 60 }).gain).toBe(0);
    expect(planReadings({ readings, worth: new Map(), budgetMinutes: 60 }).readings).toEqual([]);
  });

  it('names the reading that is wrong', () => {
    const worth = new Map([['buffer', 4]]);
    const plan = (...readings: ReturnType<typeof reading>[]) =>
      planReadings({ readings, worth, budgetMinutes: 60 });
    expect(() => plan(reading('a', 0, 'buffer'))).toThrow(/0 minutes for "a"/);
    expect(() => plan(reading('a', 5, 'buffer'), reading('a', 6, 'buffer'))).toThrow(/"a" twice/);
    expect(() => plan(reading('a', 5, 'buffer', 'buffer'))).toThrow(/covers "buffer" twice/);
    expect(() => planReadings({ readings: [], worth, budgetMinutes: NaN })).toThrow(
      /budget of NaN/,
    );
  });
});
