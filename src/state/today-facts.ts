/** What a day's screen says of the log: the block, the review, what changed since last week. */
import { isReviewed, type Block, type Item } from '../model/log';
import type { LocalDay } from '../model/time';
import type { RankedRoot, Ranking } from './roots.svelte';

export interface BlocksToday {
  readonly blocks: readonly Block[];
  readonly itemCount: number;
  readonly missed: number;
}

/** The blocks sat on a day. */
export function blocksOn(
  day: LocalDay,
  blocks: Iterable<Block>,
  items: Iterable<Item>,
): BlocksToday {
  const found = [...blocks].filter((block) => block.day === day);
  const ids = new Set<string>(found.map(({ id }) => id));
  const missedOf = new Map<string, number>();
  for (const { block, outcome } of items)
    if (ids.has(block) && outcome === 'missed') missedOf.set(block, (missedOf.get(block) ?? 0) + 1);
  return {
    blocks: found,
    itemCount: found.reduce((sum, { itemCount }) => sum + itemCount, 0),
    missed: found.reduce(
      (sum, { id, missedCount }) => sum + Math.max(missedCount ?? 0, missedOf.get(id) ?? 0),
      0,
    ),
  };
}

/** Misses still to be reviewed, those of the newest blocks first. */
export function toReview(blocks: ReadonlyMap<string, Block>, items: Iterable<Item>): Item[] {
  return [...items]
    .filter((item) => item.outcome === 'missed' && !isReviewed(item) && blocks.has(item.block))
    .sort(
      (a, b) =>
        blocks.get(b.block)!.day - blocks.get(a.block)!.day ||
        a.block.localeCompare(b.block) ||
        a.position - b.position,
    );
}

/** Review minutes a miss takes, until ten blocks' worth say otherwise (common practice, no source). */
const usualReviewMinutes = 4;
const leastReviewedMisses = 20;

/** The candidate's review minutes a miss, from the blocks whose review was timed. */
export function reviewMinutesAMiss(blocks: Iterable<Block>, items: Iterable<Item>): number {
  const missedOf = new Map<string, number>();
  for (const { block, outcome } of items)
    if (outcome === 'missed') missedOf.set(block, (missedOf.get(block) ?? 0) + 1);
  let minutes = 0;
  let misses = 0;
  for (const { id, reviewMinutes } of blocks) {
    const missed = missedOf.get(id) ?? 0;
    if (!reviewMinutes || missed === 0) continue;
    minutes += reviewMinutes;
    misses += missed;
  }
  return misses < leastReviewedMisses ? usualReviewMinutes : minutes / misses;
}

export interface RootChange {
  readonly root: RankedRoot;
  /** Its place and traced misses a week ago; undefined where nothing was traced to it. */
  readonly before: { readonly place: number; readonly traced: number } | undefined;
}

/** Below this many traced misses a concept has no place worth telling. */
const leastTraced = 0.5;

/** The first root now, with where it stood. */
export function topRootChange(now: Ranking, before: Ranking | undefined): RootChange | undefined {
  const root = now.roots[0];
  if (!root || root.traced < leastTraced) return undefined;
  const place = before?.roots.findIndex(({ conceptId }) => conceptId === root.conceptId) ?? -1;
  const then = before?.roots[place];
  return {
    root,
    before:
      then && then.traced >= leastTraced ? { place: place + 1, traced: then.traced } : undefined,
  };
}

/** Concepts among the first few roots now that were not a week ago. */
export function newAmongFirst(now: Ranking, before: Ranking | undefined, first: number): string[] {
  if (!before) return [];
  const then = new Set(before.roots.slice(0, first).map(({ conceptId }) => conceptId));
  return now.roots
    .slice(0, first)
    .filter(({ conceptId, traced }) => traced >= leastTraced && !then.has(conceptId))
    .map(({ conceptId }) => conceptId);
}
