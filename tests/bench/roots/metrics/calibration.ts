/** Whether stated chances and intervals keep their word. */

/** One band of stated chances, against how often it came true. */
export interface ReliabilityBin {
  /** Bounds of the stated chance; the upper one is included only where it is 1. */
  readonly from: number;
  readonly to: number;
  readonly count: number;
  /** Mean stated chance and share that came true; NaN for an empty bin. */
  readonly meanStated: number;
  readonly shareTrue: number;
}

/** Stated chances with what came true, pooled over concepts and candidates. */
export interface Forecasts {
  readonly stated: readonly number[];
  readonly cameTrue: readonly boolean[];
}

/**
 * Mean squared distance of a stated chance from 1 where it came true and 0 where not, in [0, 1]
 * (G. W. Brier 1950; the half of his sum over both outcomes). NaN without forecasts.
 *
 * @example
 * brierScore({ stated: [0.8, 0.3], cameTrue: [true, false] }); // (0.04 + 0.09) / 2 = 0.065
 */
export function brierScore({ stated, cameTrue }: Forecasts): number {
  let sum = 0;
  stated.forEach((chance, index) => (sum += (chance - (cameTrue[index]! ? 1 : 0)) ** 2));
  return sum / stated.length;
}

/**
 * Forecasts in bands of equal width.
 *
 * @example
 * reliabilityBins({ stated: [0.05, 1], cameTrue: [false, true] }, 10)[9]?.count; // 1
 */
export function reliabilityBins({ stated, cameTrue }: Forecasts, binCount = 10): ReliabilityBin[] {
  const sums = Array.from({ length: binCount }, () => ({ count: 0, stated: 0, true: 0 }));
  stated.forEach((chance, index) => {
    const bin = sums[Math.min(binCount - 1, Math.floor(chance * binCount))]!;
    bin.count++;
    bin.stated += chance;
    bin.true += cameTrue[index]! ? 1 : 0;
  });
  return sums.map((bin, index) => ({
    from: index / binCount,
    to: (index + 1) / binCount,
    count: bin.count,
    meanStated: bin.stated / bin.count,
    shareTrue: bin.true / bin.count,
  }));
}

/**
 * Largest distance between stated and true share over the bins that hold at least `leastCount`;
 * 0 if there is none.
 */
export function worstCalibration(bins: readonly ReliabilityBin[], leastCount: number): number {
  const distances = bins
    .filter((bin) => bin.count >= leastCount)
    .map((bin) => Math.abs(bin.meanStated - bin.shareTrue));
  return Math.max(0, ...distances);
}

/** Where true values lie against their intervals; the three counts add to all. */
export interface Coverage {
  /** Inside, ends included. */
  readonly inside: number;
  readonly above: number;
  readonly below: number;
}

/**
 * Counts the true values inside, above and below their intervals.
 *
 * @param intervals lower and upper end, in the order of `truths`
 */
export function coverageOf(
  intervals: readonly (readonly [number, number])[],
  truths: readonly number[],
): Coverage {
  const above = intervals.filter(([, high], i) => truths[i]! > high).length;
  const below = intervals.filter(([low], i) => truths[i]! < low).length;
  return { inside: intervals.length - above - below, above, below };
}
