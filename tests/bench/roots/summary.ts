/** From the scores of single candidates to one column of the table. */
import { meanOf, type Score } from './evaluate';
import {
  brierScore,
  reliabilityBins,
  worstCalibration,
  type Coverage,
  type ReliabilityBin,
} from './metrics/calibration';

/** Bins with fewer concepts say nothing about calibration. */
export const leastBinCount = 50;

/** One method over all candidates of a variant and size. NaN or undefined: does not apply. */
export interface Summary {
  readonly gain: number;
  readonly precision: number;
  readonly averagePrecision: number;
  /**
   * Share of the way from counting to the ceiling, by the mean of the three scores. Can pass 1:
   * the ceiling knows the true causes, but not how often a concept was answered right.
   */
  readonly share: number;
  /** Its standard error over candidates (jackknife). */
  readonly shareError: number;
  /** Planted gaps by the intervals of a gap's rate; then by those of any rate; all surface concepts. */
  readonly gapCoverage: Coverage | undefined;
  readonly surfaceGapCoverage: Coverage | undefined;
  readonly deepGapCoverage: Coverage | undefined;
  readonly surfaceCoverage: Coverage | undefined;
  readonly brier: number | undefined;
  readonly bins: readonly ReliabilityBin[] | undefined;
  readonly worstBin: number | undefined;
  readonly called: number | undefined;
  readonly falselyCalled: number | undefined;
  readonly largestChance: number | undefined;
  readonly healedChance: number | undefined;
  /** Candidates on which it settled, of those where it says. */
  readonly settled: { readonly hits: number; readonly of: number } | undefined;
  /** Median over candidates. */
  readonly milliseconds: number;
}

/**
 * Summarises one method.
 *
 * @param counting, ceiling scores of the same candidates in the same order, for `share`
 */
export function summarise(
  scores: readonly Score[],
  counting: readonly Score[] | undefined,
  ceiling: readonly Score[] | undefined,
): Summary {
  const { share, shareError } = shareOfTheWay(scores, counting, ceiling);
  const forecasts = scores.flatMap((score) => score.forecasts ?? []);
  const pooled = {
    stated: forecasts.flatMap((forecast) => forecast.stated),
    cameTrue: forecasts.flatMap((forecast) => forecast.cameTrue),
  };
  const bins = forecasts.length > 0 ? reliabilityBins(pooled) : undefined;
  const settled = scores.flatMap((score) => score.settled ?? []);
  return {
    gain: meanOf(scores.map((score) => score.gain)),
    precision: meanOf(scores.map((score) => score.precision)),
    averagePrecision: meanOf(scores.map((score) => score.averagePrecision)),
    share,
    shareError,
    gapCoverage: addUp(scores.map((score) => score.gapCoverage)),
    surfaceGapCoverage: addUp(scores.map((score) => score.surfaceGapCoverage)),
    deepGapCoverage: addUp(scores.map((score) => score.deepGapCoverage)),
    surfaceCoverage: addUp(scores.map((score) => score.surfaceCoverage)),
    brier: forecasts.length > 0 ? brierScore(pooled) : undefined,
    bins,
    worstBin: bins && worstCalibration(bins, leastBinCount),
    called: meanIfAll(scores.map((score) => score.called)),
    falselyCalled: meanIfAll(scores.map((score) => score.falselyCalled)),
    largestChance: forecasts.length > 0 ? largest(pooled.stated) : undefined,
    healedChance: meanIfAll(scores.map((score) => score.healedChance)),
    settled:
      settled.length > 0 ? { hits: settled.filter(Boolean).length, of: settled.length } : undefined,
    milliseconds: medianOf(scores.map((score) => score.milliseconds)),
  };
}

/** The mean of the three scores of one candidate. */
function threeScores({ gain, precision, averagePrecision }: Score): number {
  return (gain + precision + averagePrecision) / 3;
}

/**
 * (mean - counting) / (ceiling - counting), with the means taken first, and the jackknife over
 * candidates for its error: sqrt((n - 1) / n * sum of (share without one - their mean)^2).
 */
export function shareOfTheWay(
  scores: readonly Score[],
  counting: readonly Score[] | undefined,
  ceiling: readonly Score[] | undefined,
): { share: number; shareError: number } {
  if (!counting || !ceiling) return { share: Number.NaN, shareError: Number.NaN };
  const shareWithout = (left: number | undefined): number => {
    const mean = (list: readonly Score[]) =>
      meanOf(list.filter((_, index) => index !== left).map(threeScores));
    return (mean(scores) - mean(counting)) / (mean(ceiling) - mean(counting));
  };
  const without = scores.map((_, index) => shareWithout(index));
  const centre = meanOf(without);
  const spread = without.reduce((sum, share) => sum + (share - centre) ** 2, 0);
  const n = scores.length;
  return { share: shareWithout(undefined), shareError: Math.sqrt(((n - 1) / n) * spread) };
}

function addUp(parts: readonly (Coverage | undefined)[]): Coverage | undefined {
  const known = parts.filter((part) => part !== undefined);
  if (known.length === 0) return undefined;
  return {
    inside: known.reduce((sum, part) => sum + part.inside, 0),
    above: known.reduce((sum, part) => sum + part.above, 0),
    below: known.reduce((sum, part) => sum + part.below, 0),
  };
}

function meanIfAll(numbers: readonly (number | undefined)[]): number | undefined {
  const known = numbers.filter((number) => number !== undefined);
  return known.length === numbers.length ? meanOf(known) : undefined;
}

function largest(numbers: readonly number[]): number {
  return numbers.reduce((most, number) => Math.max(most, number), 0);
}

function medianOf(numbers: readonly number[]): number {
  const sorted = numbers.toSorted((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1
    ? sorted[middle]!
    : ((sorted[middle - 1] ?? Number.NaN) + (sorted[middle] ?? Number.NaN)) / 2;
}
