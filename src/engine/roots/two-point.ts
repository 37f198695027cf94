/**
 * A concept's posterior where its count of events is itself in doubt.
 *
 * Rate and gap state are integrated out given a count: two negative binomial marginals. The
 * count is a sum of unequal coins (which misses were this concept's), of which mean, variance
 * and third central moment are known; the expectation over it is taken at the two points
 * with the same three moments (two-point Gauss quadrature):
 *
 *     low                mean  high        mass at high = (mean - low) / (high - low)
 *      o------------------|------o
 *
 * For one coin the points are 0 and 1 and the expectation is exact; for any sum of coins the
 * lower point is never below 0.
 */
import { gapChanceFinder } from './gap-odds';
import type { TraceParameters } from './parameters';

/** Works out posteriors; the fields hold the answer of the last `evaluate`. */
export interface ConceptModel {
  gapChance: number;
  /** Expected product of gap state and rate. */
  gapRate: number;
  /** Expected rate. */
  rate: number;
  evaluate(concept: number, priorOdds: number, mean: number, variance: number, third: number): void;
}

/** A model of every concept's posterior for given exposures, shape (concepts,). */
export function conceptModel(parameters: TraceParameters, exposure: Float64Array): ConceptModel {
  const { gapShape, gapRate, soundShape, soundRate } = parameters;
  const chances = gapChanceFinder(parameters, exposure);
  const model: ConceptModel = {
    gapChance: 0,
    gapRate: 0,
    rate: 0,
    evaluate(c, priorOdds, mean, variance, third) {
      const gapPart = 1 / (gapRate + exposure[c]!);
      const soundPart = 1 / (soundRate + exposure[c]!);
      // Below this the two points would be a millionth of an event apart.
      if (variance <= 1e-12) {
        const at = mean < 0 ? 0 : mean;
        const chance = chances.at(c, priorOdds, at);
        model.gapChance = chance;
        model.gapRate = chance * (gapShape + at) * gapPart;
        model.rate = model.gapRate + (1 - chance) * (soundShape + at) * soundPart;
        return;
      }
      const skew = third / (2 * variance);
      const root = Math.sqrt(skew * skew + variance);
      const high = mean + skew + root;
      let low = mean + skew - root;
      if (low < 0) low = 0;
      let mass = (mean - low) / (high - low);
      if (mass < 0) mass = 0;
      const atLow = (1 - mass) * chances.at(c, priorOdds, low);
      const atHigh = mass * chances.at(c, priorOdds, high);
      model.gapChance = atLow + atHigh;
      model.gapRate = (atLow * (gapShape + low) + atHigh * (gapShape + high)) * gapPart;
      model.rate =
        model.gapRate +
        ((1 - mass - atLow) * (soundShape + low) + (mass - atHigh) * (soundShape + high)) *
          soundPart;
    },
  };
  return model;
}
