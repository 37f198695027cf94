import { describe, expect, it } from 'vitest';
import {
  chanceText,
  dayText,
  monthText,
  oneDigitText,
  plural,
  shareText,
  usableLocale,
  wholeText,
} from '../../../src/components/locale';
import { findIsoDay } from '../../../src/model/time';

/** The figures in a text, whatever the language of the machine that runs the tests. */
const figuresIn = (text: string) => /\d+/.exec(text)?.[0];

describe('usableLocale', () => {
  it('takes a language that Intl knows, in its canonical form', () => {
    expect(usableLocale('en-gb')).toBe('en-GB');
    expect(usableLocale('de-CH')).toBe('de-CH');
  });

  it.each(['en-US@posix', 'C', '', 'x', 'not a language'])(
    'falls back on British English for "%s", which Intl refuses',
    (language) => {
      expect(() => new Intl.NumberFormat(language)).toThrow(RangeError);
      expect(usableLocale(language)).toBe('en-GB');
    },
  );

  it('gives what Intl can format with', () => {
    for (const language of ['en-US@posix', 'fr', 'zh-Hant-TW'])
      expect(new Intl.NumberFormat(usableLocale(language)).format(7)).toBe('7');
  });
});

describe('shareText', () => {
  it.each([
    [0, '0'],
    [0.01, '1'],
    [0.344, '34'],
    [0.5, '50'],
    [0.99, '99'],
    [1, '100'],
  ])('writes the share %d as %s per cent', (share, figures) => {
    expect(figuresIn(shareText(share))).toBe(figures);
    expect(shareText(share)).not.toMatch(/under|over/);
  });

  it.each([Number.MIN_VALUE, 0.004, 0.0051, 0.009_999])(
    'never writes %d as nought: it is under one per cent',
    (share) => {
      expect(shareText(share)).toMatch(/^under 1\D*$/);
    },
  );

  it.each([0.990_01, 0.995, 0.9999, 1 - Number.EPSILON])(
    'never writes %d as certain: it is over 99 per cent',
    (share) => {
      expect(shareText(share)).toMatch(/^over 99\D*$/);
    },
  );

  it('never writes 0 or 100 per cent for anything in between, and never falls as the share rises', () => {
    let last = 0;
    for (let step = 1; step < 10_000; step += 1) {
      const percent = Number(figuresIn(shareText(step / 10_000)));
      expect(percent).toBeGreaterThanOrEqual(Math.max(1, last));
      expect(percent).toBeLessThanOrEqual(99);
      last = percent;
    }
  });
});

describe('plural', () => {
  it('speaks of one in the singular and of any other number in the plural', () => {
    expect([0, 1, 2].map((count) => plural(count, 'item'))).toEqual([
      '0 items',
      '1 item',
      '2 items',
    ]);
  });

  it('takes a plural that is no added s', () => {
    expect(plural(3, 'miss', 'misses')).toBe('3 misses');
    expect(plural(1, 'miss', 'misses')).toBe('1 miss');
  });

  it('parts thousands as the rest of the app does', () => {
    expect(plural(1_600, 'item')).toBe(`${wholeText(1_600)} items`);
  });
});

describe('numbers and dates', () => {
  it('write one digit after the point, also a nought', () => {
    expect([3, 2.25, 0.04].map(oneDigitText).map((text) => text.replace(',', '.'))).toEqual([
      '3.0',
      '2.3',
      '0.0',
    ]);
  });

  it('write the day that was meant, in whatever zone the machine is', () => {
    const day = findIsoDay('2026-03-12')!;
    expect(dayText(day)).toContain('12');
    expect(dayText(day)).toContain('2026');
    expect(monthText(findIsoDay('2026-12-31')!)).toContain('2026');
  });
});

describe('chanceText', () => {
  it('never says 0 or 100 % of what draws alone agree on', () => {
    expect([chanceText(1), chanceText(0), chanceText(0.42)]).toEqual([
      'over 99%',
      'under 1%',
      '42%',
    ]);
  });
});
