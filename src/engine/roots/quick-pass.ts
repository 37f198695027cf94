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
import { conceptModel, type ConceptModel } from './two-point';

/** What the quick pass settles on. */
export interface QuickState {
  /** Shape (concepts,): expected weighted events of each concept, their variance and third central moment. */
  readonly events: Float64Array;
  readonly variance: Float64Array;
  readonly third: Float64Array;
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
export type QuickStart = Pick<
  QuickState,
  'events' | 'variance' | 'third' | 'contribution' | 'slipRate' | 'gapShare'
>;

/**
 * Up to this contribution the rate without it is interpolated between nothing and this much
 * taken out; above, it is worked out for itself, let in by degrees up to half as much again so
 * that no jump can keep the passes from settling. A miss has one or two such sources.
 */
const interpolatedTo = 0.3;
const workedOutFrom = 0.45;

/**
 * Longest step of the acceleration; 1 would be none. Beyond this the passes have been seen to
 * swing before they settle.
 */
const farthest = 8;

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
  const model = conceptModel(parameters, exposure);
  const conceptCount = exposure.length;
  const entryCount = rows.concept.length;
  const contribution = from ? from.contribution.slice() : new Float64Array(entryCount);
  const share = new Float64Array(entryCount);
  const slipShare = new Float64Array(rows.count);
  const slipContribution = new Float64Array(rows.count);
  const slipDivisor = parameters.slipRate + slipExposure;
  // Before the first pass nothing is known: every source has the same rate.
  const rate = new Float64Array(conceptCount).fill(1);
  // How much a concept's rate falls for each event taken out, up to `interpolatedTo`.
  const slope = new Float64Array(conceptCount);
  // What each belief was last worked out from: what has all but stopped moving is not worked
  // out again. Late passes touch a few slow concepts only.
  const still = tolerance / 4;
  const eventsSeen = new Float64Array(conceptCount).fill(-1);
  const gapChance = new Float64Array(conceptCount);
  const moved = new Uint8Array(conceptCount);
  const ownSeen = new Float64Array(entryCount).fill(-1);
  const removed = new Float64Array(entryCount);
  let oddsSeen = 0;
  const origin = emptyMoments(conceptCount);
  const middle = emptyMoments(conceptCount);
  let phase = 0;
  const touched = new Uint8Array(conceptCount);
  for (const concept of rows.concept) touched[concept] = 1;
  const leastSpread = interpolatedTo * (1 - interpolatedTo);
  const leastThird = leastSpread * (1 - 2 * interpolatedTo);
  let now = from
    ? moments(from.events.slice(), from.variance.slice(), from.third.slice())
    : emptyMoments(conceptCount);
  let next = emptyMoments(conceptCount);
  let slipRate = from?.slipRate ?? parameters.slipShape / parameters.slipRate;
  let gapShare =
    from?.gapShare ??
    parameters.gapShareFor / (parameters.gapShareFor + parameters.gapShareAgainst);
  let known = from !== undefined;

