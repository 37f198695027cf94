/**
 * One chain of the sampler: Gibbs sweeps over event counts, gap states, rates, the share of gaps
 * and the slip rate.
 *
 * Poisson-gamma augmentation of thresholded outcomes: M. Zhou (2015), "Infinite edge partition
 * models for overlapping community detection and link prediction", AISTATS. A sweep draws
 *
 *   0. the slip rate and all sound rates together (slip-move.ts);
 *   1. for each miss its number of events, Poisson(Lambda) given at least one; the source of the
 *      first by weight times rate times label, of the others by weight times rate;
 *   2. for each concept gap or sound with its rate integrated out, then its rate;
 *   3. the share of gaps and the slip rate;
 *   4. the two gammas of the rates, unless they are to be kept;
 *   5. the manner of each label and the shares of manners, unless they are to be kept;
 *   6. where right items are known only by count, how they lie over the topics.
 */
import { drawBeta, drawGamma, drawZeroTruncatedPoisson } from '../numeric/sampling';
import type { Random } from '../numeric/random';
import type { CompiledLog } from './compiled';
import { addCountedExposure } from './counted';
import { gapChanceFinder } from './gap-odds';
import { defaultLabelShares, setLabelLikelihoods, type LabelShares } from './label';
import { drawLabelManners, drawLabelShares } from './label-draws';
import { drawRateGammas, type RateGammas } from './learned';
import { rightShares } from './popularity';
import { moveSlip, type SlipMove } from './slip-move';

/**
 * The two places where a slip of the pen would leave a sampler that runs and is wrong. They are
 * arguments so that the tests can plant such slips and see them found.
 */
export interface ChainPieces {
  /** Events of a miss with total rate Lambda. */
  readonly drawEvents: (random: Random, total: number) => number;
  /** Shape of a rate's gamma once its events are known. */
  readonly rateShape: (priorShape: number, events: number) => number;
}

export const chainPieces: ChainPieces = {
  drawEvents: drawZeroTruncatedPoisson,
  rateShape: (priorShape, events) => priorShape + events,
};

/** Where a chain stands after a sweep. */
export interface ChainState {
  /** Shape (concepts,): each rate lambda; only of concepts some miss reaches. */
  readonly rate: Float64Array;
  /** Shape (concepts,): 1 for a gap. */
  readonly gap: Uint8Array;
  /** Shape (concepts,): chance of a gap from which `gap` was drawn. */
  readonly gapChance: Float64Array;
  /** Shape (concepts,): weighted events. */
  readonly events: Float64Array;
  /** Shape (rows,): entry of the first event's source, or -1 for a slip; rows of one miss only. */
  readonly firstEntry: Int32Array;
  /** Shape (entries,): first events of rows that stand for several misses. */
  readonly firstCount: Int32Array;
  /** Shape (rows,): slips among them. */
  readonly firstSlips: Int32Array;
  /** Shape (concepts,): redrawn each sweep where right items are known only by count. */
  readonly exposure: Float64Array;
  readonly gammas: RateGammas & { soundShape: number };
  readonly labels: LabelShares;
  gapShare: number;
  slipRate: number;
}

export interface Chain {
  readonly state: ChainState;
  sweep(): void;
}

/** Where a chain begins. */
export interface ChainStart {
  readonly rate: Float64Array;
  readonly slipRate: number;
  readonly gapShare: number;
  /**
   * Given: the two gammas, or how reliable labels are, are learned, from here on. Left out: they keep
   * the model's constants.
   */
  readonly gammas?: RateGammas;
  readonly labels?: LabelShares;
}

/** Which concepts some miss could come from: the others never have an event. */
export function reachedConcepts(compiled: CompiledLog): Int32Array {
  const marks = new Uint8Array(compiled.exposure.length);
  for (const concept of compiled.rows.concept) marks[concept] = 1;
  return Int32Array.from(marks.keys()).filter((concept) => marks[concept] === 1);
}

/**
 * A chain that starts from the given rates. A sweep takes time in proportion to the sources
 * of the misses and the concepts.
 */
