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
import { quickExp } from '../numeric/quick-exp';
import { gammaRatio, gapLogOdds } from './gap-odds';
import type { TraceParameters } from './parameters';

/**
 * Works out posteriors. Numbers that are no whole ones go in and out by arrays: as arguments, results
 * or fields of functions too large to be inlined each would be put on the heap.
 *
 * `counts`, shape (3 * concepts,): mean, variance and third central moment of each concept's count.
 */
export interface ConceptModel {
  priorOdds: number;
  /** Expected rate, expected product of gap state and rate, chance of a gap: of the last call. */
  readonly answer: Float64Array;
  /** What `evaluateWithout` is to take out: the chance of a coin, above 1 a number of events; its size. */
  readonly asked: Float64Array;
  evaluate(concept: number, counts: Float64Array): void;
  /** With `asked` taken out of the count. */
  evaluateWithout(concept: number, counts: Float64Array): void;
}

/** A model of every concept's posterior for given exposures, shape (concepts,). */
export function conceptModel(parameters: TraceParameters, exposure: Float64Array): ConceptModel {
  const { gapShape, gapRate, soundShape, soundRate } = parameters;
  const conceptCount = exposure.length;
  const { constant, perEvent } = gapLogOdds(parameters, exposure);
  const gapPart = new Float64Array(conceptCount);
  const soundPart = new Float64Array(conceptCount);
  for (let c = 0; c < conceptCount; c++) {
    gapPart[c] = 1 / (gapRate + exposure[c]!);
    soundPart[c] = 1 / (soundRate + exposure[c]!);
  }
  const oneApart = gapShape === 2 && soundShape === 1;
  const answer = new Float64Array(3);
  const asked = new Float64Array(2);
  // Mean, variance and third moment that `work` is to go by.
  const moments = new Float64Array(3);
  function work(c: number): void {
    const mean = moments[0]!;
    const variance = moments[1]!;
    const { priorOdds } = model;
    const base = constant[c]!;
    const slope = perEvent[c]!;
    // Below this the two points would be a millionth of an event apart.
    if (variance <= 1e-12) {
      const at = mean < 0 ? 0 : mean;
      const odds =
        priorOdds *
        (oneApart ? 1 + at : gammaRatio(gapShape, soundShape, at)) *
        quickExp(base + slope * at);
      const chance = odds / (1 + odds);
      const asGap = chance * (gapShape + at) * gapPart[c]!;
      answer[0] = asGap + (1 - chance) * (soundShape + at) * soundPart[c]!;
      answer[1] = asGap;
      answer[2] = chance;
      return;
    }
    const skew = moments[2]! / (2 * variance);
    const root = Math.sqrt(skew * skew + variance);
    const high = mean + skew + root;
    let low = mean + skew - root;
    if (low < 0) low = 0;
    let mass = (mean - low) / (high - low);
    if (mass < 0) mass = 0;
    const oddsLow =
      priorOdds *
      (oneApart ? 1 + low : gammaRatio(gapShape, soundShape, low)) *
      quickExp(base + slope * low);
    const oddsHigh =
      priorOdds *
      (oneApart ? 1 + high : gammaRatio(gapShape, soundShape, high)) *
      quickExp(base + slope * high);
    // One division for both chances.
    const part = 1 / ((1 + oddsLow) * (1 + oddsHigh));
    const soundLow = (1 - mass) * (1 + oddsHigh) * part;
    const soundHigh = mass * (1 + oddsLow) * part;
    const gapLow = soundLow * oddsLow;
    const gapHigh = soundHigh * oddsHigh;
    const asGap = (gapLow * (gapShape + low) + gapHigh * (gapShape + high)) * gapPart[c]!;
    answer[0] =
      asGap + (soundLow * (soundShape + low) + soundHigh * (soundShape + high)) * soundPart[c]!;
    answer[1] = asGap;
    answer[2] = gapLow + gapHigh;
  }

  const model: ConceptModel = {
    priorOdds: 0.5,
    answer,
    asked,
    evaluate(c, counts) {
      moments[0] = counts[3 * c]!;
      moments[1] = counts[3 * c + 1]!;
      moments[2] = counts[3 * c + 2]!;
      work(c);
    },
    evaluateWithout(c, counts) {
      const own = asked[0]!;
      const took = asked[1]!;
      const coin = own < 1 ? own : 1;
      const spread = coin * (1 - coin) * took * took;
      moments[0] = counts[3 * c]! - own * took;
      moments[1] = counts[3 * c + 1]! - spread;
      moments[2] = counts[3 * c + 2]! - spread * (1 - 2 * coin) * took;
      work(c);
    },
  };
  return model;
}
