/** The order in which chosen readings are best read: what others rest on comes first. */

export interface OrderedReading {
  readonly id: string;
  /** Concepts it is mainly about. */
  readonly main: readonly string[];
  /** Orders readings that do not rest on each other, largest first. */
  readonly weight: number;
}

/**
 * The readings so that one comes before those whose concepts rest on its own, as far as that goes.
 *
 * Two readings may each hold something the other rests on: then the one on which more of the other
 * rests comes first. A loop over more than two is broken at the reading that waits for fewest.
 *
 * @param restsOn per concept, the concepts it rests on directly; loops are harmless
 * @returns ids, in order
 *
 * @example
 * const restsOn = new Map([['compensation', ['buffer']]]);
 * orderReadings(
 *   [{ id: 'late', main: ['compensation'], weight: 9 }, { id: 'early', main: ['buffer'], weight: 1 }],
 *   restsOn,
 * ); // ['early', 'late']
 */
export function orderReadings(
  readings: readonly OrderedReading[],
  restsOn: ReadonlyMap<string, readonly string[]>,
): string[] {
  const below = readings.map(({ main }) => main.map((concept) => foundations(concept, restsOn)));
  /** How many (concept of `upper`, concept of `lower`) pairs rest on each other that way. */
  const rests = (upper: number, lower: number): number => {
    let pairs = 0;
    for (const set of below[upper]!)
      for (const concept of readings[lower]!.main) if (set.has(concept)) pairs += 1;
    return pairs;
  };
  const waitsFor = readings.map((_, upper) =>
    readings.flatMap((_unused, lower) =>
      lower !== upper && rests(upper, lower) > rests(lower, upper) ? [lower] : [],
    ),
  );

  const waiting = new Set(readings.keys());
  const ordered: string[] = [];
  while (waiting.size > 0) {
    const open = (r: number) => waitsFor[r]!.filter((other) => waiting.has(other)).length;
    const next = [...waiting].sort(
      (a, b) => open(a) - open(b) || readings[b]!.weight - readings[a]!.weight || a - b,
    )[0]!;
    waiting.delete(next);
    ordered.push(readings[next]!.id);
  }
  return ordered;
}

/** Everything a concept rests on, directly or not, itself left out. */
function foundations(
  concept: string,
  restsOn: ReadonlyMap<string, readonly string[]>,
): ReadonlySet<string> {
  const found = new Set<string>();
  const toVisit = [concept];
  for (let here = toVisit.pop(); here !== undefined; here = toVisit.pop()) {
    for (const lower of restsOn.get(here) ?? []) {
      if (lower === concept || found.has(lower)) continue;
      found.add(lower);
      toVisit.push(lower);
    }
  }
  return found;
}
