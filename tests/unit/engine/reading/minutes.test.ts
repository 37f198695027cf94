import { describe, expect, it } from 'vitest';
import { measurePace, readingMinutes } from '../../../../src/engine/reading/minutes';

describe('reading minutes', () => {
  // Brysbaert (2019): 238 words a minute; 1,000 words take 4.2017 minutes, 30 minutes hold 7,140.
  it('reckons words at 238 a minute until a pace is measured', () => {
    expect(readingMinutes({ words: 1_000 })).toBeCloseTo(4.2017, 4);
    expect(readingMinutes({ words: 7_140 })).toBeCloseTo(30, 10);
    expect(readingMinutes({ minutes: 12, words: 9_000 })).toBe(12);
    expect(readingMinutes({})).toBeUndefined();
  });

  it('takes the own pace once half an hour was timed, words and pages apart', () => {
    const pace = measurePace([
      { words: 2_000, tookMinutes: 20 },
      { words: 1_000, tookMinutes: 10 },
      { pages: 5, tookMinutes: 20 },
    ]);
    expect(pace).toMatchObject({ ownWords: true, wordsAMinute: 100, ownPages: false });
    // No own pace of pages yet: 400 words a page at the own words a minute.
    expect(readingMinutes({ pages: 3 }, pace)).toBeCloseTo(12, 10);
    const paged = measurePace([{ pages: 12, tookMinutes: 36 }]);
    expect(readingMinutes({ pages: 4 }, paged)).toBeCloseTo(12, 10);
    expect(measurePace([{ words: 500, tookMinutes: 29 }]).ownWords).toBe(false);
  });
});
