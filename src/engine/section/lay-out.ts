/**
 * The concept map as a geological section: columns are organ systems, depth is
 * how much rests on a concept. Rows and columns only; what a row measures is the
 * picture's matter.
 */
import { buildConceptGraph } from '../graph/concept-graph';
import { countGapCells, orderColumns } from './column-order';
import { findDepths } from './depth';
import { packRows, type PackedBar, type Place } from './pack-rows';

export interface SectionConcept {
  readonly id: string;
  /** Organ systems it is seen in; unknown ones are passed over. */
  readonly systems: readonly string[];
  readonly restsOn: readonly string[];
  /** Traced misses, 0 or more. */
  readonly traced: number;
}

/** The column of concepts that are seen in no system yet; only there when it is needed. */
export const noSystem = '';

export interface SectionBar {
  readonly id: string;
  /** Links on the longest path down to it; 0 at the surface. */
  readonly depth: number;
  /** Counted from the top of the whole section. */
  readonly row: number;
  /** Columns of its two ends. */
  readonly from: number;
  readonly to: number;
  /** Half of its one column, for chips at the surface; undefined where it takes all its columns. */
  readonly half: 0 | 1 | undefined;
  /** Side of its row on which it runs on through its gaps; undefined where it has none. */
  readonly thread: 'below' | 'above' | undefined;
  /** Columns it is seen in, ascending; those between that are missing here are gaps. */
  readonly columns: readonly number[];
}

export interface SectionBand {
  readonly depth: number;
  readonly firstRow: number;
  readonly rowCount: number;
}

export interface Section {
  /** System ids from left to right, perhaps `noSystem` last. */
  readonly columns: readonly string[];
  /** From the surface down. */
  readonly bands: readonly SectionBand[];
  /** In the order of the concepts given. */
  readonly bars: readonly SectionBar[];
  readonly rowCount: number;
  readonly gapCells: number;
}

/** Gap cells more than the fewest, as a share, for which columns that were on screen stay in place. */
const columnsStay = 0.05;

/**
 * The section of a map.
 *
 * The same input gives the same section. With the section `before`, columns keep
 * their order while that costs at most a twentieth more gap cells than the best
 * order, and bars keep their rows while their band is not a tenth longer for it.
 *
 * @param systems ids in the order of the map
 * @throws {RangeError} for a repeated id, a link to no concept, or a loop
 *
 * @example
 * layOutSection(['heart', 'lung'], [
 *   { id: 'embolism', systems: ['lung'], restsOn: ['clotting'], traced: 2 },
 *   { id: 'clotting', systems: ['heart', 'lung'], restsOn: [], traced: 5 },
 * ]).bars[1]; // { id: 'clotting', depth: 1, row: 1, from: 0, to: 1, columns: [0, 1] }
 */
export function layOutSection(
  systems: readonly string[],
  concepts: readonly SectionConcept[],
  before?: Section,
): Section {
  const graph = buildConceptGraph(
    'layOutSection',
    concepts.map(({ id, restsOn }) => ({ id, restsOn: restsOn.map((below) => ({ id: below })) })),
  );
  const depths = findDepths(graph);
  const { columns, columnsOf, gapCells } = placeColumns(systems, concepts, before);
  const kept = new Map(before?.bars.map((bar) => [bar.id, bar]));
  const firstRowBefore = new Map(before?.bands.map((band) => [band.depth, band.firstRow]));

  const byDepth: number[][] = [];
  depths.forEach((depth, i) => (byDepth[depth] ??= []).push(i));
  const bands: SectionBand[] = [];
  const bars: SectionBar[] = [];
  let firstRow = 0;
  byDepth.forEach((members, depth) => {
    const packed = members.map((i): PackedBar => ({
      columns: columnsOf[i]!,
      weight: concepts[i]!.traced,
    }));
    const places = packRows(
      packed,
      depth === 0,
      members.map((i): Place | undefined => {
        const bar = kept.get(concepts[i]!.id);
        if (bar?.depth !== depth) return undefined;
        const row = bar.row - (firstRowBefore.get(depth) ?? 0);
        return { row, half: bar.half, thread: bar.thread };
      }),
    );
    members.forEach((i, k) => {
      const { row, half, thread } = places[k]!;
      const columns = columnsOf[i]!;
      bars[i] = {
        id: concepts[i]!.id,
        depth,
        row: firstRow + row,
        from: columns[0]!,
        to: columns.at(-1)!,
        half,
        thread,
        columns,
      };
    });
    const rowCount = 1 + Math.max(...places.map(({ row }) => row));
    bands.push({ depth, firstRow, rowCount });
    firstRow += rowCount;
  });
  return { columns, bands, bars, rowCount: firstRow, gapCells };
}

function placeColumns(
  systems: readonly string[],
  concepts: readonly SectionConcept[],
  before: Section | undefined,
) {
  const indexOf = new Map(systems.map((id, i) => [id, i]));
  const sets = concepts.map((concept) => [
    ...new Set(concept.systems.flatMap((id) => indexOf.get(id) ?? [])),
  ]);
  let order = orderColumns(systems.length, sets);
  const orderBefore = before?.columns.flatMap((id) => indexOf.get(id) ?? []);
  if (orderBefore?.length === systems.length) {
    const stays = countGapCells(orderBefore, sets);
    if (stays <= countGapCells(order, sets) * (1 + columnsStay)) order = orderBefore;
  }
  const columns = order.map((i) => systems[i]!);
  if (sets.some((set) => set.length === 0)) columns.push(noSystem);
  const placeOf: number[] = [];
  order.forEach((i, place) => (placeOf[i] = place));
  const columnsOf = sets.map((set) =>
    set.length === 0 ? [columns.length - 1] : set.map((i) => placeOf[i]!).sort((a, b) => a - b),
  );
  return { columns, columnsOf, gapCells: countGapCells(order, sets) };
}
