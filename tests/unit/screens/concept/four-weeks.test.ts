import { describe, expect, it } from 'vitest';
import { fourWeeks } from '../../../../src/screens/concept/four-weeks';

describe('the course of a concept', () => {
  it('is summed in stretches of four weeks back to the first day, oldest first', () => {
    const asked = [
      { day: 200, traced: 0, asked: 1 },
      { day: 173, traced: 0, asked: 1 }, // the first day of the last stretch
      { day: 172, traced: 0, asked: 1 }, // the last of the one before
    ];
    const misses = [
      { day: 199, traced: 0.5, asked: 0 },
      { day: 117, traced: 0.25, asked: 0 },
    ];
    expect(fourWeeks(200, asked, misses)).toEqual([
      { last: 144, traced: 0.25, asked: 0 },
      { last: 172, traced: 0, asked: 1 },
      { last: 200, traced: 0.5, asked: 2 },
    ]);
  });

  it('is empty where nothing was asked, and leaves out what is older than half a year', () => {
    expect(fourWeeks(200, [])).toEqual([]);
    expect(fourWeeks(200, [{ day: 200 - 6 * 28, traced: 1, asked: 1 }])).toEqual([]);
  });
});
