/**
 * A move of the sampler that slips and sound concepts make together.
 *
 * How many misses were slips and how many came from concepts that seldom fail is hard to tell apart:
 * one at a time they creep. Here all sound rates are multiplied by t and the slip rate makes up for
 * it, so that as many misses are expected as before,
 *
 *     lambda_c -> t lambda_c  (c sound),   sigma -> sigma + (1 - t) sum of E_c lambda_c / E_slip,
 *
 * accepted by N. Metropolis et al. (1953) and W. K. Hastings (1970), Biometrika 57:97-109, with the
 * events of the misses summed out (they are drawn anew right after). The way back is 1 / t, so that
 * the proposal is even in ln t. Where the gamma of sound rates is learned its rate goes along as
 * 1 / t, and the prior of the rates has no say.
 */
import { drawNormal } from '../numeric/sampling';
import type { Random } from '../numeric/random';
import type { MissRows } from './compiled';
import { soundWeight } from './learned';
import type { TraceParameters } from './parameters';

/** Sizes of ln t, one drawn each time: no one size fits a short log and a long one. */
const sizes = [0.03, 0.1, 0.3, 0.8] as const;

export interface SlipMove {
  readonly rows: MissRows;
  /** Shape (entries,) and (rows,): likelihoods of the labels as they stand. */
  readonly label: Float64Array;
  readonly slipLabel: Float64Array;
  readonly slipExposure: number;
  readonly exposure: Float64Array;
  readonly parameters: TraceParameters;
  /** Concepts whose rates are drawn. */
  readonly concepts: readonly Int32Array[];
  readonly gap: Uint8Array;
  readonly rate: Float64Array;
  readonly gammas: { readonly soundShape: number; soundRate: number };
  readonly learnsGammas: boolean;
}

/** Makes the move or not; returns the slip rate. Takes time in proportion to the sources of the misses. */
export function moveSlip(random: Random, move: SlipMove, slipRate: number): number {
  const { rate, gap, exposure, gammas, parameters, learnsGammas } = move;
  const stretch = Math.exp(sizes[random.word() & 3]! * drawNormal(random));
  const limit = Math.log(random.uniform());
  let sound = 0;
  let soundSum = 0;
  let missesExpected = 0;
  for (const concepts of move.concepts) {
    for (let k = 0; k < concepts.length; k++) {
      const c = concepts[k]!;
      if (gap[c] === 1) continue;
      sound += 1;
      soundSum += rate[c]!;
      missesExpected += rate[c]! * exposure[c]!;
    }
  }
  const next = slipRate + ((1 - stretch) * missesExpected) / move.slipExposure;
  if (!(next > 0) || sound === 0) return slipRate;

  const { slipShape, slipRate: slipPriorRate } = parameters;
  const logStretch = Math.log(stretch);
  let logRatio = (slipShape - 1) * Math.log(next / slipRate) - slipPriorRate * (next - slipRate);
  if (learnsGammas) {
    const priorRate = soundWeight / parameters.soundRate;
    logRatio -= soundWeight * logStretch + priorRate * gammas.soundRate * (1 / stretch - 1);
  } else {
    logRatio +=
      gammas.soundShape * sound * logStretch - gammas.soundRate * soundSum * (stretch - 1);
  }
  logRatio += likelihoodRatio(move, slipRate, next, stretch);
  if (limit >= logRatio) return slipRate;

  for (const concepts of move.concepts)
    for (let k = 0; k < concepts.length; k++)
      if (gap[concepts[k]!] === 0) rate[concepts[k]!]! *= stretch;
  if (learnsGammas) gammas.soundRate /= stretch;
  return next;
}

/** Log likelihood ratio of the misses: of each, (exp(Lambda) - 1) / Lambda times its labelled mass. */
function likelihoodRatio(
  { rows, label, slipLabel, rate, gap }: SlipMove,
  slipRate: number,
  next: number,
  stretch: number,
): number {
  const { start, concept, weight, slipTime, multiplicity } = rows;
  let logRatio = 0;
  for (let r = 0; r < rows.count; r++) {
    let total = slipRate;
    let labelled = slipRate * slipLabel[r]!;
    let totalNext = next;
    let labelledNext = next * slipLabel[r]!;
    for (let e = start[r]!; e < start[r + 1]!; e++) {
      const c = concept[e]!;
      const mass = weight[e]! * rate[c]!;
      const massNext = gap[c] === 1 ? mass : mass * stretch;
      total += mass;
      labelled += mass * label[e]!;
      totalNext += massNext;
      labelledNext += massNext * label[e]!;
    }
    // Old evidence counts less, here as everywhere.
    const times = slipTime[r]! * multiplicity[r]!;
    logRatio +=
      (logEvents(totalNext) - logEvents(total) + Math.log(labelledNext / labelled)) * times;
  }
  return logRatio;
}

const [a, b, c, d, e] = [1 / 24, 1 / 2880, 1 / 181_440, 1 / 9_676_800, 1 / 479_001_600] as const;

/**
 * ln((exp(x) - 1) / x); below 1 by x / 2 and the series of ln(sinh(t) / t) at t = x / 2 (Bernoulli
 * numbers), which is within 1e-10 there and quicker.
 */
function logEvents(x: number): number {
  if (x >= 1) return Math.log(Math.expm1(x) / x);
  const square = x * x;
  return x / 2 + square * (a - square * (b - square * (c - square * (d - square * e))));
}
