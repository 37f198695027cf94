/** How much a count of events speaks for a gap, the rate being integrated out. */
import { quickExp } from '../numeric/quick-exp';
import type { TraceParameters } from './parameters';

/** Chances of a gap, for exposures and parameters that may change. */
export interface GapChances {
  /** Chance of a gap at exactly `events` (any number of at least 0). */
  at(concept: number, priorOdds: number, events: number): number;
  /** Reads exposures and parameters again. */
  refresh(): void;
}

type RatePriors = Pick<TraceParameters, 'gapShape' | 'gapRate' | 'soundShape' | 'soundRate'>;

/** Shapes (concepts,). */
export interface GapLogOdds {
  readonly constant: Float64Array;
  readonly perEvent: Float64Array;
}

/**
 * Log of the likelihood ratio of gap to sound as `constant + perEvent * n + ln gammaRatio(n)`, each
 * of shape (concepts,): both marginals are negative binomial, so that but for the ratio of gamma
 * functions it is linear in the count n.
 *
 * @param into where to write; made where left out
 */
export function gapLogOdds(
  { gapShape, gapRate, soundShape, soundRate }: RatePriors,
  exposure: Float64Array,
  into: GapLogOdds = {
    constant: new Float64Array(exposure.length),
    perEvent: new Float64Array(exposure.length),
  },
): GapLogOdds {
  const prior = gapShape * Math.log(gapRate) - soundShape * Math.log(soundRate);
  for (let c = 0; c < exposure.length; c++) {
    const logGap = Math.log(gapRate + exposure[c]!);
    const logSound = Math.log(soundRate + exposure[c]!);
    into.constant[c] = prior - gapShape * logGap + soundShape * logSound;
    into.perEvent[c] = logSound - logGap;
  }
  return into;
}

/** The chances for given exposures, shape (concepts,). */
export function gapChanceFinder(parameters: RatePriors, exposure: Float64Array): GapChances {
  const terms = gapLogOdds(parameters, exposure);
  const { constant, perEvent } = terms;
  return {
    at: (concept, priorOdds, events) => {
      // The shapes the model has by itself come first: one apart, from 1.
      const ratio =
        parameters.gapShape === 2 && parameters.soundShape === 1
          ? 1 + events
          : gammaRatio(parameters.gapShape, parameters.soundShape, events);
      const odds = priorOdds * ratio * quickExp(constant[concept]! + perEvent[concept]! * events);
      return odds / (1 + odds);
    },
    refresh: () => void gapLogOdds(parameters, exposure, terms),
  };
}

/**
 * Gamma(gap + n) Gamma(sound) / (Gamma(sound + n) Gamma(gap)), for shapes a whole number
 * apart, as the parameters' are: a product instead of four log-gammas for each concept and pass.
 */
export function gammaRatio(gapShape: number, soundShape: number, n: number): number {
  let ratio = 1;
  for (let shape = soundShape; shape < gapShape - 0.5; shape++) ratio *= (shape + n) / shape;
  for (let shape = gapShape; shape < soundShape - 0.5; shape++) ratio *= shape / (shape + n);
  return ratio;
}
