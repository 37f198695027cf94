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
 * Works out posteriors; the fields hold the answer of the last `evaluate`. Numbers go in by arrays and
 * fields: as arguments of a function too large to be inlined each would be put on the heap.
 *
 * `counts`, shape (3 * concepts,): mean, variance and third central moment of each concept's count.
 */
export interface ConceptModel {
  priorOdds: number;
  gapChance: number;
  /** Expected product of gap state and rate. */
  gapRate: number;
  /** Expected rate. */
  rate: number;
  evaluate(concept: number, counts: Float64Array): void;
  /** With one coin of the given chance, in (0, 1), taken out of the count. */
  evaluateLess(concept: number, counts: Float64Array, coin: number): void;
  /**
   * With an entry taken out of the count.
   *
   * @param contribution, time shape (entries,)
   */
  evaluateWithout(
    concept: number,
    counts: Float64Array,
    contribution: Float64Array,
    time: Float64Array,
    entry: number,
  ): void;
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
  const oddsAt = (c: number, at: number): number =>
    model.priorOdds *
    (oneApart ? 1 + at : gammaRatio(gapShape, soundShape, at)) *
    quickExp(constant[c]! + perEvent[c]! * at);

  // Mean, variance and third moment that `answer` is to work from.
  const asked = new Float64Array(3);
  function answer(c: number): void {
    const mean = asked[0]!;
    const variance = asked[1]!;
    // Below this the two points would be a millionth of an event apart.
    if (variance <= 1e-12) {
      const at = mean < 0 ? 0 : mean;
      const odds = oddsAt(c, at);
      const chance = odds / (1 + odds);
      model.gapChance = chance;
      model.gapRate = chance * (gapShape + at) * gapPart[c]!;
      model.rate = model.gapRate + (1 - chance) * (soundShape + at) * soundPart[c]!;
      return;
    }
    const skew = asked[2]! / (2 * variance);
    const root = Math.sqrt(skew * skew + variance);
    const high = mean + skew + root;
    let low = mean + skew - root;
    if (low < 0) low = 0;
    let mass = (mean - low) / (high - low);
    if (mass < 0) mass = 0;
    const oddsLow = oddsAt(c, low);
    const oddsHigh = oddsAt(c, high);
    // One division for both chances.
    const part = 1 / ((1 + oddsLow) * (1 + oddsHigh));
    const soundLow = (1 - mass) * (1 + oddsHigh) * part;
    const soundHigh = mass * (1 + oddsLow) * part;
    const gapLow = soundLow * oddsLow;
    const gapHigh = soundHigh * oddsHigh;
    const asGap = (gapLow * (gapShape + low) + gapHigh * (gapShape + high)) * gapPart[c]!;
    model.gapChance = gapLow + gapHigh;
    model.gapRate = asGap;
    model.rate =
      asGap + (soundLow * (soundShape + low) + soundHigh * (soundShape + high)) * soundPart[c]!;
  }

  const model: ConceptModel = {
    priorOdds: 0.5,
    gapChance: 0.5,
    gapRate: 0.5,
    rate: 0.5,
    evaluate(c, counts) {
      asked[0] = counts[3 * c]!;
      asked[1] = counts[3 * c + 1]!;
      asked[2] = counts[3 * c + 2]!;
      answer(c);
    },
    evaluateLess(c, counts, coin) {
      const spread = coin * (1 - coin);
      asked[0] = counts[3 * c]! - coin;
      asked[1] = counts[3 * c + 1]! - spread;
      asked[2] = counts[3 * c + 2]! - spread * (1 - 2 * coin);
      answer(c);
    },
    evaluateWithout(c, counts, contribution, time, e) {
      const own = contribution[e]!;
      const took = time[e]!;
      const coin = own < 1 ? own : 1;
      const spread = coin * (1 - coin) * took * took;
      asked[0] = counts[3 * c]! - own * took;
      asked[1] = counts[3 * c + 1]! - spread;
      asked[2] = counts[3 * c + 2]! - spread * (1 - 2 * coin) * took;
      answer(c);
    },
  };
  return model;
}
