/**
 * Bars of one band laid in rows without overlap.
 *
 * A bar with gaps runs on as a thread below or above the row, so that another may
 * lie in its gap; two threads never share a side of a piece of a row:
 *
 *     [A A A]      [A A]      A's thread passes under B
 *           └[B B]─┘
 *
 * Bars with gaps go in first, from left to right, each into the first row that is
 * free; then those without, the same way. For intervals this left-edge filling
 * needs no more rows than bars lie over the fullest column, which is the fewest
 * possible (Hashimoto and Stevens 1971, "Wire routing by optimizing channel
 * assignment", 8th Design Automation Workshop, pp. 155-169); with gaps it may need
 * more.
 */

export interface PackedBar {
  /** Columns it is seen in, ascending, at least one. */
  readonly columns: readonly number[];
  /** The greater, the nearer to the top of the band its row lies. */
  readonly weight: number;
}

/** Where a bar lies: its row in the band; which half of its one column, for half-width chips. */
export interface Place {
  readonly row: number;
  readonly half?: 0 | 1;
  /** On which side of the row the bar runs on through its gaps, if it has any. */
  readonly thread?: 'below' | 'above';
}

/** Rows more than the fewest, as a share, that keeping bars in place may cost. */
const keepingCosts = 0.1;

const firstOf = (bar: PackedBar) => bar.columns[0]!;
const lastOf = (bar: PackedBar) => bar.columns.at(-1)!;
const hasGaps = (bar: PackedBar) => lastOf(bar) - firstOf(bar) >= bar.columns.length;

/**
 * Rows without which the bars cannot be laid: the fewest possible where no bar has
 * a gap, a lower bound otherwise.
 *
 * @param halves bars over one column lie two abreast
 *
 * @example
 * leastRows([{ columns: [0, 1], weight: 0 }, { columns: [1, 2], weight: 0 }], false); // 2
 */
export function leastRows(bars: readonly PackedBar[], halves: boolean): number {
  const whole: number[] = [];
  const chips: number[] = [];
  const threads: number[] = [];
  const count = (list: number[], column: number) => (list[column] = (list[column] ?? 0) + 1);
  for (const bar of bars) {
    if (halves && bar.columns.length === 1) count(chips, firstOf(bar));
    else for (const column of bar.columns) count(whole, column);
    if (!hasGaps(bar)) continue;
    for (let column = firstOf(bar); column <= lastOf(bar); column++) count(threads, column);
  }
  let least = 0;
  for (let column = 0; column < Math.max(whole.length, chips.length); column++) {
    const cells = (whole[column] ?? 0) + Math.ceil((chips[column] ?? 0) / 2);
    least = Math.max(least, cells, Math.ceil((threads[column] ?? 0) / 2));
  }
  return least;
}

/**
 * A place for each bar, in few rows (see above), the heaviest rows on top. Bars of a
 * weight of 1 or more are gathered in as few rows as they go into, as long as the
 * band has no more rows for it.
 *
 * With `kept` places, bars stay where they were as far as they still fit, and the
 * others fill what is free, unless that would cost a tenth more rows (and more
 * than one row) than a fresh start.
 *
 * @param bars in the order in which equal ones are placed
 * @param halves bars over one column are chips of half its width
 * @param kept for each bar, where it lay before
 *
 * @example
 * packRows([{ columns: [0], weight: 1 }, { columns: [0, 1], weight: 5 }], false);
 * // [{ row: 1 }, { row: 0 }]: the heavier one on top
 */
export function packRows(
  bars: readonly PackedBar[],
  halves: boolean,
  kept: readonly (Place | undefined)[] = [],
): readonly Place[] {
  const plain = packAfresh(bars, halves, Infinity);
  // What has traced misses shares the top rows, where that costs no row.
  const gathered = bars.some(({ weight }) => weight >= 1) ? packAfresh(bars, halves, 1) : plain;
  const fresh = countRows(gathered) <= countRows(plain) ? gathered : plain;
  if (!kept.some((place) => place !== undefined)) return fresh;
  const around = packAround(bars, halves, kept);
  const most = countRows(fresh) * (1 + keepingCosts);
  return countRows(around) <= Math.max(countRows(fresh) + 1, most) ? around : fresh;
}

const countRows = (places: readonly Place[]) => 1 + Math.max(-1, ...places.map(({ row }) => row));

/** A bar, with what of a row it takes: worked out once, since every row is asked. */
interface Measured {
  readonly bar: PackedBar;
  readonly chip: boolean;
  readonly gaps: boolean;
  /** Ways to lie in a row, in the order they are tried. */
  readonly ways: readonly {
    readonly place: Omit<Place, 'row'>;
    readonly cellBits: number;
    readonly threadBit: number;
  }[];
}

const wholeWay = { place: {}, cellBits: 3, threadBit: 0 } as const;
const chipWays = [
  { place: { half: 0 }, cellBits: 1, threadBit: 0 },
  { place: { half: 1 }, cellBits: 2, threadBit: 0 },
] as const;
const threadWays = [
  { place: { thread: 'below' }, cellBits: 3, threadBit: 4 },
  { place: { thread: 'above' }, cellBits: 3, threadBit: 8 },
] as const;

function measure(bar: PackedBar, halves: boolean): Measured {
  const chip = halves && bar.columns.length === 1;
  const gaps = hasGaps(bar);
  return { bar, chip, gaps, ways: chip ? chipWays : gaps ? threadWays : [wholeWay] };
}

