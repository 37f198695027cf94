/** How much a count of events speaks for a gap, the rate being integrated out. */
import type { TraceParameters } from './parameters';

/** Chance of a gap at exactly `events` (any number of at least 0). */
export type GapChanceAt = (concept: number, priorOdds: number, events: number) => number;

/**
 * The chance function for given exposures, shape (concepts,).
 *
 * Both marginals are negative binomial, so the log odds are linear in the count but for a
 * ratio of gamma functions: constant + perEvent * n + ln gammaRatio(n).
 */
export function gapChanceFinder(parameters: TraceParameters, exposure: Float64Array): GapChanceAt {
  const { gapShape, gapRate, soundShape, soundRate } = parameters;
  const conceptCount = exposure.length;
  const constant = new Float64Array(conceptCount);
  const perEvent = new Float64Array(conceptCount);
  const prior = gapShape * Math.log(gapRate) - soundShape * Math.log(soundRate);
  for (let c = 0; c < conceptCount; c++) {
    const logGap = Math.log(gapRate + exposure[c]!);
    const logSound = Math.log(soundRate + exposure[c]!);
    constant[c] = prior - gapShape * logGap + soundShape * logSound;
    perEvent[c] = logSound - logGap;
  }
  return (concept, priorOdds, events) => {
    const odds =
      priorOdds *
      gammaRatio(gapShape, soundShape, events) *
      Math.exp(constant[concept]! + perEvent[concept]! * events);
    return odds === Infinity ? 1 : odds / (1 + odds);
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
