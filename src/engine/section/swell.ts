/**
 * How high the rows of the section are where not all of them can be read at once:
 * what matters most swells until the room is used up, the rest lies as thin as the
 * laminae of a rock.
 */

export interface RowWish {
  readonly row: number;
  /** Height at which what lies in the row can be read. */
  readonly height: number;
}

export interface RowRoom {
  /** Height there is for all rows together. */
  readonly room: number;
  /** Of a row that does not swell: the height below which it would not be seen. */
  readonly least: number;
  /** Height beyond which a row is not drawn out, whatever room is left. */
  readonly most: number;
}

/**
 * The height of each row, shape (rows,).
 *
 * The wishes are met in their order, each whole or not at all; the first is always
 * met. What room is left then raises the lowest rows together, up to `most`. The
 * heights add up to `room` unless even `least` a row is more, the first wish breaks
 * it, or `most` is reached. Linear in wishes, and rows times their logarithm.
 *
 * @param wishes most wanted first; of several for one row the highest counts
 * @throws {RangeError} for a row that is not there
 *
 * @example
 * swellRows(4, [{ row: 2, height: 12 }], { room: 18, least: 2, most: 20 }); // [2, 2, 12, 2]
 * swellRows(2, [], { room: 18, least: 2, most: 20 }); // [9, 9]
 */
export function swellRows(
  rowCount: number,
  wishes: readonly RowWish[],
  { room, least, most }: RowRoom,
): Float64Array {
  const heights = new Float64Array(rowCount).fill(least);
  let left = room - rowCount * least;
  wishes.forEach(({ row, height }, k) => {
    if (!(Number.isInteger(row) && row >= 0 && row < rowCount))
      throw new RangeError(
        `swellRows: got row ${row} in wish ${k}; need a whole number from 0 to ${rowCount - 1}`,
      );
    const more = height - heights[row]!;
    if (more <= 0 || (more > left && k > 0)) return;
    heights[row] = height;
    left -= more;
  });
  return left > 0 ? raised(heights, left, most) : heights;
}

/** The heights with the lowest brought up together, as water fills a vessel, by `left` in all. */
function raised(heights: Float64Array, left: number, most: number): Float64Array {
  const lowestFirst = Float64Array.from(heights).sort();
  let level = lowestFirst[0] ?? 0;
  for (let under = 1; under <= lowestFirst.length; under++) {
    const next = Math.min(most, lowestFirst[under] ?? most);
    if (next <= level) continue;
    const step = Math.min(next - level, left / under);
    level += step;
    left -= step * under;
    if (left <= 1e-9) break;
  }
  return heights.map((height) => Math.max(height, level));
}
