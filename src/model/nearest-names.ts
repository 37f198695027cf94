/**
 * The nearest of many names to one that matched none: first by letter triples in
 * common, then by edit distance among the best of those.
 *
 * Sources: Dice 1945, "Measures of the amount of ecologic association between
 * species", Ecology 26(3), for the coefficient; Wagner and Fischer 1974, "The
 * string-to-string correction problem", J. ACM 21(1), for the distance.
 */

export interface NearName<T> {
  readonly value: T;
  /** 0 (nothing in common) to 1 (the same). */
  readonly closeness: number;
}

export interface NameIndex<T> {
  /** Up to `most` entries, closest first; ties keep the order of entry. */
  findNearest(folded: string, most: number): readonly NearName<T>[];
}

/** Entries compared letter by letter after the triples have chosen them. */
const shortlistSize = 24;
/** Below this a suggestion is noise rather than help. */
const leastCloseness = 0.35;

/**
 * An index over folded names; building is linear in their length, a search in the
 * number of names that share a triple.
 *
 * @param entries pairs of a folded name and what it stands for
 */
export function nameIndex<T>(entries: readonly (readonly [string, T])[]): NameIndex<T> {
  const triplesOf = entries.map(([folded]) => triples(folded));
  const byTriple = new Map<string, number[]>();
  triplesOf.forEach((set, row) => {
    for (const triple of set) {
      const rows = byTriple.get(triple);
      if (rows) rows.push(row);
      else byTriple.set(triple, [row]);
    }
  });

  function findNearest(folded: string, most: number): readonly NearName<T>[] {
    const wanted = triples(folded);
    const shared = new Map<number, number>();
    for (const triple of wanted) {
      for (const row of byTriple.get(triple) ?? []) shared.set(row, (shared.get(row) ?? 0) + 1);
    }
    const dice = (row: number) =>
      (2 * (shared.get(row) ?? 0)) / (wanted.size + triplesOf[row]!.size);
    return [...shared.keys()]
      .map((row) => ({ row, dice: dice(row) }))
      .sort((a, b) => b.dice - a.dice || a.row - b.row)
      .slice(0, shortlistSize)
      .map(({ row, dice }) => {
        const name = entries[row]![0];
        const longer = Math.max(name.length, folded.length);
        const alike = 1 - editDistance(name, folded) / longer;
        return { row, closeness: Math.max(dice, alike) };
      })
      .filter(({ closeness }) => closeness >= leastCloseness)
      .sort((a, b) => b.closeness - a.closeness || a.row - b.row)
      .slice(0, most)
      .map(({ row, closeness }) => ({ value: entries[row]![1], closeness }));
  }

  return { findNearest };
}

/** Overlapping runs of three letters, with the ends marked. */
function triples(folded: string): ReadonlySet<string> {
  const padded = `^${folded}$`;
  const found = new Set<string>();
  for (let i = 0; i + 3 <= padded.length; i += 1) found.add(padded.slice(i, i + 3));
  return found;
}

/**
 * Fewest insertions, deletions and replacements that turn one text into the other.
 * Time grows with the product of the lengths.
 *
 * @example
 * editDistance('acidosis', 'alkalosis'); // 4
 */
export function editDistance(a: string, b: string): number {
  let previous = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i += 1) {
    const current = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const replaced = previous[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      current.push(Math.min(replaced, previous[j]! + 1, current[j - 1]! + 1));
    }
    previous = current;
  }
  return previous[b.length]!;
}
