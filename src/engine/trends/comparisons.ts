/** The comparisons a candidate argues about, each with how much of it could be luck. */
import { adjustedChances } from './benjamini-hochberg';
import { changedAnswers, changesToFind, type ChangedAnswers } from './changed-answers';
import {
  compareRates,
  groupOf,
  moreBlocksFor,
  type BlockCount,
  type GroupRate,
  type RateComparison,
} from './compare-rates';
import { fifthsOf } from './pace';

/** One block as the comparisons see it; what is not known is undefined. */
export interface TrendBlock extends BlockCount {
  readonly timed?: boolean | undefined;
  readonly mixed?: boolean | undefined;
  /** Seconds given for each item. */
  readonly secondsGiven?: number | undefined;
  /** Minutes after local midnight at which it began. */
  readonly startMinutes?: number | undefined;
  /** Hours slept in the night before. */
  readonly sleepHours?: number | undefined;
  /** Hours of review for each hour of the block. */
  readonly reviewRatio?: number | undefined;
  /** Answers changed to right and from right, where both are known. */
  readonly changed?: { readonly toRight: number; readonly fromRight: number } | undefined;
  /** Places of the misses, where every miss has one. */
  readonly missedAt?: readonly number[] | undefined;
}

export const comparisonIds = [
  'timed',
  'mixed',
  'minutes',
  'hour',
  'sleep',
  'review',
  'last-fifth',
] as const;
export type ComparisonId = (typeof comparisonIds)[number];

/**
 * How a comparison stands: `differs` beyond luck; `close` no difference, and one that matters
 * would have shown; `unclear` neither; `few` too little to compare at all.
 */
export type Standing = 'differs' | 'close' | 'unclear' | 'few';

export interface Comparison {
  readonly id: ComparisonId;
  readonly standing: Standing;
  readonly one: GroupRate;
  readonly other: GroupRate;
  /** Undefined with standing `few`. */
  readonly found: RateComparison | undefined;
  /** Chance adjusted for how many comparisons are made. */
  readonly adjusted: number | undefined;
  /** Blocks more until a difference that matters would show; undefined: out of reach. */
  readonly moreBlocks: number | undefined;
}

export interface Comparisons {
  readonly rates: readonly Comparison[];
  readonly changed: {
    readonly standing: Standing;
    readonly found: ChangedAnswers | undefined;
    readonly adjusted: number | undefined;
    readonly changes: number;
    /** Changes more until a share that matters would show. */
    readonly moreChanges: number;
    /** Blocks that bring so many, at the rate so far; undefined before the first change. */
    readonly moreBlocks: number | undefined;
  };
}

/** A comparison stands when at most one in twenty of those that stand is expected to be luck. */
const discoveryRate = 0.05;
/** Hours of sleep commonly advised: 7.5 to 8; common advice, no source. */
export const sleepEnough = 7.5;
/** Hours of review an hour of block: two to five are common practice, no source. */
export const reviewEnough = 2;
export const noonMinutes = 720;
/** Below ten blocks a side a comparison rests on few sittings. Common practice, no source. */
export const smallGroup = 10;

/**
 * All comparisons of a log, adjusted together.
 *
 * @param blocks in the order they were sat
 * @param paceSeconds what the paper gives an item
 */
