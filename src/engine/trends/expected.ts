/**
 * From past predictions and what happened to how far a prediction can be trusted.
 *
 * The interval is the prediction plus the errors that earlier predictions of the same reach made
 * (split conformal prediction: V. Vovk, A. Gammerman & G. Shafer 2005, Algorithmic Learning in a
 * Random World).
 */
import { wilsonInterval } from '../numeric/wilson';

/** A block as it was foretold and as it came. */
export interface ForetoldBlock {
  /** When the prediction was made and when the block was sat, ms since 1970-01-01. */
  readonly madeAt: number;
  readonly at: number;
  readonly items: number;
  readonly right: number;
  /** Sum over the items of the chance that each is right. */
  readonly expectedRight: number;
}

export interface Expectation {
  readonly share: number;
  /** 90 % interval for one block; undefined with too few past errors. */
  readonly interval: readonly [number, number] | undefined;
  /** Past predictions the interval comes from. */
  readonly errors: number;
  /** Mean of what happened less what was foretold. */
  readonly bias: number;
  /** The longest reach among them, in days, where it falls short of the one asked for. */
  readonly reachDays: number | undefined;
}

/** With nineteen errors a 90 % interval runs from the least to the greatest; ten make it a rough one. */
export const leastErrors = 10;
const msPerDay = 86_400_000;

/**
 * What to expect of a block so many days ahead.
 *
 * Errors count from predictions that reached from half as far to twice as far. Where those are too
 * few, the twenty of the nearest reach stand in, and `reachDays` says how far they reached where
 * that falls short.
 *
 * @param share the prediction for today's mix, as things stand now
 * @param daysAhead at least 0
 */
export function expectBlock(
  share: number,
  blocks: readonly ForetoldBlock[],
  daysAhead: number,
): Expectation {
  const past = blocks
    .filter(({ items }) => items > 0)
    .map((block) => ({
      days: (block.at - block.madeAt) / msPerDay,
      error: (block.right - block.expectedRight) / block.items,
    }));
  // A block today is foretold as well as those of the next two weeks were.
  const [from, to] = daysAhead <= 7 ? [0, 14] : [daysAhead / 2, daysAhead * 2];
  let used = past.filter(({ days }) => days >= from && days <= to);
  let reachDays: number | undefined;
  if (used.length < leastErrors && past.length >= leastErrors) {
    const away = (days: number) => Math.abs(days - daysAhead);
    used = past.toSorted((a, b) => away(a.days) - away(b.days)).slice(0, 2 * leastErrors);
    const farthest = Math.max(...used.map(({ days }) => days));
    if (farthest < from) reachDays = farthest;
  }
  const errors = used.map(({ error }) => error).sort((a, b) => a - b);
  const bias = errors.length === 0 ? 0 : errors.reduce((sum, e) => sum + e, 0) / errors.length;
  if (errors.length < leastErrors)
    return { share, interval: undefined, errors: errors.length, bias, reachDays };
  const within = (value: number) => Math.min(1, Math.max(0, value));
  return {
    share,
    interval: [
      within(share + conformalQuantile(errors, 0.05)),
      within(share + conformalQuantile(errors, 0.95)),
    ],
    errors: errors.length,
    bias,
    reachDays,
  };
}

/** The order statistic that leaves at most the tail beyond it, counting the one still to come. */
function conformalQuantile(sorted: readonly number[], p: number): number {
  const place = p < 0.5 ? Math.floor((sorted.length + 1) * p) : Math.ceil((sorted.length + 1) * p);
  return sorted[Math.min(sorted.length, Math.max(1, place)) - 1]!;
}

export interface CalibrationBin {
  /** Mean chance foretold. */
  readonly expected: number;
  readonly share: number;
  readonly interval: readonly [number, number];
  readonly items: number;
}

/**
 * Items in bins of equal size by the chance foretold, each with the share that came out right.
 *
 * @param items chance of right in [0, 1], and what came
 */
export function calibrationBins(
  items: readonly { readonly chance: number; readonly right: boolean }[],
  binCount = 8,
): CalibrationBin[] {
  const sorted = [...items].sort((a, b) => a.chance - b.chance);
  const bins: CalibrationBin[] = [];
  for (let k = 0; k < binCount; k++) {
    const bin = sorted.slice(
      Math.floor((k * sorted.length) / binCount),
      Math.floor(((k + 1) * sorted.length) / binCount),
    );
    if (bin.length === 0) continue;
    const right = bin.filter((item) => item.right).length;
    bins.push({
      expected: bin.reduce((sum, item) => sum + item.chance, 0) / bin.length,
      share: right / bin.length,
      interval: wilsonInterval(right, bin.length),
      items: bin.length,
    });
  }
  return bins;
}
