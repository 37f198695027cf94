/**
 * A smooth line through weekly shares: the kernel mean of E. A. Nadaraya (1964) and G. S. Watson
 * (1964), with a normal kernel over the counts, which is the local likelihood estimate of a
 * constant share (R. Tibshirani & T. Hastie 1987, JASA 82:559-567). Its width is the one that
 * best foretells each week from the others (leave-one-out log likelihood).
 */
import { normalQuantile } from '../numeric/normal';

export interface WeekCount {
  readonly week: number;
  readonly items: number;
  readonly right: number;
}

export interface SmoothPoint {
  readonly week: number;
  readonly share: number;
  /** 95 % band; a shape in the data is smoothed away as much as noise is, which it does not cover. */
  readonly low: number;
  readonly high: number;
}

/** Widths tried: the kernel's standard deviation in weeks. */
export const widths: readonly number[] = [1, 1.5, 2, 3, 4, 6, 9, 13, 26];

/**
 * The width, in weeks, that foretells left-out weeks best; the widest of equals.
 *
 * @param counts at least two weeks with items; each week once
 */
export function chooseWidth(counts: readonly WeekCount[]): number {
  let [best, bestFit] = [widths.at(-1)!, -Infinity];
  for (const width of [...widths].reverse()) {
    let fit = 0;
    counts.forEach((left, i) => {
      const others = counts.filter((_, j) => j !== i);
      // Half a count each way keeps a left-out week from being impossible.
      const { right, items } = weighed(others, left.week, width);
      const share = (right + 0.5) / (items + 1);
      fit += left.right * Math.log(share) + (left.items - left.right) * Math.log(1 - share);
    });
    if (fit > bestFit + 1e-9) [best, bestFit] = [width, fit];
  }
  return best;
}

/** The smooth share at every week from the first to the last. Grows with weeks squared. */
export function smoothShares(counts: readonly WeekCount[], width: number): SmoothPoint[] {
  const first = counts[0];
  const last = counts.at(-1);
  if (!first || !last) return [];
  const z = normalQuantile(0.975);
  return Array.from({ length: last.week - first.week + 1 }, (_, i) => {
    const week = first.week + i;
    const { right, items, squares } = weighed(counts, week, width);
    const share = right / items;
    // Items of unequal weight are worth as many as have the same spread (L. Kish 1965, Survey Sampling).
    const worth = (items * items) / squares;
    const centre = (share * worth + (z * z) / 2) / (worth + z * z);
    const half = (z / (worth + z * z)) * Math.sqrt(worth * share * (1 - share) + (z * z) / 4);
    return { week, share, low: Math.max(0, centre - half), high: Math.min(1, centre + half) };
  });
}

function weighed(counts: readonly WeekCount[], at: number, width: number) {
  let [right, items, squares] = [0, 0, 0];
  for (const each of counts) {
    const weight = Math.exp(-(((each.week - at) / width) ** 2) / 2);
    right += weight * each.right;
    items += weight * each.items;
    squares += weight * weight * each.items;
  }
  return { right, items, squares };
}
