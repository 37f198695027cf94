/**
 * Where the section's rows and columns lie on the drawing plane, and so its bars.
 *
 * At zoom 1 a unit of the plane is a CSS pixel. The whole section always fits the
 * picture: rows that matter swell until their names can be read, the others lie thin
 * between them. Nearer, every row can be read and the picture is moved; or one column
 * is drawn wide, with the rows it takes part in.
 */
import { swellRows, type RowWish, type SectionBar } from '../engine';
import { ringsOf, type Picture } from './picture';

/** How the section is looked at. */
export type Lens =
  | { readonly kind: 'whole' }
  | { readonly kind: 'names' }
  | { readonly kind: 'system'; readonly column: number };

export interface Geometry {
  readonly lens: Lens['kind'];
  /** Left edge of each column, then the right edge of the last. */
  readonly columnLeft: Float64Array;
  /** Top of each row, rings included. */
  readonly rowTop: Float64Array;
  readonly rowHeight: Float64Array;
  /** Height of the bodies in a row: the row's without what its rings and threads take. */
  readonly bodyHeight: Float64Array;
  /** Top of each band, then the foot of the last. */
  readonly bandTop: Float64Array;
  readonly width: number;
  readonly height: number;
}

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** CSS pixels from ring to ring. */
export const ringStep = 2.3;
/** Height of a row whose names are read with ease, and of one where they just can be. */
const easyRow = 11.5;
const leastReadableRow = 9.8;
/** A row this thin is still seen as a line of its own. */
const thinRow = 1.15;
/** Rows that pale beside what is looked at may be thinner yet. */
const paleRow = 0.6;
/** No row is drawn out beyond this. */
const mostRow = 22;
/** Share of a row that bodies take; threads run in the rest. */
const bodyShare = 0.84;
/** Between bands runs the border of the strata. */
const bandGap = 5;
/** Of the whole picture, what all these borders may take. */
const bandGapShare = 0.1;
/** The share of the width that a column looked at takes. */
const wideShare = 0.5;
/** Rows that a column looked at takes no part in. */
const asideRow = 2;

/** What the rings of a bar take above and below its body. */
const ringRoom = (rings: number) => (rings === 0 ? 0 : 2 * (rings * ringStep + 0.6));

/**
 * The plane for a picture of this size.
 *
 * @param wanted ids of bars that are to be read first, most wanted first
 */
export function geometryOf(
  picture: Picture,
  room: { readonly width: number; readonly height: number },
  lens: Lens,
  wanted: readonly string[] = [],
): Geometry {
  const { section, concepts } = picture;
  const { bands, bars, rowCount } = section;
  const rings = new Uint8Array(rowCount);
  bars.forEach((bar, i) => {
    rings[bar.row] = Math.max(rings[bar.row]!, ringsOf(concepts[i]!.traced));
  });
  const gap =
    lens.kind !== 'whole'
      ? bandGap
      : Math.min(bandGap, (room.height * bandGapShare) / (bands.length + 1));
  const height = room.height - gap * (bands.length + 1);

  const rowHeight = ((): Float64Array => {
    switch (lens.kind) {
      case 'whole':
        return wholeRows();
      case 'names':
        return Float64Array.from(rings, (count) => easyRow + 1 + ringRoom(count));
      case 'system': {
        // The first wanted is to be read wherever it lies.
        const seen = new Set(
          bars
            .filter(({ id, columns }) => columns.includes(lens.column) || id === wanted[0])
            .map(({ row }) => row),
        );
        return Float64Array.from(rings, (count, row) =>
          seen.has(row) ? easyRow + 2.5 + ringRoom(count) : asideRow,
        );
      }
    }
  })();

  function wholeRows(): Float64Array {
    const rowOf = new Map(bars.map((bar) => [bar.id, bar.row]));
    const first = wanted.flatMap((id) => rowOf.get(id) ?? []);
    const others = bars
      .map((bar, i) => ({ row: bar.row, traced: concepts[i]!.traced }))
      .sort((a, b) => b.traced - a.traced || a.row - b.row)
      .map(({ row }) => row);
    const wishes = (base: number): RowWish[] =>
      [...first, ...others].map((row) => ({ row, height: base + ringRoom(rings[row]!) }));
    const ringed = rings.reduce((sum, count) => sum + ringRoom(count), 0);
    // Where nearly every name can be read, all rows are alike; else the first are read with ease.
    const nearlyAll = rowCount * leastReadableRow + ringed <= height * 1.3;
    const base = nearlyAll ? leastReadableRow : easyRow;
    const least = wanted.length > 0 ? paleRow : thinRow;
    return swellRows(rowCount, wishes(base), { room: height, least, most: mostRow });
  }

  const rowTop = new Float64Array(rowCount);
  const bodyHeight = new Float64Array(rowCount);
  const bandTop = new Float64Array(bands.length + 1);
  let y = gap;
  bands.forEach(({ firstRow, rowCount: count }, k) => {
    bandTop[k] = y - gap / 2;
    for (let row = firstRow; row < firstRow + count; row++) {
      rowTop[row] = y;
      const free = rowHeight[row]! - ringRoom(rings[row]!);
      // A row too thin for its rings: they lie over its neighbours.
      bodyHeight[row] = bodyShare * (free > asideRow ? free : rowHeight[row]!);
      y += rowHeight[row]!;
    }
    y += gap;
  });
  bandTop[bands.length] = y - gap / 2;
  return {
    lens: lens.kind,
    columnLeft: columnEdges(section.columns.length, room.width, lens),
    rowTop,
    rowHeight,
    bodyHeight,
    bandTop,
    width: room.width,
    height: y,
  };
}