export function compareAll(blocks: readonly TrendBlock[], paceSeconds: number): Comparisons {
  const split = <T>(
    value: (block: TrendBlock, i: number) => T | undefined,
    isOne: (v: T) => boolean,
  ) => splitBy(blocks, value, isOne);
  const placed = blocks.filter(({ missedAt, timed }) => missedAt && timed !== false);
  const fifths = placed.map(({ items, missedAt }) => fifthsOf({ items, missedAt: missedAt! }));
  const groups: Record<ComparisonId, readonly [readonly BlockCount[], readonly BlockCount[]]> = {
    timed: split(({ timed }) => timed, Boolean),
    mixed: split(({ mixed }) => mixed, Boolean),
    // Minutes as given; half a second is rounding.
    minutes: split(
      ({ secondsGiven }) => secondsGiven,
      (seconds) => seconds <= paceSeconds + 0.5,
    ),
    hour: split(
      ({ startMinutes }) => startMinutes,
      (minutes) => minutes < noonMinutes,
    ),
    sleep: split(
      ({ sleepHours }) => sleepHours,
      (hours) => hours >= sleepEnough,
    ),
    // Review works on what comes after: a block is set against the review of the one before.
    review: split(
      (_block, i) => blocks[i - 1]?.reviewRatio,
      (ratio) => ratio >= reviewEnough,
    ),
    'last-fifth': [
      fifths.map((parts) => parts[4]!),
      fifths.map((parts) =>
        parts.slice(0, 4).reduce((sum, part) => ({
          items: sum.items + part.items,
          right: sum.right + part.right,
        })),
      ),
    ],
  };
  const found = comparisonIds.map((id) => ({ id, found: compareRates(...groups[id]) }));
  const changes = changesOf(blocks);
  const changed = changedAnswers(changes.toRight, changes.fromRight);
  const changeCount = changes.toRight + changes.fromRight;
  // Two in three is well within what `changesToFind` reaches.
  const moreChanges = Math.max(0, changesToFind()! - changeCount);

  const tested = [...found.map((each) => each.found?.chance), changed?.chance];
  const adjusted = adjustSome(tested);
  return {
    rates: found.map(({ id, found: comparison }, i) => {
      const [one, other] = groups[id].map(groupOf) as [GroupRate, GroupRate];
      const moreBlocks = comparison
        ? comparison.moreBlocks
        : moreBlocksFor(...roughly(one, other, groupOf(blocks)), 1);
      return {
        id,
        standing: standingOf(comparison, adjusted[i], moreBlocks),
        one,
        other,
        found: comparison,
        adjusted: adjusted[i],
        moreBlocks,
      };
    }),
    changed: {
      standing:
        changed === undefined
          ? 'few'
          : adjusted.at(-1)! <= discoveryRate
            ? 'differs'
            : moreChanges === 0
              ? 'close'
              : 'unclear',
      found: changed,
      adjusted: adjusted.at(-1),
      changes: changeCount,
      moreChanges,
      moreBlocks:
        changeCount === 0 ? undefined : Math.ceil((moreChanges * changes.blocks) / changeCount),
    },
  };
}

function standingOf(
  found: RateComparison | undefined,
  adjusted: number | undefined,
  moreBlocks: number | undefined,
): Standing {
  if (!found || adjusted === undefined) return 'few';
  if (adjusted <= discoveryRate) return 'differs';
  return moreBlocks === 0 ? 'close' : 'unclear';
}

function splitBy<T>(
  blocks: readonly TrendBlock[],
  value: (block: TrendBlock, i: number) => T | undefined,
  isOne: (value: T) => boolean,
): readonly [TrendBlock[], TrendBlock[]] {
  const [one, other]: [TrendBlock[], TrendBlock[]] = [[], []];
  blocks.forEach((block, i) => {
    const known = value(block, i);
    if (known !== undefined) (isOne(known) ? one : other).push(block);
  });
  return [one, other];
}

/** Adjusts the chances there are; those that are missing were not tested. */
function adjustSome(chances: readonly (number | undefined)[]): (number | undefined)[] {
  const adjusted = adjustedChances(chances.filter((chance) => chance !== undefined));
  let next = 0;
  return chances.map((chance) => (chance === undefined ? undefined : adjusted[next++]));
}

/** Changes of both kinds, and the blocks that tell of them. */
function changesOf(blocks: readonly TrendBlock[]) {
  const sum = { toRight: 0, fromRight: 0, blocks: 0 };
  for (const { changed } of blocks) {
    if (!changed) continue;
    sum.toRight += changed.toRight;
    sum.fromRight += changed.fromRight;
    sum.blocks += 1;
  }
  return sum;
}

/** With next to nothing to go on, blocks of the usual size at the usual share stand in. */
function roughly(one: GroupRate, other: GroupRate, all: GroupRate) {
  const usual = all.blocks === 0 ? 0 : all.items / all.blocks;
  const grown = (group: GroupRate): GroupRate =>
    group.blocks > 0 ? group : { blocks: usual > 0 ? 1 : 0, items: usual, share: all.share };
  return [grown(one), grown(other), all.share] as const;
}
