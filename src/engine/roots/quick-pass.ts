/**
 * The quick pass: a deterministic fixed point for the posterior of the model.
 *
 * Collapsed variational inference: each miss is shared among its sources by their mean
 * rates *with its own contribution taken out*, rate and gap state being integrated out and
 * the doubt about each count kept to its third moment. The plan is that of Y. W. Teh,
 * D. Newman & M. Welling (2007), "A collapsed variational Bayesian inference algorithm for
 * latent Dirichlet allocation", NIPS 19; two-point quadrature stands for their second-order
 * expansion, which fails where gap and sound pull apart. Mean-field would use geometric
 * means over gap and sound and be too sure too soon.
 *
 * Given Lambda = sigma + sum of w lambda, a miss has Lambda / (1 - exp(-Lambda)) events on
 * average; the first has its source drawn by weight times label, the others by weight.
 */
import type { CompiledLog } from './compiled';
import {
  interpolatedTo,
  sharedOf,
  shareMisses,
  startSharing,
  waitForAllRows,
  waitForRowsOf,
  type Beliefs,
  type Shared,
  type Sharing,
} from './quick-rows';
import { setPoint, startPoint, stepBeyond } from './aitken';
import { conceptModel, type ConceptModel } from './two-point';

/** What the quick pass settles on. */
export interface QuickState extends Shared {
  /** Shape (3 * concepts,): expected weighted events of each concept, variance, third central moment. */
  readonly counts: Float64Array;
  readonly slipRate: number;
  readonly gapShare: number;
  readonly model: ConceptModel;
  readonly iterations: number;
  readonly residual: number;
  readonly converged: boolean;
}

/** Where passes may start: the moments of a nearly equal log. */
export type QuickStart = Pick<QuickState, 'counts' | 'contribution' | 'slipRate' | 'gapShare'>;

/**
 * What has moved by less than this share of the last pass's largest change is taken as it was: early
 * passes work out what matters, late ones touch a few slow concepts only.
 */
const stillShare = 0.1;

/** Two changes in a row that lie to each other so are to and fro, or straight on: cosines. */
const toAndFro = -0.5;
const straightOn = 0.5;
/** Shortest part of the way that a pass goes; at a quarter nothing has been seen to swing. */
const leastStep = 0.25;

/**
 * Runs passes until no expected count moves by more than `tolerance` (relative to 1 + count).
 * Each pass takes time in proportion to the concepts and to the sources of those misses whose
 * sources have moved.
 */
export function quickPass(
  compiled: CompiledLog,
  mostPasses: number,
  tolerance: number,
  from?: QuickStart,
): QuickState {
  const { rows, exposure, slipExposure, parameters } = compiled;
  const { gapShareFor, gapShareAgainst, slipShape } = parameters;
  const model = conceptModel(parameters, exposure);
  const conceptCount = exposure.length;
  const sharing = startSharing(rows, conceptCount, from?.contribution);
  const begin = startingRates(compiled);
  const beliefs: Beliefs = {
    model,
    slipRate: from?.slipRate ?? begin.slip,
    slipDivisor: parameters.slipRate + slipExposure,
    counts: from ? from.counts.slice() : new Float64Array(3 * conceptCount),
    rates: new Float64Array(3 * conceptCount).fill(begin.concept),
    still: tolerance / 4,
    step: 1,
  };
  const { counts } = beliefs;
  const { sums } = sharing;
  const priorShare = gapShareFor / (gapShareFor + gapShareAgainst);
  let gapShare = from?.gapShare ?? priorShare;
  const gaps = gapCounter(compiled, beliefs, sharing);
  let known = from !== undefined;
  let slipSeen = NaN;
  const origin = startPoint(new Float64Array(3 * conceptCount));
  const middle = startPoint(new Float64Array(3 * conceptCount));
  const here = startPoint(counts);
  let phase = 0;

  let iterations = 0;
  let residual = Infinity;
  for (;;) {
    iterations += 1;
    const { slipRate, still } = beliefs;
    model.priorOdds = gapShare / (1 - gapShare);
    const shareBefore = gapShare;
    // Two plain passes, then a step beyond along their way.
    if (known && phase < 2) setPoint(phase === 0 ? origin : middle, counts, slipRate, gapShare);
    if (known)
      gapShare = (gapShareFor + gaps.count()) / (gapShareFor + gapShareAgainst + gaps.exposed);
    // Of a share, at most a quarter of what the slip rate moves by, as of the odds of gaps.
    if (!(Math.abs(slipRate - slipSeen) <= 4 * still * slipSeen)) {
      slipSeen = slipRate;
      waitForAllRows(sharing);
    }
    shareMisses(rows, beliefs, sharing);
    const nextSlipRate = (slipShape + sharing.slipEvents) / beliefs.slipDivisor;
    if (known)
      residual = Math.max(
        largestChange(counts, sums),
        Math.abs(nextSlipRate - slipRate) / slipRate,
        Math.abs(gapShare - shareBefore) / shareBefore,
      );
    const settled = residual <= tolerance && still <= tolerance / 4;
    counts.set(sums);
    beliefs.slipRate = nextSlipRate;
    if (settled || iterations >= mostPasses) break;
    beliefs.still = Math.max(tolerance / 4, Math.min(residual, 1) * stillShare);
    if (known && phase === 1) {
      setPoint(here, counts, nextSlipRate, gapShare);
      const lie = stepBeyond(origin, middle, here);
      if (lie < toAndFro) beliefs.step = Math.max(leastStep, beliefs.step / 2);
      else if (lie > straightOn) beliefs.step = Math.min(1, 2 * beliefs.step);
      beliefs.slipRate = Math.exp(here.logSlip);
      gapShare = 1 / (1 + Math.exp(-here.logOdds));
    }
    if (known) phase = (phase + 1) % 3;
    known = true;
  }

  return {
    counts,
    ...sharedOf(rows, sharing),
    slipRate: beliefs.slipRate,
    gapShare,
    model,
    iterations,
    residual,
    converged: residual <= tolerance,
  };
}

