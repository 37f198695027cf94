import { texts } from './texts';
/**
 * Item numbers as people write them, runs drawn together: "3, 7, 12-15".
 *
 * @param numbers ascending, each once
 * @param mostParts numbers and runs that are written out; of the rest only how many items there are
 *
 * @example
 * rangesText([3, 7, 12, 13, 14]); // '3, 7, 12-14'
 * rangesText([1, 3, 5, 7], 2); // '1, 3 and 2 more'
 */
export function rangesText(numbers: readonly number[], mostParts = Infinity): string {
  const parts: string[] = [];
  for (let from = 0; from < numbers.length;) {
    if (parts.length >= mostParts)
      return texts.itemRanges.andMore(parts.join(', '), numbers.length - from);
    let to = from;
    while (numbers[to + 1] === numbers[to]! + 1) to += 1;
    // Two in a row read better as two numbers.
    if (to - from < 2) parts.push(...numbers.slice(from, to + 1).map(String));
    else parts.push(`${numbers[from]}-${numbers[to]}`);
    from = to + 1;
  }
  return parts.join(', ');
}
