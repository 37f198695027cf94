/** Item numbers as people type them: "3, 7, 12-15". */

export type ItemNumbers =
  | { readonly kind: 'ok'; readonly numbers: readonly number[] }
  | { readonly kind: 'rejected'; readonly part: string; readonly mend: string };

/**
 * The item numbers a text names, ascending and once each.
 *
 * Parts are parted by commas, semicolons or spaces; a part is a number or a
 * range with a hyphen, dash or "to". All of the text is taken or none of it.
 *
 * @param itemCount how many items the block has: numbers go from 1 to this
 *
 * @example
 * parseItemNumbers('3, 7, 12-14', 40); // ok: [3, 7, 12, 13, 14]
 * parseItemNumbers('3, 50', 40); // rejected: part "50"
 */
export function parseItemNumbers(text: string, itemCount: number): ItemNumbers {
  const joined = text.trim().replace(/\s*(?:[-–—]|\bto\b)\s*/gi, '-');
  const numbers = new Set<number>();
  for (const part of joined.split(/[\s,;]+/)) {
    if (part === '') continue;
    const match = /^(\d{1,4})(?:-(\d{1,4}))?$/.exec(part);
    if (!match) return rejected(part, 'write numbers and ranges, as in 3, 7, 12-15');
    const from = Number(match[1]);
    const to = Number(match[2] ?? match[1]);
    if (from < 1 || to > itemCount) return rejected(part, `this block has items 1 to ${itemCount}`);
    if (from > to) return rejected(part, `write the smaller number first: ${to}-${from}`);
    for (let number = from; number <= to; number += 1) numbers.add(number);
  }
  return { kind: 'ok', numbers: [...numbers].sort((a, b) => a - b) };
}

function rejected(part: string, mend: string): ItemNumbers {
  return { kind: 'rejected', part, mend };
}
