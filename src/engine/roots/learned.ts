/**
 * The two gammas of the rates, learned from the log.
 *
 * A candidate's gaps may be deep or mild, their sound concepts firm or shaky. Priors keep a small
 * log near the fixed constants: with the few gaps of a few hundred items they decide, with
 * thousands of items the data do. Drawn given the rates:
 *
 *     gap shape   one of a few whole numbers, by prior times likelihood
 *     gap rate    Gamma(8 + shape * gaps, 8 * mean / shape + sum of their rates)
 *     sound rate  Gamma(4 + concepts, 4 / 25 + sum of their rates)          (sound shape 1)
 */
import { logGamma } from '../numeric/special';
import { drawGamma } from '../numeric/sampling';
import type { Random } from '../numeric/random';
import type { TraceParameters } from './parameters';

/** The gammas as they stand in a sweep. */
export interface RateGammas {
  gapShape: number;
  gapRate: number;
  soundRate: number;
}

/** Shapes a gap's gamma may have: from many mild gaps among deep ones to all alike. */
const gapShapes = [
  { shape: 2, prior: 0.4 },
  { shape: 3, prior: 0.3 },
  { shape: 4, prior: 0.2 },
  { shape: 6, prior: 0.1 },
] as const;
/** Weight of the prior, as a gamma's shape: 8 puts the mean rate of gaps within a third of its prior. */
const gapWeight = 8;
export const soundWeight = 4;

/** What a draw needs to know of the concepts: sums over those that are gaps, and over the others. */
export interface RateSums {
  readonly gaps: number;
  readonly gapSum: number;
  readonly gapLogSum: number;
  readonly sound: number;
  readonly soundSum: number;
}

const none: RateSums = { gaps: 0, gapSum: 0, gapLogSum: 0, sound: 0, soundSum: 0 };

/** Draws the gammas given the rates; given no rates, from their prior. */
export function drawRateGammas(
  random: Random,
  prior: TraceParameters,
  into: RateGammas,
  sums: RateSums = none,
): void {
  const { gaps, gapSum, gapLogSum, sound, soundSum } = sums;
  const priorMean = prior.gapShape / prior.gapRate;
  // The gap rate is integrated out where the shape is drawn: gammas of both normalise to this.
  const logChance = gapShapes.map(({ shape, prior: chance }) => {
    const divisor = (gapWeight * priorMean) / shape;
    return (
      Math.log(chance) +
      gapWeight * Math.log(divisor) -
      logGamma(gapWeight) +
      logGamma(gapWeight + shape * gaps) -
      (gapWeight + shape * gaps) * Math.log(divisor + gapSum) +
      (shape - 1) * gapLogSum -
      gaps * logGamma(shape)
    );
  });
  const top = Math.max(...logChance);
  const masses = logChance.map((each) => Math.exp(each - top));
  let u = random.uniform() * masses.reduce((sum, mass) => sum + mass, 0);
  let k = 0;
  while (k < masses.length - 1 && u >= masses[k]!) {
    u -= masses[k]!;
    k += 1;
  }
  const { shape } = gapShapes[k]!;
  into.gapShape = shape;
  into.gapRate =
    drawGamma(random, gapWeight + shape * gaps) / ((gapWeight * priorMean) / shape + gapSum);
  into.soundRate =
    drawGamma(random, soundWeight + prior.soundShape * sound) /
    (soundWeight / prior.soundRate + soundSum);
}
