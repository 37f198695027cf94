import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseItemNumbers } from '../../../src/model/item-numbers';

const rangeMarks = ['-', '–', '—', ' to ', ' - ', ' TO ', '- '];
const partMarks = [', ', ',', ' ', '; ', ',,', '\n', ' , '];

/** Numbers as somebody may type them: neighbours joined to ranges where `joined` says so. */
function written(
  numbers: readonly number[],
  joined: boolean,
  rangeMark: string,
  partMark: string,
): string {
  const parts: string[] = [];
  for (let i = 0; i < numbers.length; i += 1) {
    let end = i;
    while (joined && numbers[end + 1] === numbers[end]! + 1) end += 1;
    parts.push(end > i ? `${numbers[i]!}${rangeMark}${numbers[end]!}` : String(numbers[i]));
    i = end;
  }
  return parts.join(partMark);
}

describe('parseItemNumbers', () => {
  it('reads the example of its description', () => {
    expect(parseItemNumbers('3, 7, 12-14', 40)).toEqual({
      kind: 'ok',
      numbers: [3, 7, 12, 13, 14],
    });
  });

  it('reads back any set of numbers, however it was written', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 1, max: 60 }), { maxLength: 30 }),
        fc.boolean(),
        fc.constantFrom(...rangeMarks),
        fc.constantFrom(...partMarks),
        (chosen, joined, rangeMark, partMark) => {
          const numbers = [...chosen].sort((a, b) => a - b);
          expect(parseItemNumbers(written(numbers, joined, rangeMark, partMark), 60)).toEqual({
            kind: 'ok',
            numbers,
          });
        },
      ),
      { numRuns: 300, seed: 11 },
    );
  });

  it('gives numbers ascending and once each, in whatever order they were typed', () => {
    expect(parseItemNumbers('9 2; 4-6 5, 2', 12)).toEqual({
      kind: 'ok',
      numbers: [2, 4, 5, 6, 9],
    });
  });

  it('reads no numbers from an empty text', () => {
    expect(parseItemNumbers(' ,; ', 40)).toEqual({ kind: 'ok', numbers: [] });
  });

  it.each([
    ['3, 50', '50', 'this block has items 1 to 40'],
    ['0', '0', 'this block has items 1 to 40'],
    ['38-41', '38-41', 'this block has items 1 to 40'],
    ['5, 9-4', '9-4', 'write the smaller number first: 4-9'],
    ['3, seven', 'seven', 'write numbers and ranges, as in 3, 7, 12-15'],
    ['3-', '3-', 'write numbers and ranges, as in 3, 7, 12-15'],
    ['-3', '-3', 'write numbers and ranges, as in 3, 7, 12-15'],
    ['1-2-3', '1-2-3', 'write numbers and ranges, as in 3, 7, 12-15'],
    ['2.5', '2.5', 'write numbers and ranges, as in 3, 7, 12-15'],
    ['12345', '12345', 'write numbers and ranges, as in 3, 7, 12-15'],
  ])('takes nothing of "%s" and names the part that is wrong', (text, part, mend) => {
    expect(parseItemNumbers(text, 40)).toEqual({ kind: 'rejected', part, mend });
  });

  it('never throws, and never gives a number the block does not have', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 30 }), fc.integer({ min: 0, max: 50 }), (text, count) => {
        const result = parseItemNumbers(text, count);
        if (result.kind === 'ok')
          expect(result.numbers.every((number) => number >= 1 && number <= count)).toBe(true);
      }),
      { numRuns: 300, seed: 12 },
    );
  });
});
