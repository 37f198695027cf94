/** From the ranking to the rows a screen shows: filters, ranks by both ways of counting. */
import type { Concept } from '../../model/concept-map';
import type { RankedRoot, Ranking } from '../../state/roots.svelte';

export interface RootFilter {
  readonly system: string | undefined;
  readonly discipline: string | undefined;
}

export interface RootRow {
  readonly root: RankedRoot;
  readonly concept: Concept;
  /** From 1 among the rows shown. */
  readonly rank: number;
  /** Traced misses: all of them, or those of the chosen system. */
  readonly traced: number;
  /** How often it was named as the cause, and its rank by that count among the rows shown. */
  readonly named: number;
  readonly namedRank: number | undefined;
}

/** Traced misses below which a row would read "0.0" and say nothing. */
export const leastTraced = 0.05;

/**
 * The rows that pass the filter and have something to say, most traced misses first.
 *
 * With a system chosen, only the misses that fall in that system count, for the
 * order and for the number shown.
 */
export function rootRows(
  ranking: Ranking,
  concepts: ReadonlyMap<string, Concept>,
  filter: RootFilter,
): RootRow[] {
  const named = new Map(ranking.counted.map(({ conceptId, count }) => [conceptId, count]));
  const passing = ranking.roots.flatMap((root) => {
    const concept = concepts.get(root.conceptId);
    if (!concept) return [];
    if (filter.discipline && !concept.disciplines.some((id) => id === filter.discipline)) return [];
    const traced = filter.system ? (root.bySystem[filter.system] ?? 0) : root.traced;
    const count = named.get(root.conceptId) ?? 0;
    return traced >= leastTraced || count > 0 ? [{ root, concept, traced, named: count }] : [];
  });
  const byCount = passing
    .filter((row) => row.named > 0)
    .sort((a, b) => b.named - a.named || a.concept.name.localeCompare(b.concept.name));
  const namedRank = new Map(byCount.map((row, index) => [row.concept.id, index + 1]));
  return passing
    .sort((a, b) => b.traced - a.traced || a.concept.name.localeCompare(b.concept.name))
    .map((row, index) => ({ ...row, rank: index + 1, namedRank: namedRank.get(row.concept.id) }));
}

/** "1st", "2nd", "23rd". */
export function ordinal(rank: number): string {
  const tens = rank % 100;
  const suffix = tens >= 11 && tens <= 13 ? 'th' : (['th', 'st', 'nd', 'rd'][rank % 10] ?? 'th');
  return `${rank}${suffix}`;
}
