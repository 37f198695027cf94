/**
 * Whether chains agree, and how many independent draws they are worth.
 *
 * A. Vehtari, A. Gelman, D. Simpson, B. Carpenter & P.-C. Bürkner (2021), "Rank-normalization,
 * folding, and localization: an improved R-hat for assessing convergence of MCMC", Bayesian
 * Analysis 16:667-718. Chains are split in half; R-hat is the larger of that of the
 * rank-normalised draws and that of their folded form; bulk effective sample size is that of the
 * rank-normalised draws, tail the smaller of those of the 5 % and 95 % indicators. Autocorrelations
 * are cut off by C. J. Geyer's initial monotone sequence (1992, Statistical Science 7:473-483).
 */
import { normalQuantile } from './normal';

type Chains = readonly ArrayLike<number>[];

export interface Convergence {
  readonly rHat: number;
  readonly essBulk: number;
  readonly essTail: number;
}

/**
 * The three figures for one quantity. NaN throughout where all draws are equal, or a chain has
 * fewer than four.
 *
 * @param chains one row of draws for each chain, all of one length
 */
export function convergenceOf(chains: Chains): Convergence {
  const split = splitChains(chains);
  const length = split[0]?.length ?? 0;
  if (length < 2 || isConstant(split)) return { rHat: NaN, essBulk: NaN, essTail: NaN };
  const ranked = rankNormalised(split);
  const centre = quantileSorted(sortedDraws(split), 0.5);
  const folded = split.map((chain) => chain.map((draw) => Math.abs(draw - centre)));
  // Draws on two values fold to one: then only location can differ.
  const foldedRHat = isConstant(folded) ? NaN : splitRHat(rankNormalised(folded));
  const rHat = splitRHat(ranked);
  return {
    rHat: foldedRHat > rHat ? foldedRHat : rHat,
    essBulk: effectiveSampleSize(ranked),
    essTail: tailSize(split),
  };
}

function splitChains(chains: Chains): number[][] {
  return chains.flatMap((chain) => {
    const draws = Array.from(chain);
    const half = Math.floor(draws.length / 2);
    // Of an odd number the middle draw is left out.
    return [draws.slice(0, half), draws.slice(draws.length - half)];
  });
}

function isConstant(chains: readonly number[][]): boolean {
  const first = chains[0]?.[0];
  return chains.every((chain) => chain.every((draw) => draw === first));
}

function sortedDraws(chains: readonly number[][]): number[] {
  return chains.flat().sort((a, b) => a - b);
}

/** Linear interpolation between order statistics (type 7 of Hyndman & Fan 1996). */
function quantileSorted(sorted: readonly number[], p: number): number {
  const place = (sorted.length - 1) * p;
  const below = Math.floor(place);
  const low = sorted[below]!;
  const high = sorted[Math.min(below + 1, sorted.length - 1)]!;
  return low + (place - below) * (high - low);
}

/** Normal scores of the pooled ranks, ties sharing their mean rank (their equation 14). */
function rankNormalised(chains: readonly number[][]): number[][] {
  const length = chains[0]!.length;
  const total = chains.length * length;
  const draws = chains.flat();
  const order = Array.from({ length: total }, (_, i) => i).sort((a, b) => draws[a]! - draws[b]!);
  const scores = new Array<number>(total);
  for (let i = 0; i < total;) {
    let end = i + 1;
    while (end < total && draws[order[end]!] === draws[order[i]!]) end += 1;
    const rank = (i + 1 + end) / 2;
    const score = normalQuantile((rank - 3 / 8) / (total + 1 / 4));
    for (; i < end; i++) scores[order[i]!] = score;
  }
  return chains.map((_, k) => scores.slice(k * length, (k + 1) * length));
}

function meanOf(values: readonly number[]): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum / values.length;
}

function varianceOf(values: readonly number[], mean: number): number {
  let sum = 0;
  for (const value of values) sum += (value - mean) * (value - mean);
  return sum / (values.length - 1);
}

/** sqrt(var+ / W), their equations 1-4, on chains already split. */
function splitRHat(chains: readonly number[][]): number {
  const length = chains[0]!.length;
  const means = chains.map(meanOf);
  const within = meanOf(chains.map((chain, k) => varianceOf(chain, means[k]!)));
  const between = length * varianceOf(means, meanOf(means));
  return Math.sqrt((between / within + length - 1) / length);
}

/** Their equations 10-13 with Geyer's cut, on chains already split. */
function effectiveSampleSize(chains: readonly number[][]): number {
  const length = chains[0]!.length;
  const total = length * chains.length;
  const means = chains.map(meanOf);
  const within = meanOf(chains.map((chain, k) => varianceOf(chain, means[k]!)));
  let spread = (within * (length - 1)) / length;
  if (chains.length > 1) spread += varianceOf(means, meanOf(means));
  if (!(spread > 0)) return NaN;

  const correlationAt = (lag: number): number => {
    let sum = 0;
    chains.forEach((chain, k) => {
      let covariance = 0;
      for (let i = 0; i + lag < length; i++)
        covariance += (chain[i]! - means[k]!) * (chain[i + lag]! - means[k]!);
      sum += covariance / length;
    });
    return 1 - (within - sum / chains.length) / spread;
  };

  // Sums of neighbouring lags 2k and 2k + 1, kept falling; the first that is not positive, or
  // the last the chain is long enough for, gives only its even lag, once.
  let pairs = 0;
  let lastPair = Infinity;
  let even = 1;
  let odd = correlationAt(1);
  for (let lag = 0; lag < length - 4 && even + odd > 0;) {
    lastPair = Math.min(lastPair, even + odd);
    pairs += lastPair;
    lag += 2;
    even = correlationAt(lag);
    odd = correlationAt(lag + 1);
  }
  const time = -1 + 2 * pairs + Math.max(0, even);
  return total / Math.max(time, 1 / Math.log10(total));
}

function tailSize(chains: readonly number[][]): number {
  const sorted = sortedDraws(chains);
  const sizes = [0.05, 0.95].map((p) => {
    const limit = quantileSorted(sorted, p);
    const marks = chains.map((chain) => chain.map((draw) => (draw <= limit ? 1 : 0)));
    return isConstant(marks) ? NaN : effectiveSampleSize(marks);
  });
  const known = sizes.filter((size) => !Number.isNaN(size));
  return known.length === 0 ? NaN : Math.min(...known);
}
