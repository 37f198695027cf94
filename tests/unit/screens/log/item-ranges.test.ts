import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseItemNumbers } from '../../../../src/model/item-numbers';
import { rangesText } from '../../../../src/screens/log/item-ranges';

describe('rangesText', () => {
  it.each([
    [[], ''],
    [[4], '4'],
    [[3, 7, 12, 13, 14, 15], '3, 7, 12-15'],
    [[1, 2, 5, 6, 7], '1, 2, 5-7'],
  ])('writes %j as people do', (numbers, text) => {
    expect(rangesText(numbers)).toBe(text);
  });

  it('writes no more parts than asked for, and says how many items are left', () => {
    expect(rangesText([1, 3, 5, 7], 2)).toBe('1, 3 and 2 more');
    expect(rangesText([1, 3, 4, 5, 9, 20], 2)).toBe('1, 3-5 and 2 more');
    expect(rangesText([1, 3, 4, 5], 2)).toBe('1, 3-5');
  });

  it('is read back as the same numbers', () => {
    const sets = fc.uniqueArray(fc.integer({ min: 1, max: 60 }), { minLength: 1 });
    fc.assert(
      fc.property(sets, (set) => {
        const numbers = [...set].sort((a, b) => a - b);
        expect(parseItemNumbers(rangesText(numbers), 60)).toEqual({ kind: 'ok', numbers });
      }),
      { seed: 71, numRuns: 200 },
    );
  });
});
