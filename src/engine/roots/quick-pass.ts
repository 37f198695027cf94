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
import { interpolatedTo, shareMisses, sharesOf, startSharing, type Beliefs } from './quick-rows';
import { setPoint, startPoint, stepBeyond } from './squarem';
import { conceptModel, type ConceptModel } from './two-point';

/** What the quick pass settles on. */
export interface QuickState {
  /** Shape (3 * concepts,): expected weighted events of each concept, variance, third central moment. */
  readonly counts: Float64Array;
  /** Shape (entries,): expected events of each source of each row. */
  readonly contribution: Float64Array;
  /** Shape (entries,): share of each source in its row. */
  readonly share: Float64Array;
  /** Shape (rows,): share of a slip. */
  readonly slipShare: Float64Array;
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
const stillShare = 0.02;

/** Passes in which the largest change should have halved. */
const patience = 15;
/** Shortest step; at a quarter nothing has been seen to swing. */
const leastStep = 0.25;

/**
 * Runs passes until no expected count moves by more than `tolerance` (relative to 1 + count).
 * Each pass takes time in proportion to the sources of the misses.
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
  const sharing = startSharing(rows, from?.contribution);
  const beliefs: Beliefs = {
    model,
    slipRate: from?.slipRate ?? slipShape / parameters.slipRate,
    slipDivisor: parameters.slipRate + slipExposure,
    counts: from ? from.counts.slice() : new Float64Array(3 * conceptCount),
    rates: new Float64Array(2 * conceptCount),
    moved: new Uint8Array(conceptCount),
    still: tolerance / 4,
    step: 1,
  };
  let next: Float64Array = new Float64Array(3 * conceptCount);
  // Before the first pass nothing is known: every source has the same rate.
  for (let c = 0; c < conceptCount; c++) beliefs.rates[2 * c] = 1;
  const gaps = gapCounter(compiled, beliefs);
  const priorShare = gapShareFor / (gapShareFor + gapShareAgainst);
  let gapShare = from?.gapShare ?? priorShare;
  let known = from !== undefined;
  const origin = startPoint(new Float64Array(3 * conceptCount));
  const middle = startPoint(new Float64Array(3 * conceptCount));
  let phase = 0;

  let iterations = 0;
  let residual = Infinity;
  let residualBefore = Infinity;
  for (;;) {
    iterations += 1;
    const { slipRate, counts } = beliefs;
    model.priorOdds = gapShare / (1 - gapShare);
    const shareBefore = gapShare;
    if (known)
      gapShare = (gapShareFor + gaps.count()) / (gapShareFor + gapShareAgainst + gaps.exposed);
    const slipEvents = shareMisses(rows, beliefs, sharing, next);
    const nextSlipRate = (slipShape + slipEvents) / beliefs.slipDivisor;
    if (known)
      residual = Math.max(
        largestChange(counts, next),
        Math.abs(nextSlipRate - slipRate) / slipRate,
        Math.abs(gapShare - shareBefore) / shareBefore,
      );
    [beliefs.counts, next] = [next, counts];
    beliefs.slipRate = nextSlipRate;
    if (iterations % patience === 0) {
      // Passes that go to and fro instead of getting nearer do so half a step at a time no more.
      if (residual > residualBefore / 2) beliefs.step = Math.max(leastStep, beliefs.step / 2);
      residualBefore = residual;
    }
    const fine = beliefs.still <= tolerance / 4;
    if ((residual <= tolerance && fine) || iterations >= mostPasses) break;
    beliefs.still = Math.max(tolerance / 4, Math.min(residual, 1) * stillShare);

    // A step beyond, along the way come in two passes; then one plain pass.
    if (known) {
      phase = (phase + 1) % 3;
      if (phase === 1) {
        setPoint(origin, counts, slipRate, shareBefore);
        setPoint(middle, beliefs.counts, nextSlipRate, gapShare);
      } else if (phase === 2) {
        const here = startPoint(beliefs.counts);
        setPoint(here, beliefs.counts, nextSlipRate, gapShare);
        stepBeyond(origin, middle, here);
        beliefs.slipRate = Math.exp(here.logSlip);
        gapShare = 1 / (1 + Math.exp(-here.logOdds));
      }
    }
    known = true;
  }

  return {
    counts: beliefs.counts,
    contribution: sharing.contribution,
    share: sharesOf(rows, sharing),
    slipShare: sharing.slipShare,
    slipRate: beliefs.slipRate,
    gapShare,
    model,
    iterations,
    residual,
    converged: residual <= tolerance,
  };
}

/** Works beliefs out anew where their counts have moved, and counts the gaps expected. */
function gapCounter(
  { rows, exposure }: CompiledLog,
  beliefs: Beliefs,
): { readonly exposed: number; count(): number } {
  const { model, rates, moved } = beliefs;
  const conceptCount = exposure.length;
  const exposed = Int32Array.from(exposure.keys()).filter((c) => exposure[c]! > 0);
  const touched = new Uint8Array(conceptCount);
  for (let e = 0; e < rows.concept.length; e++) touched[rows.concept[e]!] = 1;
  const seen = new Float64Array(conceptCount).fill(-1);
  const gapChance = new Float64Array(conceptCount);
  let oddsSeen = 0;
  return {
    exposed: exposed.length,
    count() {
      const { still, counts } = beliefs;
      const { priorOdds } = model;
      const oddsMoved = Math.abs(priorOdds - oddsSeen) > 4 * still * oddsSeen;
      if (oddsMoved) oddsSeen = priorOdds;
      let gaps = 0;
      for (let k = 0; k < exposed.length; k++) {
        const c = exposed[k]!;
        const mean = counts[3 * c]!;
        const isMoved = oddsMoved || Math.abs(mean - seen[c]!) > still * (1 + mean);
        moved[c] = isMoved ? 1 : 0;
        if (isMoved) {
          seen[c] = mean;
          model.evaluate(c, counts);
          gapChance[c] = model.gapChance;
          if (touched[c] === 1) {
            const { rate } = model;
            rates[2 * c] = rate;
            model.evaluateLess(c, counts, interpolatedTo);
            rates[2 * c + 1] = (rate - model.rate) / interpolatedTo;
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
