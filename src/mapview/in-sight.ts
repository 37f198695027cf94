/** Which bars are on the screen: found by their rows, so that a large map costs no more than a small one. */
import type { Section } from '../engine';
import { bodiesOf, type Geometry } from './geometry';
import type { View } from './paint-ground';

/** For each row, the indices of its bars; worked out once for a section. */
const rowsOf = new WeakMap<Section, readonly (readonly number[])[]>();

function barsByRow(section: Section): readonly (readonly number[])[] {
  const known = rowsOf.get(section);
  if (known) return known;
  const rows: number[][] = Array.from({ length: section.rowCount }, () => []);
  section.bars.forEach(({ row }, i) => rows[row]!.push(i));
  rowsOf.set(section, rows);
  return rows;
}

/** Indices of the bars whose rows meet the stretch from `top` to `bottom` of the plane, from the top down. */
export function barsBetween(
  section: Section,
  geometry: Geometry,
  top: number,
  bottom: number,
): readonly number[] {
  const rows = barsByRow(section);
  const { rowTop, rowHeight } = geometry;
  let first = 0;
  for (let end = rows.length; first < end;) {
    const middle = (first + end) >> 1;
    if (rowTop[middle]! + rowHeight[middle]! < top) first = middle + 1;
    else end = middle;
  }
  const found: number[] = [];
  for (let row = first; row < rows.length && rowTop[row]! <= bottom; row++)
    found.push(...rows[row]!);
  return found;
}

/** A tap this far from a bar, in CSS pixels, still means it: lines are thin. */
const tapReach = 5;

/** Id of the bar at a place of the screen, or of the nearest within reach; undefined for the ground. */
export function nearestBar(
  section: Section,
  geometry: Geometry,
  { x, y, zoom }: View,
  at: { readonly x: number; readonly y: number },
): string | undefined {
  const [planeX, planeY] = [(at.x - x) / zoom, (at.y - y) / zoom];
  const reach = tapReach / zoom;
  let nearest: { id: string; distance: number } | undefined;
  for (const i of barsBetween(section, geometry, planeY - reach, planeY + reach)) {
    const bar = section.bars[i]!;
    for (const { left, top, width, height } of bodiesOf(bar, geometry)) {
      if (planeX < left || planeX > left + width) continue;
      const distance = Math.max(top - planeY, planeY - top - height, 0);
      if (distance <= reach && (!nearest || distance < nearest.distance))
        nearest = { id: bar.id, distance };
    }
  }
  return nearest?.id;
}

/** The row at a height of the plane, or the nearest to it. */
export function rowAt(geometry: Geometry, y: number): number {
  const below = geometry.rowTop.findIndex((top) => top > y);
  return below < 0 ? geometry.rowTop.length - 1 : Math.max(0, below - 1);
}

/**
 * Where the plane has to lie so that it keeps to the picture like a sheet to its frame:
 * none of its edges comes inside, and what is smaller lies at the start.
 *
 * @param start where the plane's top left may lie at most, in CSS pixels
 * @param margin free at the other two edges
 */
export function keptInFrame(
  plane: { readonly width: number; readonly height: number },
  { x, y, zoom, width, height }: View,
  start: { readonly x: number; readonly y: number },
  margin: number,
): { readonly x: number; readonly y: number } {
  const clamp = (at: number, first: number, length: number, room: number) =>
    Math.min(first, Math.max(Math.min(room - margin, first + length) - length, at));
  return {
    x: clamp(x, start.x, plane.width * zoom, width),
    y: clamp(y, start.y, plane.height * zoom, height),
  };
}