/** Which pieces of each row are taken: per column, two half cells and two threads. */
class Rows {
  readonly #rows: Uint8Array[] = [];
  readonly #columnCount: number;
  /** For each column, rows from the top that have no room left in it: they need not be asked again. */
  readonly #full: Int32Array;

  constructor(bars: readonly PackedBar[]) {
    this.#columnCount = bars.reduce((most, bar) => Math.max(most, 1 + lastOf(bar)), 0);
    this.#full = new Int32Array(this.#columnCount);
  }

  isFree(
    row: number,
    { bar }: Measured,
    { cellBits, threadBit }: Measured['ways'][number],
  ): boolean {
    const cells = this.#rows[row];
    if (!cells) return true;
    for (const column of bar.columns) if (cells[column]! & cellBits) return false;
    if (threadBit === 0) return true;
    for (let column = firstOf(bar); column <= lastOf(bar); column++)
      if (cells[column]! & threadBit) return false;
    return true;
  }

  take(row: number, { bar }: Measured, { cellBits, threadBit }: Measured['ways'][number]): void {
    while (this.#rows.length <= row) this.#rows.push(new Uint8Array(this.#columnCount));
    const cells = this.#rows[row]!;
    for (const column of bar.columns) cells[column]! |= cellBits;
    if (threadBit === 0) return;
    for (let column = firstOf(bar); column <= lastOf(bar); column++) cells[column]! |= threadBit;
  }

  /** The first row with room, taken at once. */
  fill(measured: Measured, ways = measured.ways): Place {
    let first = 0;
    for (const column of measured.bar.columns) {
      while (((this.#rows[this.#full[column]!]?.[column] ?? 0) & 3) === 3) this.#full[column]! += 1;
      first = Math.max(first, this.#full[column]!);
    }
    for (let row = first; ; row++) {
      const way = ways.find((each) => this.isFree(row, measured, each));
      if (!way) continue;
      this.take(row, measured, way);
      return { row, ...way.place };
    }
  }
}

/** Bars from a weight on go in before all others, the heaviest first. */
function packAfresh(bars: readonly PackedBar[], halves: boolean, firstFrom: number): Place[] {
  const measured = bars.map((bar) => measure(bar, halves));
  // Chips of one column wait in pairs of like weight, so that each pair fills one cell.
  const chipsOf = new Map<number, number[]>();
  const groups: number[][] = [];
  measured.forEach(({ bar, chip }, i) => {
    if (!chip) groups.push([i]);
    else if (chipsOf.has(firstOf(bar))) chipsOf.get(firstOf(bar))!.push(i);
    else chipsOf.set(firstOf(bar), [i]);
  });
  for (const chips of chipsOf.values()) {
    chips.sort((a, b) => bars[b]!.weight - bars[a]!.weight || a - b);
    for (let k = 0; k < chips.length; k += 2) groups.push(chips.slice(k, k + 2));
  }

  const lead = (group: readonly number[]) => measured[group[0]!]!;
  const ahead = (group: readonly number[]) => {
    const { weight } = lead(group).bar;
    return weight >= firstFrom ? weight : 0;
  };
  groups.sort(
    (a, b) =>
      ahead(b) - ahead(a) ||
      Number(lead(b).gaps) - Number(lead(a).gaps) ||
      firstOf(lead(a).bar) - firstOf(lead(b).bar) ||
      lead(b).bar.weight - lead(a).bar.weight ||
      a[0]! - b[0]!,
  );
  const rows = new Rows(bars);
  const weights: number[] = [];
  const placed = groups.map((group) => {
    const { bar, chip, ways } = lead(group);
    const place = rows.fill(lead(group), chip ? [wholeWay] : ways);
    weights[place.row] = Math.max(weights[place.row] ?? -Infinity, bar.weight);
    return place;
  });
  const finalRow: number[] = [];
  [...weights.keys()]
    .sort((a, b) => weights[b]! - weights[a]! || a - b)
    .forEach((row, place) => (finalRow[row] = place));

  const places: Place[] = [];
  groups.forEach((group, k) => {
    const place = { ...placed[k]!, row: finalRow[placed[k]!.row]! };
    group.forEach((i, half) => {
      places[i] = measured[i]!.chip ? { ...place, half: half as 0 | 1 } : place;
    });
  });
  return places;
}

/** Puts bars back where they lay, then the others into the first room that is free. */
function packAround(
  bars: readonly PackedBar[],
  halves: boolean,
  kept: readonly (Place | undefined)[],
): Place[] {
  const rows = new Rows(bars);
  const places: Place[] = [];
  const waiting: number[] = [];
  const measured = bars.map((bar) => measure(bar, halves));
  measured.forEach((each, i) => {
    const before = kept[i];
    const way = each.ways.find(
      ({ place }) => place.half === before?.half && place.thread === before?.thread,
    );
    if (!before || !way || !rows.isFree(before.row, each, way)) return void waiting.push(i);
    rows.take(before.row, each, way);
    places[i] = before;
  });
  for (const i of waiting) places[i] = rows.fill(measured[i]!);
  // A row that has lost all its bars is closed.
  const used = [...new Set(places.map(({ row }) => row))].sort((a, b) => a - b);
  const closed = new Map(used.map((row, place) => [row, place]));
  return places.map((place) => ({ ...place, row: closed.get(place.row)! }));
}
