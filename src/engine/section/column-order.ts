/**
 * The order of the section's columns in which the bars have the fewest gap cells.
 *
 * A gap cell is a column that a bar passes over between two columns it is seen
 * in. Exact by dynamic programming over subsets, in the manner of Held and Karp
 * (1962, "A dynamic programming approach to sequencing problems", SIAM Journal
 * 10, pp. 196-210): what a column costs depends on which columns stand before
 * it, not on their order.
 */

/** Most columns for which every subset is looked at: 2^16 subsets, a few milliseconds. */
export const mostExactColumns = 16;

/**
 * Gap cells of all sets in an order of the columns.
 *
 * @param order column indices, each once
 * @param sets for each bar, the column indices it is seen in
 *
 * @example
 * countGapCells([0, 1, 2], [[0, 2], [1, 2]]); // 1: the first bar passes over column 1
 */
export function countGapCells(
  order: readonly number[],
  sets: readonly (readonly number[])[],
): number {
  const placeOf = new Int32Array(order.length);
  order.forEach((column, place) => (placeOf[column] = place));
  let gaps = 0;
  for (const set of sets) {
    if (set.length < 2) continue;
    let first = order.length;
    let last = -1;
    for (const column of set) {
      const place = placeOf[column]!;
      if (place < first) first = place;
      if (place > last) last = place;
    }
    gaps += last - first + 1 - set.length;
  }
  return gaps;
}

/**
 * Column indices from left to right with the fewest gap cells: exactly up to
 * `mostExactColumns`, beyond that by local search, which may miss the best order.
 *
 * Of several best orders the exact one takes, from the right, the column of the
 * highest index: so columns stay near the order they were given in. Time and
 * memory grow with columns times 2^columns, and linearly in the bars.
 *
 * @param columnCount number of columns
 * @param sets for each bar, the distinct column indices it is seen in
 * @throws {RangeError} for a column index outside 0 .. columnCount - 1
 *
 * @example
 * orderColumns(3, [[0, 2], [0, 2]]); // [1, 0, 2]: columns 0 and 2 side by side
 */
export function orderColumns(
  columnCount: number,
  sets: readonly (readonly number[])[],
): readonly number[] {
  for (const set of sets) {
    for (const column of set) {
      if (!(Number.isInteger(column) && column >= 0 && column < columnCount))
        throw new RangeError(
          `orderColumns: got column ${column}; need a whole number from 0 to ${columnCount - 1}`,
        );
    }
  }
  const asGiven = Array.from({ length: columnCount }, (_, column) => column);
  if (columnCount < 3) return asGiven;
  return columnCount <= mostExactColumns
    ? orderExactly(columnCount, sets)
    : improvedOrder(asGiven, sets);
}

/**
 * Bars within each subset of columns, by summing over subsets one column at a time.
 * Shape (2^columns,), indexed by the subset's bits.
 */
function countWithin(columnCount: number, sets: readonly (readonly number[])[]): Int32Array {
  const within = new Int32Array(1 << columnCount);
  for (const set of sets) {
    let bits = 0;
    for (const column of set) bits |= 1 << column;
    if (bits !== 0) within[bits]! += 1;
  }
  for (let column = 0; column < columnCount; column++) {
    const bit = 1 << column;
    for (let subset = 0; subset < within.length; subset++) {
      if (subset & bit) within[subset]! += within[subset ^ bit]!;
    }
  }
  return within;
}

function orderExactly(columnCount: number, sets: readonly (readonly number[])[]): number[] {
  const within = countWithin(columnCount, sets);
  const all = (1 << columnCount) - 1;
  const fewest = new Int32Array(all + 1).fill(2 ** 31 - 1);
  const lastColumn = new Int8Array(all + 1);
  fewest[0] = 0;
  for (let before = 0; before < all; before++) {
    for (let column = 0; column < columnCount; column++) {
      const bit = 1 << column;
      if (before & bit) continue;
      const placed = before | bit;
      const after = all ^ placed;
      // Bars without this column, less those wholly on one side of it: the rest pass over it.
      const gaps = within[all ^ bit]! - within[before]! - within[after]!;
      const sum = fewest[before]! + gaps;
      if (sum < fewest[placed]! || (sum === fewest[placed]! && column > lastColumn[placed]!)) {
        fewest[placed] = sum;
        lastColumn[placed] = column;
      }
    }
  }
  const order: number[] = [];
  for (let placed = all; placed !== 0;) {
    const column = lastColumn[placed]!;
    order.push(column);
    placed ^= 1 << column;
  }
  return order.reverse();
}

/** Moves single columns and swaps pairs as long as that saves a gap cell. */
function improvedOrder(start: readonly number[], sets: readonly (readonly number[])[]): number[] {
  const several = sets.filter((set) => set.length > 1);
  let order = [...start];
  let fewest = countGapCells(order, several);
  for (let improved = true; improved;) {
    improved = false;
    for (let from = 0; from < order.length; from++) {
      for (let to = 0; to < order.length; to++) {
        if (from === to) continue;
        for (const candidate of [moved(order, from, to), swapped(order, from, to)]) {
          const gaps = countGapCells(candidate, several);
          if (gaps >= fewest) continue;
          [order, fewest, improved] = [candidate, gaps, true];
        }
      }
    }
  }
  return order;
}

function moved(order: readonly number[], from: number, to: number): number[] {
  const rest = order.toSpliced(from, 1);
  return rest.toSpliced(to, 0, order[from]!);
}

function swapped(order: readonly number[], one: number, other: number): number[] {
  const result = [...order];
  [result[one], result[other]] = [order[other]!, order[one]!];
  return result;
}
