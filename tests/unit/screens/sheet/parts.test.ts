/** The small pure parts of the recall sheet's screens. */
import { describe, expect, it } from 'vitest';
import { numberFault, optionalNumber } from '../../../../src/components/number-field';
import { findFittingSize } from '../../../../src/screens/sheet/page-size';
import { texParts } from '../../../../src/components/tex-parts';
import { clockFace, timeText } from '../../../../src/screens/sheet/time-words';

describe('texParts', () => {
  it('cuts a text at its TeX, in the line or alone', () => {
    expect(texParts('a $x^2$ b $$\\frac{a}{b}$$')).toEqual([
      { kind: 'text', text: 'a ' },
      { kind: 'tex', source: 'x^2', display: false },
      { kind: 'text', text: ' b ' },
      { kind: 'tex', source: '\\frac{a}{b}', display: true },
    ]);
  });

  it('leaves prices and lone dollar signs alone, and loses no text', () => {
    for (const text of ['costs 5 $ or 6 $', '$5 and $6', 'a $ b', '', '$$'])
      expect(
        texParts(text)
          .map((part) => (part.kind === 'text' ? part.text : 'TEX'))
          .join(''),
      ).toBe(text);
  });
});

describe('findFittingSize', () => {
  it('takes the largest size that fits, in half points', () => {
    expect(findFittingSize((size) => size <= 10.7)).toBe(10.5);
    expect(findFittingSize(() => true)).toBe(12);
  });

  it('says when not even the smallest fits', () => {
    expect(findFittingSize((size) => size < 9)).toBeUndefined();
  });
});

describe('times in words', () => {
  it('rounds to whole seconds before it splits off minutes', () => {
    expect([0, 59.6, 60, 860].map(timeText)).toEqual(['0 s', '1 min', '1 min', '14 min 20 s']);
    expect([-1, 4.9, 245].map(clockFace)).toEqual(['0:00', '0:04', '4:05']);
  });
});

describe('number fields', () => {
  it('take a number with comma or dot, or nothing', () => {
    expect(['', ' 2,5 ', '2.5'].map(optionalNumber)).toEqual([undefined, 2.5, 2.5]);
  });

  it('say what they need', () => {
    const fault = numberFault(1, 240, true);
    expect(['', '15'].map(fault)).toEqual([undefined, undefined]);
    for (const text of ['0', '241', '1.5', 'ten'])
      expect(fault(text)).toMatch(/whole number from 1 to 240/);
  });
});