function columnEdges(count: number, width: number, lens: Lens): Float64Array {
  const edges = new Float64Array(count + 1);
  const wide = lens.kind === 'system' && count > 1 ? lens.column : undefined;
  const share = Math.max(wideShare, 1 / count);
  for (let column = 0; column < count; column++) {
    const part =
      wide === undefined ? 1 / count : column === wide ? share : (1 - share) / (count - 1);
    edges[column + 1] = edges[column]! + part * width;
  }
  return edges;
}

/** Between a bar's end and the rule of its column. */
const insetOf = (geometry: Geometry, column: number) =>
  Math.min(2.5, 0.04 * (geometry.columnLeft[column + 1]! - geometry.columnLeft[column]!));

/** Height of the thread of a bar with gaps. */
const threadOf = (geometry: Geometry, row: number) => 0.09 * geometry.bodyHeight[row]!;

const bodyTop = (geometry: Geometry, row: number) =>
  geometry.rowTop[row]! + (geometry.rowHeight[row]! - geometry.bodyHeight[row]!) / 2;

/** The box round a bar, gaps and threads included. */
export function boxOf(bar: SectionBar, geometry: Geometry): Box {
  const bodies = bodiesOf(bar, geometry);
  const { left, top, height } = bodies[0]!;
  const last = bodies.at(-1)!;
  const thread = bar.thread === undefined ? 0 : threadOf(geometry, bar.row);
  return {
    left,
    top: bar.thread === 'above' ? top - thread : top,
    width: last.left + last.width - left,
    height: height + thread,
  };
}

/** Stretches of neighbouring columns a bar is seen in: [first, last] each. */
export function runsOf(bar: SectionBar): readonly (readonly [number, number])[] {
  const runs: [number, number][] = [];
  for (const column of bar.columns) {
    const run = runs.at(-1);
    if (run?.[1] === column - 1) run[1] = column;
    else runs.push([column, column]);
  }
  return runs;
}

/** The bodies of a bar, one over each stretch of columns it is seen in. */
export function bodiesOf(bar: SectionBar, geometry: Geometry): readonly Box[] {
  const { columnLeft, bodyHeight } = geometry;
  const top = bodyTop(geometry, bar.row);
  const height = bodyHeight[bar.row]!;
  return runsOf(bar).map(([first, last]) => {
    let left = columnLeft[first]!;
    let right = columnLeft[last + 1]!;
    const middle = (left + right) / 2;
    if (bar.half === 0) right = middle;
    if (bar.half === 1) left = middle;
    left += insetOf(geometry, first) / (bar.half === 1 ? 2 : 1);
    right -= insetOf(geometry, last) / (bar.half === 0 ? 2 : 1);
    return { left, top, width: right - left, height };
  });
}

/**
 * The outline of a bar in its box, x and y from -1 to 1 in turns: a body over each
 * stretch of columns, joined by a thread along the bottom or the top.
 *
 *     +---+   +-----+
 *     |   |   |     |
 *     |   +---+     |      thread below
 *     +-------------+
 */
export function outlineOf(bar: SectionBar, geometry: Geometry): readonly number[] {
  const bodies = bodiesOf(bar, geometry);
  if (bodies.length === 1) return [-1, -1, 1, -1, 1, 1, -1, 1];
  const box = boxOf(bar, geometry);
  const across = (x: number) => ((x - box.left) / box.width) * 2 - 1;
  // Where, in a box with a thread, the body ends: from -1 at its top to 1 at its bottom.
  const inner = (bodies[0]!.height / box.height) * 2 - 1;
  const points = bodies.flatMap(({ left, width }) => {
    const [from, to] = [across(left), across(left + width)];
    return [from, inner, from, -1, to, -1, to, inner];
  });
  // The thread closes the outline; drawn for "below", turned over for "above".
  const whole = [-1, 1, ...points.slice(2, -2), 1, inner, 1, 1];
  return bar.thread === 'above' ? whole.map((value, k) => (k % 2 === 1 ? -value : value)) : whole;
}
