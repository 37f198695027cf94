/** What the picture of the section is made of, and where its parts lie on the drawing plane. */
import type { Section, SectionBar } from '../engine';

/** A concept as it is drawn. */
export interface DrawnConcept {
  readonly id: string;
  readonly name: string;
  readonly traced: number;
  /** In [0, 1]. */
  readonly gapChance: number;
  /** The latest missing piece written down for it; empty for none. */
  readonly missingPiece: string;
}

export interface Picture {
  readonly section: Section;
  /** In the order of the section's bars. */
  readonly concepts: readonly DrawnConcept[];
  /** Heads of the columns, from left to right. */
  readonly heads: readonly string[];
}

/** Units of the drawing plane: at zoom 1 one unit is one CSS pixel. */
export const columnWidth = 480;
export const rowHeight = 16;
/** Between two bands: here the border of the strata runs. */
export const bandGap = 20;
/** Of a row, what lies above and below the body of a bar; in it run the threads of bars with gaps. */
const bodyInset = 3;
const threadHeight = 1.6;
const sideInset = 6;
/** Height of a bar without its thread. */
export const bodyHeight = rowHeight - 2 * bodyInset;

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** Top of a row, with the gaps of the bands above it. */
export function rowTop(depth: number, row: number): number {
  return row * rowHeight + (depth + 1) * bandGap;
}

export function sectionSize(section: Section): { readonly width: number; readonly height: number } {
  return {
    width: section.columns.length * columnWidth,
    height: section.rowCount * rowHeight + (section.bands.length + 1) * bandGap,
  };
}

/** The box round a bar, gaps and threads included. */
export function boxOf(bar: SectionBar): Box {
  const half = bar.half === undefined ? 0 : bar.half * (columnWidth / 2);
  const width = bar.half === undefined ? (bar.to - bar.from + 1) * columnWidth : columnWidth / 2;
  const inset = bar.half === undefined ? sideInset : sideInset / 2;
  return {
    left: bar.from * columnWidth + half + inset,
    top: rowTop(bar.depth, bar.row) + bodyInset - (bar.thread === 'above' ? threadHeight : 0),
    width: width - 2 * inset,
    height: bodyHeight + (bar.thread === undefined ? 0 : threadHeight),
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
export function bodiesOf(bar: SectionBar): readonly Box[] {
  const whole = boxOf(bar);
  const top = rowTop(bar.depth, bar.row) + bodyInset;
  if (bar.half !== undefined) return [{ ...whole, top, height: bodyHeight }];
  return runsOf(bar).map(([first, last]) => ({
    left: first * columnWidth + sideInset,
    top,
    width: (last - first + 1) * columnWidth - 2 * sideInset,
    height: bodyHeight,
  }));
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
export function outlineOf(bar: SectionBar): readonly number[] {
  const runs = runsOf(bar);
  if (runs.length === 1) return [-1, -1, 1, -1, 1, 1, -1, 1];
  const box = boxOf(bar);
  const across = (x: number) => ((x - box.left) / box.width) * 2 - 1;
  const points: number[] = [];
  runs.forEach(([first, last]) => {
    const left = across(first * columnWidth + sideInset);
    const right = across((last + 1) * columnWidth - sideInset);
    points.push(left, inner, left, -1, right, -1, right, inner);
  });
  // The thread closes the outline; drawn for "below", turned over for "above".
  const whole = [-1, 1, ...points.slice(2, -2), 1, inner, 1, 1];
  return bar.thread === 'above' ? whole.map((value, k) => (k % 2 === 1 ? -value : value)) : whole;
}

/** Where, in a box with a thread, the body ends: from -1 at its top to 1 at its bottom. */
const inner = (bodyHeight / (bodyHeight + threadHeight)) * 2 - 1;

/** Traced misses from which a bar has one, two and three rings. */
export const ringSteps = [1, 4, 10] as const;

/** How many rings a bar has: 0 to 3. */
export function ringsOf(traced: number): number {
  return ringSteps.filter((step) => traced >= step).length;
}

/** The share of a bar that is filled: its traced misses against the most of any. */
export function fillShare(traced: number, most: number): number {
  return most > 0 ? Math.min(1, traced / most) : 0;
}

/** Gap chances from which a bar's edge is drawn broken, and whole and heavy. */
export const edgeSteps = { broken: 0.5, heavy: 0.9 } as const;

export type Edge = 'thin' | 'broken' | 'heavy';

export function edgeOf(gapChance: number): Edge {
  if (gapChance >= edgeSteps.heavy) return 'heavy';
  return gapChance >= edgeSteps.broken ? 'broken' : 'thin';
}