export function startChain(
  compiled: CompiledLog,
  random: Random,
  start: ChainStart,
  pieces: ChainPieces = chainPieces,
): Chain {
  const { rows, slipExposure, parameters } = compiled;
  const exposure = compiled.exposure.slice();
  const base = compiled.placedOn;
  const conceptCount = exposure.length;
  const reached = reachedConcepts(compiled);
  const isReached = new Uint8Array(conceptCount);
  for (const concept of reached) isReached[concept] = 1;
  // Exposed but in no miss: their rate matters to nothing, their state to the share of gaps.
  const quiet = Int32Array.from(exposure.keys()).filter(
    (concept) => exposure[concept]! > 0 && isReached[concept] === 0,
  );
  const gammas = {
    gapShape: parameters.gapShape,
    gapRate: parameters.gapRate,
    soundShape: parameters.soundShape,
    soundRate: parameters.soundRate,
  };
  if (start.gammas) Object.assign(gammas, start.gammas);
  const chances = gapChanceFinder(gammas, exposure);
  let longest = 0;
  for (let r = 0; r < rows.count; r++)
    longest = Math.max(longest, rows.start[r + 1]! - rows.start[r]!);
  const running = new Float64Array(longest);
  // Shape (entries,): weight times rate.
  const mass = new Float64Array(rows.concept.length);
  const state: ChainState = {
    rate: start.rate.slice(),
    gap: new Uint8Array(conceptCount),
    gapChance: new Float64Array(conceptCount),
    events: new Float64Array(conceptCount),
    firstEntry: new Int32Array(rows.count),
    firstCount: new Int32Array(rows.concept.length),
    firstSlips: new Int32Array(rows.count),
    exposure,
    gammas,
    labels: { ...(start.labels ?? defaultLabelShares(parameters)) },
    gapShare: start.gapShare,
    slipRate: start.slipRate,
  };
  const { rate, gap, gapChance, events, firstEntry, firstCount, firstSlips } = state;
  const learns = start.gammas !== undefined;
  const label = rows.label.slice();
  const slipLabel = rows.slipLabel.slice();
  if (start.labels) setLabelLikelihoods(rows, state.labels, label, slipLabel);
  // Rows of several misses have no label.
  const labelled = Int32Array.from(rows.causeCount.keys()).filter((r) => rows.causeCount[r]! > 0);

  let sweepCount = 0;
  const slipMove: SlipMove = {
    rows,
    label,
    slipLabel,
    slipExposure,
    exposure,
    parameters,
    concepts: learns || base ? [reached, quiet] : [reached],
    gap,
    rate,
    gammas,
    learnsGammas: learns,
  };

  function drawMisses(): number {
    const { start, concept, weight, time, slipTime, multiplicity } = rows;
    // Of this call's own: with several chains alive, what a function closes over is fetched anew at
    // every use.
    const [masses, labels, slipLabels] = [mass, label, slipLabel];
    const [rates, counts, firsts] = [rate, events, firstEntry];
    const source = random;
    const { drawEvents } = pieces;
    const { slipRate } = state;
    let slipEvents = 0;
    counts.fill(0);
    for (let r = 0; r < rows.count; r++) {
      const first = start[r]!;
      const end = start[r + 1]!;
      const slipMass = slipRate * slipLabels[r]!;
      let total = slipRate;
      let labelled = slipMass;
      for (let e = first; e < end; e++) {
        const each = weight[e]! * rates[concept[e]!]!;
        masses[e] = each;
        total += each;
        labelled += each * labels[e]!;
      }
      const copies = multiplicity[r]!;
      if (copies !== 1) {
        slipEvents += drawCopies(r, copies, total, slipMass) * slipTime[r]!;
        continue;
      }

      let u = source.coarse() * labelled - slipMass;
      if (u < 0) {
        firsts[r] = -1;
        slipEvents += slipTime[r]!;
      } else {
        let e = first;
        while (e < end - 1 && (u -= masses[e]! * labels[e]!) >= 0) e++;
        firsts[r] = e;
        counts[concept[e]!]! += time[e]!;
      }
      for (let more = drawEvents(source, total) - 1; more > 0; more--)
        slipEvents += drawFurther(first, end, total) * slipTime[r]!;
    }
    return slipEvents;
  }

  /** One event after the first, by weight alone. Returns 1 for a slip. */
  function drawFurther(first: number, end: number, total: number): number {
    let u = random.uniform() * total - state.slipRate;
    if (u < 0) return 1;
    for (let e = first; e < end; e++) {
      if (u < mass[e]! || e === end - 1) {
        events[rows.concept[e]!]! += rows.time[e]!;
        return 0;
      }
      u -= mass[e]!;
    }
    return 1;
  }

  /** A row that stands for several misses: each is drawn by itself. Returns slips among the events. */
  function drawCopies(r: number, copies: number, total: number, slipMass: number): number {
    const first = rows.start[r]!;
    const end = rows.start[r + 1]!;
    let labelled = slipMass;
    for (let e = first; e < end; e++) {
      labelled += mass[e]! * label[e]!;
      running[e - first] = labelled;
    }
    firstEntry[r] = -1;
    firstSlips[r] = 0;
    firstCount.fill(0, first, end);
    let slips = 0;
    for (let copy = 0; copy < copies; copy++) {
      const u = random.uniform() * labelled;
      if (u < slipMass || end === first) {
        firstSlips[r] += 1;
        slips += 1;
      } else {
        let low = first;
        let high = end - 1;
        while (low < high) {
          const middle = (low + high) >> 1;
          if (u < running[middle - first]!) high = middle;
          else low = middle + 1;
        }
        firstCount[low]! += 1;
        events[rows.concept[low]!]! += rows.time[low]!;
      }
      for (let more = pieces.drawEvents(random, total) - 1; more > 0; more--)
        slips += drawFurther(first, end, total);
    }
    return slips;
  }

  function drawConcepts(): number {
    const priorOdds = state.gapShare / (1 - state.gapShare);
    let gaps = 0;
    for (let k = 0; k < reached.length; k++) {
      const c = reached[k]!;
      if (drawState(c, priorOdds, events[c]!)) gaps += 1;
      drawRate(c);
    }
    for (let k = 0; k < quiet.length; k++) {
      const c = quiet[k]!;
      if (drawState(c, priorOdds, 0)) gaps += 1;
      // A rate no miss depends on, unless something is learned from it.
      if (learns || base) drawRate(c);
    }
    return gaps;
  }

  function drawState(c: number, priorOdds: number, count: number): boolean {
    const chance = chances.at(c, priorOdds, count);
    gapChance[c] = chance;
    const isGap = random.coarse() < chance;
    gap[c] = isGap ? 1 : 0;
    return isGap;
  }

  function drawRate(c: number): void {
    const isGap = gap[c] === 1;
    const shape = isGap ? gammas.gapShape : gammas.soundShape;
    const divisor = (isGap ? gammas.gapRate : gammas.soundRate) + exposure[c]!;
    rate[c] = drawGamma(random, pieces.rateShape(shape, events[c]!)) / divisor;
  }

  function drawGammas(): void {
    const sums = { gaps: 0, gapSum: 0, gapLogSum: 0, sound: 0, soundSum: 0 };
    for (const concepts of [reached, quiet]) {
      for (const c of concepts) {
        const each = rate[c]!;
        if (gap[c] === 1) {
          sums.gaps += 1;
          sums.gapSum += each;
          sums.gapLogSum += Math.log(each);
        } else {
          sums.sound += 1;
          sums.soundSum += each;
        }
      }
    }
    drawRateGammas(random, parameters, gammas, sums);
  }

  function drawLabels(): void {
    const counts = drawLabelManners(random, rows, labelled, firstEntry, state.labels);
    drawLabelShares(random, parameters, state.labels, counts);
    setLabelLikelihoods(rows, state.labels, label, slipLabel);
  }

  function drawExposure(): void {
    if (!base) return;
    exposure.set(base.exposure);
    addCountedExposure(base, rightShares(base, rate, state.slipRate, random), exposure);
  }

  return {
    state,
    sweep() {
      drawExposure();
      // As dear as all the rest together: every other sweep gains the most for the time.
      if ((sweepCount++ & 1) === 0) state.slipRate = moveSlip(random, slipMove, state.slipRate);
      if (learns || base) chances.refresh();
      const slipEvents = drawMisses();
      const gaps = drawConcepts();
      const exposed = reached.length + quiet.length;
      state.gapShare = drawBeta(
        random,
        parameters.gapShareFor + gaps,
        parameters.gapShareAgainst + exposed - gaps,
      );
      if (learns) drawGammas();
      if (start.labels) drawLabels();
      state.slipRate =
        drawGamma(random, parameters.slipShape + slipEvents) / (parameters.slipRate + slipExposure);
    },
  };
}
