import { describe, expect, it } from 'vitest';
import type { Instant } from '../../../../src/model/time';
import { clockWentBack, reviewMinutesAt } from '../../../../src/screens/log/review-time';

const minute = 60_000;
const since = 1_000 * minute;
const running = { reviewMinutes: 10, reviewSince: since as Instant };

describe('reviewMinutesAt', () => {
  it('adds what runs to what is written down, in whole minutes and a day at most', () => {
    expect(reviewMinutesAt({}, since)).toBe(0);
    expect(reviewMinutesAt({ reviewMinutes: 12.4 }, since)).toBe(12);
    expect(reviewMinutesAt(running, since + 24.6 * minute)).toBe(35);
    expect(reviewMinutesAt(running, since + 5_000 * minute)).toBe(1_440);
  });

  it('never takes back what it has shown when the clock is set back', () => {
    expect(reviewMinutesAt(running, since - 60 * minute)).toBe(10);
    expect(reviewMinutesAt(running, since - 60 * minute, 25 * minute)).toBe(35);
    expect(reviewMinutesAt(running, since + 30 * minute, 25 * minute)).toBe(40);
  });
});

describe('clockWentBack', () => {
  it('is true for a jump of over a minute, not for a clock put right by seconds', () => {
    expect(clockWentBack(since, since + 10 * minute, 25 * minute)).toBe(true);
    expect(clockWentBack(since, since - minute - 1, 0)).toBe(true);
    expect(clockWentBack(since, since + 24.5 * minute, 25 * minute)).toBe(false);
    expect(clockWentBack(since, since + 26 * minute, 25 * minute)).toBe(false);
  });
});