/** Share of all that is missed that a long log is begun with as slips. */
const slipsAtFirst = 0.8;
/** Items after which a log is half a long one. */
const halfLong = 200;

/**
 * Where the first pass starts from: the slip rate, and one rate for every concept. Which of several
 * answers that all hold together is found hangs on it. Of a short log every miss may be a gap, as the
 * prior has slips rare; a long one begun so makes gaps of all that is left over and takes them back too
 * slowly, or never where no cause is named, so that it begins with slips.
 */
function startingRates({ rows, slipExposure, parameters }: CompiledLog): {
  readonly slip: number;
  readonly concept: number;
} {
  const { gapShareFor, gapShareAgainst, gapShape, gapRate, soundShape, soundRate } = parameters;
  let missed = 0;
  for (let r = 0; r < rows.count; r++) missed += rows.slipTime[r]! * rows.multiplicity[r]!;
  const long = slipExposure / (halfLong + slipExposure);
  const slipShare = (slipsAtFirst * missed) / (1 + slipExposure);
  const gap = gapShape / gapRate;
  const gapChance = gapShareFor / (gapShareFor + gapShareAgainst);
  const mean = gapChance * gap + ((1 - gapChance) * soundShape) / soundRate;
  return {
    slip: (1 - long) * (parameters.slipShape / parameters.slipRate) + long * slipShare,
    concept: (1 - long) * gap + long * mean,
  };
}

/** Works beliefs out anew where their counts have moved, and counts the gaps expected. */
function gapCounter(
  { exposure }: CompiledLog,
  beliefs: Beliefs,
  sharing: Sharing,
): { readonly exposed: number; count(): number } {
  const { model, rates, counts } = beliefs;
  const conceptCount = exposure.length;
  const exposed = Int32Array.from(exposure.keys()).filter((c) => exposure[c]! > 0);
  const seen = new Float64Array(conceptCount).fill(-1);
  const gapChance = new Float64Array(conceptCount);
  let oddsSeen = 0;
  const { answer, asked } = model;
  return {
    exposed: exposed.length,
    count() {
      const { still } = beliefs;
      const { priorOdds } = model;
      const oddsMoved = Math.abs(priorOdds - oddsSeen) > 4 * still * oddsSeen;
      if (oddsMoved) oddsSeen = priorOdds;
      let gaps = 0;
      asked[0] = interpolatedTo;
      asked[1] = 1;
      for (let k = 0; k < exposed.length; k++) {
        const c = exposed[k]!;
        const mean = counts[3 * c]!;
        if (oddsMoved || Math.abs(mean - seen[c]!) > still * (1 + mean)) {
          seen[c] = mean;
          model.evaluate(c, counts);
          const rate = answer[0]!;
          gapChance[c] = answer[2]!;
          // Nobody waits for the rate of a concept in no miss.
          if (
            sharing.start[c + 1]! > sharing.start[c]! &&
            Math.abs(rate - rates[3 * c]!) > still * rate
          ) {
            rates[3 * c] = rate;
            model.evaluateWithout(c, counts);
            rates[3 * c + 1] = (rate - answer[0]!) / interpolatedTo;
            waitForRowsOf(sharing, c);
          }
        }
        gaps += gapChance[c]!;
      }
      return gaps;
    },
  };
}

function largestChange(before: Float64Array, after: Float64Array): number {
  let largest = 0;
  for (let k = 0; k < after.length; k += 3) {
    const change = Math.abs(after[k]! - before[k]!) / (1 + after[k]!);
    if (change > largest) largest = change;
  }
  return largest;
}
