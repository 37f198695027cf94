/**
 * How far two words are apart in slips of the pen.
 *
 * Optimal string alignment: insertions, deletions, substitutions and swaps of neighbours each
 * cost 1 and no place is edited twice. F. J. Damerau (1964), Communications of the ACM 7(3):171-176;
 * V. I. Levenshtein (1966), Soviet Physics Doklady 10:707-710.
 *
 * @example
 * wordDistance('kitten', 'sitting'); // 3
 * wordDistance('ca', 'abc'); // 3
 */
export function wordDistance(one: string, other: string): number {
  const a = Array.from(one);
  const b = Array.from(other);
  let twoBack: number[] = [];
  let back = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let least = Math.min(back[j]! + 1, row[j - 1]! + 1, back[j - 1]! + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, twoBack[j - 2]! + 1);
      row.push(least);
    }
    twoBack = back;
    back = row;
  }
  return back[b.length]!;
}
