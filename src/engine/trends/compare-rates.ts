/**
 * Two groups of blocks compared by their shares of right items.
 *
 * Items of one block are alike, so blocks differ more than single items would: counts are divided
 * by the dispersion between blocks of a group (Pearson's statistic over its degrees of freedom,
 * P. McCullagh & J. A. Nelder 1989, Generalized Linear Models, section 4.5, never below 1; dividing
 * counts so: J. N. K. Rao & A. J. Scott 1992, Biometrics 48:577-585).
 */
import { normalQuantile } from '../numeric/normal';
import { wilsonInterval } from '../numeric/wilson';
import { twoSidedChance } from './student';

export interface BlockCount {
  readonly items: number;
  readonly right: number;
}

export interface RateComparison {
  readonly one: GroupRate;
  readonly other: GroupRate;
  /** Share of the one less that of the other. */
  readonly difference: number;
  /** 95 % interval. */
  readonly interval: readonly [number, number];
  /** Chance of a difference at least as large were there none (two-sided). */
  readonly chance: number;
  /** How much more blocks differ than items by themselves would make them; at least 1. */
  readonly dispersion: number;
  /** More blocks until a difference of `differenceThatMatters` would show; undefined: out of reach. */
  readonly moreBlocks: number | undefined;
}

export interface GroupRate {
  readonly blocks: number;
  readonly items: number;
  readonly share: number;
}

/** Blocks a group must have before anything is compared. */
export const leastBlocks = 3;
/** A difference a candidate would act on, in shares: common practice, no source. */
export const differenceThatMatters = 0.05;
/** Beyond so many blocks more, waiting is no plan. */
const mostBlocks = 2_000;

/**
 * Interval of the difference of two independent shares, method 10 of R. G. Newcombe (1998),
 * Statistics in Medicine 17:873-890: Wilson's intervals joined. Counts may be fractions.
 *
 * @example
 * newcombeDifference(56, 70, 48, 80); // [0.0524..., 0.3339...]
 */
export function newcombeDifference(
  rightOne: number,
  itemsOne: number,
  rightOther: number,
  itemsOther: number,
): readonly [number, number] {
  const one = rightOne / itemsOne;
  const other = rightOther / itemsOther;
  const [lowOne, highOne] = wilsonInterval(rightOne, itemsOne);
  const [lowOther, highOther] = wilsonInterval(rightOther, itemsOther);
  const difference = one - other;
  return [
    difference - Math.hypot(one - lowOne, highOther - other),
    difference + Math.hypot(highOne - one, other - lowOther),
  ];
}

/**
 * The comparison of two groups of blocks, or how many blocks are lacking in the smaller one.
 *
 * @returns undefined when a group has fewer than three blocks with items
 */
export function compareRates(
  one: readonly BlockCount[],
  other: readonly BlockCount[],
): RateComparison | undefined {
  const [first, second] = [groupOf(one), groupOf(other)];
  if (first.blocks < leastBlocks || second.blocks < leastBlocks) return undefined;

  const freedom = first.blocks + second.blocks - 2;
  const dispersion = Math.max(1, (scatterOf(one) + scatterOf(other)) / freedom);
  const [itemsOne, itemsOther] = [first.items / dispersion, second.items / dispersion];
  const difference = first.share - second.share;
  const pooled =
    (first.share * first.items + second.share * second.items) / (first.items + second.items);
  const error = Math.sqrt(pooled * (1 - pooled) * (1 / itemsOne + 1 / itemsOther));
  return {
    one: first,
    other: second,
    difference,
    interval: newcombeDifference(
      first.share * itemsOne,
      itemsOne,
      second.share * itemsOther,
      itemsOther,
    ),
    // All right or all wrong in both: nothing differs.
    chance: error === 0 ? 1 : twoSidedChance(difference / error, freedom),
    dispersion,
    moreBlocks: moreBlocksFor(first, second, pooled, dispersion),
  };
}

/** Blocks and items of a group, and its share; share is 0 without items. */
export function groupOf(blocks: readonly BlockCount[]): GroupRate {
  const counted = blocks.filter(({ items }) => items > 0);
  const items = counted.reduce((sum, block) => sum + block.items, 0);
  const right = counted.reduce((sum, block) => sum + block.right, 0);
  return { blocks: counted.length, items, share: items === 0 ? 0 : right / items };
}

/** Pearson's statistic of the blocks of one group about their common share. */
function scatterOf(blocks: readonly BlockCount[]): number {
  const { share } = groupOf(blocks);
  const spread = share * (1 - share);
  if (spread === 0) return 0;
  return blocks.reduce(
    (sum, { items, right }) =>
      items === 0 ? sum : sum + (right - items * share) ** 2 / (items * spread),
    0,
  );
}

/**
 * Blocks more, each put into the group with fewer items, until a difference that matters would be
 * found four times in five at 5 %. From the variance that needs: J. L. Fleiss, Statistical Methods
 * for Rates and Proportions, without continuity correction, at a common share.
 */
export function moreBlocksFor(
  one: GroupRate,
  other: GroupRate,
  share: number,
  dispersion: number,
  difference = differenceThatMatters,
): number | undefined {
  const blockItems = (one.items + other.items) / Math.max(1, one.blocks + other.blocks);
  // An all-right log says nothing of its spread; one item in twenty wrong stands in.
  const spread = Math.max(share * (1 - share), 0.05 * 0.95) * dispersion;
  const needed = (difference / (normalQuantile(0.975) + normalQuantile(0.8))) ** 2 / spread;
  let [a, b] = [one.items, other.items];
  for (let more = 0; more <= mostBlocks; more++) {
    if (a > 0 && b > 0 && 1 / a + 1 / b <= needed) return more;
    if (blockItems === 0) return undefined;
    if (a <= b) a += blockItems;
    else b += blockItems;
  }
  return undefined;
}
