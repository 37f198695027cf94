/** Runs one method on one case and scores it. */
import type { Candidate } from './generator/candidate';
import type { Case } from './generator/log';
import { shuffledIndices, uniformStream } from './generator/random';
import type { Method } from './methods';
import { coverageOf, type Coverage, type Forecasts } from './metrics/calibration';
import { averagePrecision, normalisedGain, precisionAt, rankedByScore } from './metrics/ranking';

/** Places that a candidate looks at. */
export const shownPlaces = 10;

/** One method on one candidate. NaN where there is no gap to find. */
export interface Score {
  readonly seed: number;
  readonly gain: number;
  readonly precision: number;
  readonly averagePrecision: number;
  readonly milliseconds: number;
  readonly settled: boolean | undefined;
  /** Stated gap chances against the planted gaps, all concepts. */
  readonly forecasts: Forecasts | undefined;
  /** Intervals of a gap's fault rate against the truth, over the planted gaps. */
  readonly gapCoverage: Coverage | undefined;
  /**
   * Intervals of the fault rate, gap or not, against the truth: gaps at the surface and below it, all
   * surface concepts. Over gaps alone they cannot hold 90 %: of a gap that was hardly asked they say,
   * rightly, that it is probably sound.
   */
  readonly surfaceGapCoverage: Coverage | undefined;
  readonly deepGapCoverage: Coverage | undefined;
  readonly surfaceCoverage: Coverage | undefined;
  /** Concepts called a gap (a chance of at least a half), and those of them that are none. */
  readonly called: number | undefined;
  readonly falselyCalled: number | undefined;
  /** Mean stated gap chance of healed gaps; NaN where none healed. */
  readonly healedChance: number | undefined;
}

export async function evaluate(method: Method, given: Case, candidate: Candidate): Promise<Score> {
  const { truth } = given;
  const started = performance.now();
  const result = await method.run(given);
  const milliseconds = performance.now() - started;

  const tieOrder = shuffledIndices(uniformStream(candidate.seed, 'ties'), truth.isGap.length);
  const ranking = rankedByScore(result.scores, tieOrder);
  const relevant = ranking.map((concept) => truth.isGap[concept]!);
  const anyGap = relevant.includes(true);
  const gains = ranking.map((concept) => truth.avoidable[concept]!);

  const chances = result.gapChances && Array.from(result.gapChances);
  const calls = result.calledGaps ?? chances?.map((chance) => chance >= 0.5);
  const isSurface = (concept: number) => concept < candidate.map.surfaceCount;
  const coverage = (
    include: (concept: number) => boolean,
    intervals = result.faultIntervals,
  ): Coverage | undefined => {
    if (!intervals) return undefined;
    const chosen = ranking.filter(include);
    return coverageOf(
      chosen.map((concept) => intervals[concept]!),
      chosen.map((concept) => truth.faultRate[concept]!),
    );
  };
  return {
    seed: candidate.seed,
    gain: normalisedGain(gains, shownPlaces),
    precision: anyGap ? precisionAt(relevant, shownPlaces) : Number.NaN,
    averagePrecision: averagePrecision(relevant),
    milliseconds,
    settled: result.settled,
    forecasts: chances && { stated: chances, cameTrue: truth.isGap },
    gapCoverage:
      result.gapFaultIntervals &&
      coverage((concept) => truth.isGap[concept]!, result.gapFaultIntervals),
    surfaceGapCoverage: coverage((concept) => truth.isGap[concept]! && isSurface(concept)),
    deepGapCoverage: coverage((concept) => truth.isGap[concept]! && !isSurface(concept)),
    surfaceCoverage: coverage(isSurface),
    called: calls?.filter(Boolean).length,
    falselyCalled: calls?.filter((call, concept) => call && !truth.isGap[concept]!).length,
    healedChance: chances && meanOf(chances.filter((_, concept) => candidate.isHealed[concept]!)),
  };
}

/** The mean; NaN for none. */
export function meanOf(numbers: readonly number[]): number {
  return numbers.reduce((a, b) => a + b, 0) / numbers.length;
}
