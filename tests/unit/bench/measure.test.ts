import { describe, expect, it } from 'vitest';
import { measureInTurns, pairedRatios, summarise } from '../../bench/measure';

/** A clock that work moves by hand, so that nothing here depends on the machine. */
function handClock() {
  let ms = 0;
  return { now: () => ms, pass: (more: number) => void (ms += more) };
}

describe('measuring in turns', () => {
  it('runs warm-ups untimed, then swaps the order every other round', async () => {
    const { now, pass } = handClock();
    const order: string[] = [];
    const subject = (label: string, costs: number) => ({
      label,
      run: () => {
        order.push(label);
        pass(costs);
      },
    });
    const timings = await measureInTurns([subject('a', 2), subject('b', 7)], {
      repeats: 3,
      warmups: 1,
      now,
    });
    expect(order.join('')).toBe('ab' + 'ab' + 'ba' + 'ab');
    expect(timings).toEqual([
      { label: 'a', ms: [2, 2, 2] },
      { label: 'b', ms: [7, 7, 7] },
    ]);
  });

  it('times a promise to its end', async () => {
    const { now, pass } = handClock();
    const later = async () => {
      pass(1);
      await Promise.resolve();
      pass(4);
    };
    const [timing] = await measureInTurns([{ label: 'later', run: later }], {
      repeats: 1,
      warmups: 0,
      now,
    });
    expect(timing?.ms).toEqual([5]);
  });

  it('refuses to measure nothing', async () => {
    const options = { repeats: 1, warmups: 0, now: () => 0 };
    await expect(measureInTurns([], options)).rejects.toThrow(RangeError);
    const idle = { label: 'idle', run: () => 0 };
    await expect(measureInTurns([idle], { ...options, repeats: 0 })).rejects.toThrow(RangeError);
  });
});

describe('summing up', () => {
  it('gives minimum, median, mean and sample deviation, worked by hand', () => {
    // Mean 5; squared distances 16 + 9 + 1 + 64 = 90; 90 / 3 = 30.
    const { min, median, mean, deviation } = summarise([13, 1, 4, 2]);
    expect([min, median, mean]).toEqual([1, 3, 5]);
    expect(deviation).toBeCloseTo(Math.sqrt(30), 12);
    expect(summarise([9])).toEqual({ min: 9, median: 9, mean: 9, deviation: 0 });
  });

  it('does not sum up nothing, nor pair what does not pair', () => {
    expect(() => summarise([])).toThrow(RangeError);
    expect(() => pairedRatios([1, 2], [1])).toThrow(RangeError);
  });

  it('pairs the rounds', () => {
    expect(pairedRatios([1, 2, 4], [10, 30, 2])).toEqual([10, 15, 0.5]);
  });
});
