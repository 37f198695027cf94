/**
 * The model run forwards on a small fixed network: parameters from the prior, events, outcomes and
 * labels from the parameters. For simulation-based calibration and joint-distribution tests of the
 * sampler, which runs on compiled arrays; so the arrays are written here, by hand.
 *
 * Labels: on labelled items the source is named with chance 0.5, else one of the concepts at
 * random; a slip names one at random. These chances add to 1 for every source, as the forward
 * direction needs.
 */
import type { Random } from '../../../src/engine/numeric/random';
import { drawBeta, drawGamma, drawPoisson } from '../../../src/engine/numeric/sampling';
import { compileLog } from '../../../src/engine/roots/compile';
import type { CompiledLog } from '../../../src/engine/roots/compiled';
import { defaultParameters } from '../../../src/engine/roots/parameters';
import type { RateGammas } from '../../../src/engine/roots/learned';
import { rowBuilder } from '../../../src/engine/roots/row-builder';

export interface ForwardItem {
  /** Weight of each concept. */
  readonly weights: readonly number[];
  readonly labelled: boolean;
}

export interface ForwardState {
  readonly rate: readonly number[];
  readonly gap: readonly boolean[];
  readonly gapShare: number;
  readonly slipRate: number;
  /** The gammas of the rates: drawn, where they are learned; else the model's constants. */
  readonly gammas: RateGammas;
}

/** Per item: undefined when right, else its label (-1 for none). */
export type ForwardData = readonly (number | undefined)[];

const named = 0.5;

export function drawForwardState(
  random: Random,
  conceptCount: number,
  learn: boolean,
): ForwardState {
  const p = defaultParameters;
  const gammas: RateGammas = {
    gapShape: p.gapShape,
    gapRate: p.gapRate,
    soundRate: p.soundRate,
  };
  if (learn) drawPriorGammas(random, gammas);
  const gapShare = drawBeta(random, p.gapShareFor, p.gapShareAgainst);
  const gap = Array.from({ length: conceptCount }, () => random.uniform() < gapShare);
  return {
    gapShare,
    gap,
    gammas,
    rate: gap.map((isGap) =>
      isGap
        ? drawGamma(random, gammas.gapShape) / gammas.gapRate
        : drawGamma(random, p.soundShape) / gammas.soundRate,
    ),
    slipRate: drawGamma(random, p.slipShape) / p.slipRate,
  };
}

/** The prior of the gammas as the method states it, written out again. */
function drawPriorGammas(random: Random, into: RateGammas): void {
  const u = random.uniform();
  into.gapShape = u < 0.4 ? 2 : u < 0.7 ? 3 : u < 0.9 ? 4 : 6;
  into.gapRate = (drawGamma(random, 8) * into.gapShape) / 8;
  into.soundRate = (drawGamma(random, 4) * 25) / 4;
}

export function drawForwardData(
  random: Random,
  items: readonly ForwardItem[],
  state: ForwardState,
): ForwardData {
  const conceptCount = state.rate.length;
  return items.map((item) => {
    const events = item.weights.map((weight, c) => drawPoisson(random, weight * state.rate[c]!));
    const slips = drawPoisson(random, state.slipRate);
    const total = slips + events.reduce((sum, count) => sum + count, 0);
    if (total === 0) return undefined;
    if (!item.labelled) return -1;
    // Any of the events is as likely to have come first.
    let place = Math.floor(random.uniform() * total) - slips;
    let source = -1;
    for (let c = 0; c < conceptCount && place >= 0; c++) {
      place -= events[c]!;
      if (place < 0) source = c;
    }
    if (source >= 0 && random.uniform() < named) return source;
    return Math.floor(random.uniform() * conceptCount);
  });
}

const empties = new Map<number, CompiledLog>();

function emptyOf(conceptCount: number): CompiledLog {
  const known = empties.get(conceptCount);
  if (known) return known;
  const concepts = Array.from({ length: conceptCount }, (_, c) => ({
    id: `c${c}`,
    systems: [],
    restsOn: [],
  }));
  const log = { now: 0, concepts, items: [], unitemised: [], readings: [] };
  const compiled = compileLog(log, {}, defaultParameters);
  empties.set(conceptCount, compiled);
  return compiled;
}

/** The compiled arrays of such data. */
export function compileForward(items: readonly ForwardItem[], data: ForwardData): CompiledLog {
  const conceptCount = items[0]!.weights.length;
  const empty = emptyOf(conceptCount);
  const exposure = new Float64Array(conceptCount);
  const rows = rowBuilder();
  items.forEach((item, i) => {
    item.weights.forEach((weight, c) => (exposure[c]! += weight));
    const label = data[i];
    if (label === undefined) return;
    const stray = (1 - named) / conceptCount;
    item.weights.forEach((weight, c) => {
      if (weight === 0) return;
      rows.source(c, weight, label < 0 ? 1 : (label === c ? named : 0) + stray, 1);
    });
    rows.close({
      slipLabel: label < 0 ? 1 : 1 / conceptCount,
      slipTime: 1,
      multiplicity: 1,
      system: -1,
      window: 0,
      item: i,
    });
  });
  return { ...empty, exposure, slipExposure: items.length, rows: rows.finish() };
}

/** A network of four concepts and eighteen items that tie them together unequally. */
export const forwardItems: readonly ForwardItem[] = Array.from({ length: 18 }, (_, i) => ({
  weights: [i % 3 === 0 ? 1 : 0.35, i % 3 === 1 ? 1 : 0, i % 3 === 2 ? 0.8 : 0.1, i < 6 ? 0.5 : 0],
  labelled: i % 2 === 0,
}));
