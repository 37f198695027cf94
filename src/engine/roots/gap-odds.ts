/** How much a count of events speaks for a gap, the rate being integrated out. */
import type { TraceParameters } from './parameters';

/** Chances of a gap, for exposures and parameters that may change. */
export interface GapChances {
  /** Chance of a gap at exactly `events` (any number of at least 0). */
  at(concept: number, priorOdds: number, events: number): number;
  /** Reads exposures and parameters again. */
  refresh(): void;
}

/**
 * The chances for given exposures, shape (concepts,).
 *
 * Both marginals are negative binomial, so the log odds are linear in the count but for a
 * ratio of gamma functions: constant + perEvent * n + ln gammaRatio(n).
 */
export function gapChanceFinder(
  parameters: Pick<TraceParameters, 'gapShape' | 'gapRate' | 'soundShape' | 'soundRate'>,
  exposure: Float64Array,
): GapChances {
  const conceptCount = exposure.length;
  const constant = new Float64Array(conceptCount);
  const perEvent = new Float64Array(conceptCount);
  const refresh = () => {
    const { gapShape, gapRate, soundShape, soundRate } = parameters;
    const prior = gapShape * Math.log(gapRate) - soundShape * Math.log(soundRate);
    for (let c = 0; c < conceptCount; c++) {
      const logGap = Math.log(gapRate + exposure[c]!);
      const logSound = Math.log(soundRate + exposure[c]!);
      constant[c] = prior - gapShape * logGap + soundShape * logSound;
      perEvent[c] = logSound - logGap;
    }
  };
  refresh();
  return {
    at: (concept, priorOdds, events) => {
      // The shapes the model has by itself come first: one apart, from 1.
      const ratio =
        parameters.gapShape === 2 && parameters.soundShape === 1
          ? 1 + events
          : gammaRatio(parameters.gapShape, parameters.soundShape, events);
      const odds = priorOdds * ratio * Math.exp(constant[concept]! + perEvent[concept]! * events);
      return odds === Infinity ? 1 : odds / (1 + odds);
    },
    refresh,
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
