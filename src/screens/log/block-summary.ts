/** What a block's misses were about, and what the block and its review took. */
import type { Concept } from '../../model/concept-map';
import { missReasons, type Block, type Item, type MissReason } from '../../model/log';

export interface Tally {
  readonly id: string;
  readonly missed: number;
  /** Items known to belong here, misses counted; for disciplines and systems. */
  readonly known: number;
}

export interface BlockSummary {
  readonly reasons: readonly { readonly reason: MissReason; readonly missed: number }[];
  readonly withoutReason: number;
  /** Most misses first. A miss in two disciplines counts in both. */
  readonly systems: readonly Tally[];
  readonly disciplines: readonly Tally[];
  readonly missesWithoutSystem: number;
  readonly missesWithoutDiscipline: number;
  /** Minutes an item, where the minutes used are written down. */
  readonly minutesAnItem: number | undefined;
  /** Hours of review for an hour of block. */
  readonly reviewHoursAnHour: number | undefined;
}

/**
 * The summary of one block.
 *
 * Systems of an item: its own, else the block's, else all its topics are seen in.
 * Disciplines: those of its named causes, else of its topics.
 */
export function blockSummary(
  block: Block,
  items: readonly Item[],
  concepts: ReadonlyMap<string, Concept>,
): BlockSummary {
  const misses = items.filter(({ outcome }) => outcome === 'missed');
  const of = (ids: readonly string[]) => ids.flatMap((id) => concepts.get(id) ?? []);
  const systemsOf = (item: Item): readonly string[] => {
    const stated = item.system ?? block.system;
    return stated ? [stated] : unique(of(item.topics).flatMap(({ systems }) => systems));
  };
  const disciplinesOf = (item: Item): readonly string[] => {
    const causes = unique(of(item.causes).flatMap(({ disciplines }) => disciplines));
    return causes.length > 0
      ? causes
      : unique(of(item.topics).flatMap(({ disciplines }) => disciplines));
  };
  const systems = tallies(items, systemsOf);
  for (const { system, count } of block.rightBySystem ?? []) add(systems, system, 0, count);
  const used = block.minutesUsed;
  const review = block.reviewMinutes;
  return {
    reasons: missReasons
      .map((reason) => ({ reason, missed: misses.filter((item) => item.reason === reason).length }))
      .filter(({ missed }) => missed > 0)
      .sort((a, b) => b.missed - a.missed),
    withoutReason: misses.filter(({ reason }) => reason === undefined).length,
    systems: sorted(systems),
    disciplines: sorted(tallies(items, disciplinesOf)),
    missesWithoutSystem: misses.filter((item) => systemsOf(item).length === 0).length,
    missesWithoutDiscipline: misses.filter((item) => disciplinesOf(item).length === 0).length,
    minutesAnItem: used && block.itemCount > 0 ? used / block.itemCount : undefined,
    reviewHoursAnHour: used && review !== undefined ? review / used : undefined,
  };
}

type Tallies = Map<string, { missed: number; known: number }>;

function tallies(items: readonly Item[], placesOf: (item: Item) => readonly string[]): Tallies {
  const found: Tallies = new Map();
  for (const item of items) {
    for (const place of placesOf(item)) add(found, place, Number(item.outcome === 'missed'), 1);
  }
  return found;
}

function add(to: Tallies, id: string, missed: number, known: number): void {
  const entry = to.get(id) ?? { missed: 0, known: 0 };
  to.set(id, { missed: entry.missed + missed, known: entry.known + known });
}

function sorted(all: Tallies): Tally[] {
  return Array.from(all, ([id, counts]) => ({ id, ...counts }))
    .filter(({ missed }) => missed > 0)
    .sort((a, b) => b.missed - a.missed || a.known - b.known || a.id.localeCompare(b.id));
}

const unique = <T>(values: readonly T[]) => [...new Set(values)];
