/** Items as the cognitive-diagnosis peers see them: the Q-matrix, one row an answered item. */
import type { ItemTable } from './item-table';

export interface GatedItem {
  /** Concepts the item needs, each once. */
  readonly needs: readonly number[];
  readonly missed: boolean;
}

/** What a fitted peer says about each concept. */
export interface DiagnosisFit {
  /** Concept -> chance that it is a gap. */
  readonly gapChances: Float64Array;
  /** Concept -> expected misses fewer over these items, were it no gap; the ranking. */
  readonly avoidable: Float64Array;
}

export interface FitOptions {
  readonly seed?: number;
  /** Sweeps kept, and thrown away before. */
  readonly sweeps?: number;
  readonly warmUp?: number;
}

/** Each item needs its topics and all that lies at most `links` below them. */
export function gatedItems(table: ItemTable, links: number): GatedItem[] {
  return table.items.map(({ topics, missed }) => ({
    needs: [
      ...new Set(
        topics.flatMap((topic) =>
          table.closures[topic]!.filter((met) => met.links <= links).map((met) => met.concept),
        ),
      ),
    ],
    missed,
  }));
}

/** Concept -> the items that need it. */
export function itemsByConcept(items: readonly GatedItem[], conceptCount: number): number[][] {
  const itemsOf: number[][] = Array.from({ length: conceptCount }, () => []);
  items.forEach((item, index) => item.needs.forEach((concept) => itemsOf[concept]!.push(index)));
  return itemsOf;
}
