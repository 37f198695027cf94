/** From stored records to what Trends counts. */
import type { TrendBlock } from '../engine';
import type { Block, Item } from '../model/log';
import type { Day } from '../model/study';
import { minutesOfDay, type LocalDay } from '../model/time';

/** A block of which items and right ones are known. */
export interface CountedBlock extends TrendBlock {
  readonly block: Block;
  readonly day: LocalDay;
  /** Seconds used for each item; undefined where the minutes used are not known. */
  readonly secondsUsed: number | undefined;
  /** Misses that ran out of time. */
  readonly notReached: number;
}

/**
 * The blocks that can be counted, in the order they were sat. A block of which only misses are
 * known is left out: nobody knows how many were right.
 *
 * @param minutesEastOn minutes the zone lies east of UTC on a day
 */
export function countedBlocks(
  blocks: Iterable<Block>,
  items: Iterable<Item>,
  days: Iterable<Day>,
  minutesEastOn: (day: LocalDay) => number,
): CountedBlock[] {
  const byBlock = new Map<string, Item[]>();
  for (const item of items) {
    const group = byBlock.get(item.block);
    if (group) group.push(item);
    else byBlock.set(item.block, [item]);
  }
  const dayOf = new Map<LocalDay, Day>();
  for (const day of days) dayOf.set(day.day, day);

  const counted: CountedBlock[] = [];
  for (const block of blocks) {
    if (block.onlyMisses || block.itemCount === 0) continue;
    const own = byBlock.get(block.id) ?? [];
    const misses = own.filter(({ outcome }) => outcome === 'missed');
    const missed = Math.max(misses.length, block.missedCount ?? 0);
    // No miss written down and no total: the block was not marked yet.
    if (missed === 0 && block.missedCount === undefined && own.length === 0) continue;
    const minutesUsed = block.minutesUsed;
    counted.push({
      block,
      day: block.day,
      items: block.itemCount,
      right: Math.max(0, block.itemCount - missed),
      timed: block.timed,
      mixed: block.mixed,
      secondsGiven:
        block.minutesGiven === undefined ? undefined : (block.minutesGiven * 60) / block.itemCount,
      startMinutes:
        block.startedAt === undefined
          ? undefined
          : minutesOfDay(block.startedAt, minutesEastOn(block.day)),
      sleepHours: dayOf.get(block.day)?.sleepHours,
      reviewRatio:
        block.reviewMinutes === undefined || !minutesUsed
          ? undefined
          : block.reviewMinutes / minutesUsed,
      changed:
        block.changedToRight === undefined
          ? undefined
          : {
              toRight: block.changedToRight,
              fromRight: misses.filter(({ reason }) => reason === 'changed-from-right').length,
            },
      missedAt:
        misses.length === missed && misses.every(({ position }) => position <= block.itemCount)
          ? misses.map(({ position }) => position)
          : undefined,
      secondsUsed: minutesUsed === undefined ? undefined : (minutesUsed * 60) / block.itemCount,
      notReached: misses.filter(({ reason }) => reason === 'out-of-time').length,
    });
  }
  return counted.sort(
    (a, b) =>
      a.day - b.day ||
      (a.startMinutes ?? 0) - (b.startMinutes ?? 0) ||
      (a.block.id < b.block.id ? -1 : 1),
  );
}

/** One kind of group the map knows: systems or disciplines. */
export interface GroupCount {
  readonly id: string;
  readonly items: number;
  readonly right: number;
}

/**
 * Itemised items by group; an item of several groups counts in each. Only blocks whose right items
 * are itemised too can tell a rate.
 */
export function countByGroup(
  counted: readonly CountedBlock[],
  items: Iterable<Item>,
  groupsOf: (item: Item, block: Block) => readonly string[],
): GroupCount[] {
  const blocks = new Map(counted.map(({ block }) => [block.id, block]));
  const itemised = new Map<string, number>();
  const all = [...items];
  for (const { block } of all) itemised.set(block, (itemised.get(block) ?? 0) + 1);
  const counts = new Map<string, { items: number; right: number }>();
  for (const item of all) {
    const block = blocks.get(item.block);
    if (!block || (itemised.get(item.block) ?? 0) < block.itemCount) continue;
    for (const group of groupsOf(item, block)) {
      let sum = counts.get(group);
      if (!sum) counts.set(group, (sum = { items: 0, right: 0 }));
      sum.items += 1;
      if (item.outcome !== 'missed') sum.right += 1;
    }
  }
  return Array.from(counts, ([id, sum]) => ({ id, ...sum }));
}
