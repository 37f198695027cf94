/** Which bars are on the screen: found by their rows, so that a large map costs no more than a small one. */
import type { Section } from '../engine';
import type { Geometry } from './geometry';

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