  let iterations = 0;
  let residual = Infinity;
  while (iterations < mostPasses && residual > tolerance) {
    iterations += 1;
    const priorOdds = gapShare / (1 - gapShare);
    const shareBefore = gapShare;
    if (known) {
      let gaps = 0;
      let exposed = 0;
      const oddsMoved = Math.abs(priorOdds - oddsSeen) > tolerance * oddsSeen;
      if (oddsMoved) oddsSeen = priorOdds;
      for (let c = 0; c < conceptCount; c++) {
        if (exposure[c]! <= 0) continue;
        exposed += 1;
        const count = now.events[c]!;
        moved[c] = oddsMoved || Math.abs(count - eventsSeen[c]!) > still * (1 + count) ? 1 : 0;
        if (moved[c] === 1) {
          eventsSeen[c] = count;
          model.evaluate(c, priorOdds, count, now.variance[c]!, now.third[c]!);
          gapChance[c] = model.gapChance;
          if (touched[c] === 1) {
            rate[c] = model.rate;
            model.evaluate(
              c,
              priorOdds,
              count - interpolatedTo,
              now.variance[c]! - leastSpread,
              now.third[c]! - leastThird,
            );
            slope[c] = (rate[c]! - model.rate) / interpolatedTo;
          }
        }
        gaps += gapChance[c]!;
      }
      gapShare =
        (parameters.gapShareFor + gaps) /
        (parameters.gapShareFor + parameters.gapShareAgainst + exposed);
    }

    next.events.fill(0);
    next.variance.fill(0);
    next.third.fill(0);
    let slipEvents = 0;
    for (let r = 0; r < rows.count; r++) {
      const first = rows.start[r]!;
      const end = rows.start[r + 1]!;
      const copies = rows.multiplicity[r]!;
      const slipLabel = rows.slipLabel[r]!;
      const slip = slipRate - (rows.slipTime[r]! * slipContribution[r]!) / slipDivisor;
      let total = slip;
      let labelled = slip * slipLabel;
      for (let e = first; e < end; e++) {
        const c = rows.concept[e]!;
        const own = contribution[e]!;
        let without = rate[c]!;
        if (own > 0) {
          const time = rows.time[e]!;
          without -= slope[c]! * (own < interpolatedTo ? own : interpolatedTo) * time;
          if (own > interpolatedTo) {
            if (moved[c] === 1 || Math.abs(own - ownSeen[e]!) > still) {
              ownSeen[e] = own;
              const coin = own < 1 ? own : 1;
              const spread = coin * (1 - coin) * time * time;
              model.evaluate(
                c,
                priorOdds,
                now.events[c]! - own * time,
                now.variance[c]! - spread,
                now.third[c]! - spread * (1 - 2 * coin) * time,
              );
              removed[e] = model.rate;
            }
            const part = (own - interpolatedTo) / (workedOutFrom - interpolatedTo);
            without = part < 1 ? without + part * (removed[e]! - without) : removed[e]!;
          }
        }
        const mass = rows.weight[e]! * without;
        contribution[e] = mass;
        total += mass;
        labelled += mass * rows.label[e]!;
      }
      const extra = furtherEvents(total);
      const perLabelled = 1 / labelled;
      for (let e = first; e < end; e++) {
        const c = rows.concept[e]!;
        const mass = contribution[e]!;
        const time = rows.time[e]!;
        const ofFirst = mass * rows.label[e]! * perLabelled;
        const count = ofFirst + mass * extra;
        const coin = count < 1 ? count : 1;
        const spread = coin * (1 - coin) * time * time;
        share[e] = ofFirst;
        contribution[e] = count;
        next.events[c]! += count * time * copies;
        next.variance[c]! += spread * copies;
        next.third[c]! += spread * (1 - 2 * coin) * time * copies;
      }
      slipShare[r] = slip * slipLabel * perLabelled;
      slipContribution[r] = slipShare[r]! + slip * extra;
      slipEvents += slipContribution[r]! * rows.slipTime[r]! * copies;
    }

    const nextSlipRate = (parameters.slipShape + slipEvents) / slipDivisor;
    residual = known
      ? Math.max(
          largestChange(now.events, next.events),
          Math.abs(nextSlipRate - slipRate) / slipRate,
          Math.abs(gapShare - shareBefore) / shareBefore,
        )
      : Infinity;
    slipRate = nextSlipRate;
    // A step beyond, along the way come in two passes; then one plain pass.
    if (known && residual > tolerance) {
      phase = (phase + 1) % 3;
      if (phase === 1) {
        origin.events.set(now.events);
        origin.variance.set(now.variance);
        middle.events.set(next.events);
        middle.variance.set(next.variance);
      } else if (phase === 2) stepBeyond(origin, middle, next);
    }
    known = true;
    [now, next] = [next, now];
  }

  return {
    ...now,
    contribution,
    share,
    slipShare,
    slipRate,
    gapShare,
    model,
    iterations,
    residual,
    converged: residual <= tolerance,
  };
}

interface Moments {
  readonly events: Float64Array;
  readonly variance: Float64Array;
  readonly third: Float64Array;
}

function moments(events: Float64Array, variance: Float64Array, third: Float64Array): Moments {
  return { events, variance, third };
}

function emptyMoments(count: number): Moments {
  return moments(new Float64Array(count), new Float64Array(count), new Float64Array(count));
}

function largestChange(before: Float64Array, after: Float64Array): number {
  let largest = 0;
  for (let c = 0; c < after.length; c++) {
    const change = Math.abs(after[c]! - before[c]!) / (1 + after[c]!);
    if (change > largest) largest = change;
  }
  return largest;
}

/**
 * Takes `to`, two passes on from `origin` by way of `middle`, further along: the third scheme of
 * R. Varadhan & C. Roland (2008), "Simple and globally convergent methods for accelerating the
 * convergence of any EM algorithm", Scandinavian Journal of Statistics 35:335-353.
 */
function stepBeyond(origin: Moments, middle: Moments, to: Moments): void {
  let first = 0;
  let bend = 0;
  for (let c = 0; c < to.events.length; c++) {
    const r = middle.events[c]! - origin.events[c]!;
    const v = to.events[c]! - middle.events[c]! - r;
    first += r * r;
    bend += v * v;
  }
  if (bend === 0) return;
  const length = Math.min(farthest, Math.max(1, Math.sqrt(first / bend)));
  for (const key of ['events', 'variance'] as const) {
    const x0 = origin[key];
    const x1 = middle[key];
    const x2 = to[key];
    for (let c = 0; c < x2.length; c++) {
      const r = x1[c]! - x0[c]!;
      const v = x2[c]! - x1[c]! - r;
      const beyond = x0[c]! + 2 * length * r + length * length * v;
      x2[c] = beyond > 0 ? beyond : 0;
    }
  }
}

/**
 * Events of a miss beyond the first, for each unit of its total rate: (T / (1 - exp(-T)) - 1) / T.
 * By its series (Bernoulli numbers, A&S 23.1.1) below 1, where that is within 1e-6 and quicker.
 */
function furtherEvents(total: number): number {
  if (total < 1) {
    const square = total * total;
    return 0.5 + total * (1 / 12 - square * (1 / 720 - square / 30240));
  }
  return (total / -Math.expm1(-total) - 1) / total;
}
