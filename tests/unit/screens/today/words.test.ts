import { describe, expect, it } from 'vitest';
import type { LocalDay } from '../../../../src/model/time';
import { minutesText, missesText, sinceText } from '../../../../src/screens/reading/reading-words';
import { changeText, countdownText, slotText } from '../../../../src/screens/today/today-words';
import type { ReadingSince } from '../../../../src/state/reading-plan';
import type { RootChange } from '../../../../src/state/today-facts';

const day = (value: number) => value as LocalDay;

describe('the words of Today and Read next', () => {
  it('count down to the paper, through it, and past it', () => {
    expect(countdownText(day(100), day(140))).toBe('40 days to paper day');
    expect(countdownText(day(100), day(101))).toBe('The paper is tomorrow');
    expect(countdownText(day(100), day(100))).toBe('Paper day is today');
    expect(countdownText(day(100), day(99))).toBe('Paper day was 1 day ago');
  });

  it('write clock times past midnight as the clock shows them', () => {
    expect(slotText(1_420, 1_455)).toBe('23:40 to 00:15');
  });

  it('say how the top root moved', () => {
    const change = (traced: number, before: RootChange['before']) =>
      changeText({ root: { traced } as RootChange['root'], before });
    expect(change(6, { place: 3, traced: 4.5 })).toBe(
      'A week ago it stood at 3; its traced misses went up by 1.5.',
    );
    expect(change(4, { place: 1, traced: 4.02 })).toBe(
      'It stood first a week ago too, with as many traced misses.',
    );
    expect(change(4, undefined)).toBe('Nothing was traced to it a week ago.');
  });

  it('write minutes and small numbers so that nothing reads as none', () => {
    expect([0.2, 59.4, 60, 95].map(minutesText)).toEqual(['1 min', '59 min', '1 h', '1 h 35 min']);
    expect([0, 0.04, 1.26].map(missesText)).toEqual(['0.0', 'under 0.1', '1.3']);
  });

  it('say what the misses did, and that few say little', () => {
    const entry = { missesBefore: 4, itemsBefore: 120, missesSince: 1, itemsSince: 80 };
    const text = sinceText({
      ...entry,
      since: { before: 3.3, since: 1.25, ratioInterval: [0.1, 1.9], verdict: 'could be luck' },
    } as unknown as ReadingSince);
    expect(text).toBe(
      '1 in 80 items since, 4 in 120 in the eight weeks before. That could be luck: 0.1 to 1.9 times as often as before (90% interval).',
    );
    const none = { ...entry, itemsSince: 0, since: undefined } as unknown as ReadingSince;
    expect(sinceText(none)).toMatch(/nothing to compare yet/);
  });
});
