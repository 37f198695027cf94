/**
 * Simulation-based calibration (S. Talts, M. Betancourt, D. Simpson, A. Vehtari & A. Gelman 2018,
 * arXiv 1804.06788) and the joint-distribution test of J. Geweke (2004), "Getting it right", JASA
 * 99:799-804, for the chain of the sampler.
 */
import { randomFrom } from '../../../src/engine/numeric/random';
import { startChain, type ChainPieces } from '../../../src/engine/roots/chain';
import { defaultLabelShares, type LabelShares } from '../../../src/engine/roots/label';
import { defaultParameters } from '../../../src/engine/roots/parameters';
import type { RateGammas } from '../../../src/engine/roots/learned';
import type { CompiledLog } from '../../../src/engine/roots/compiled';
import {
  compileForward,
  drawForwardData,
  drawForwardState,
  forwardItems,
  type ForwardState,
} from './forward';

const conceptCount = 4;
/** What is ranked: rates, slip rate, share of gaps, sum of the rates, and the learned gammas. */
export const quantities: readonly string[] = [
  'rate 0',
  'rate 1',
  'rate 2',
  'rate 3',
  'slip rate',
  'gap share',
  'sum of rates',
  'gap mean',
  'sound rate',
  'true labels',
  'topic for a slip',
];

function valuesOf(state: {
  readonly rate: ArrayLike<number>;
  readonly slipRate: number;
  readonly gapShare: number;
  readonly gammas: RateGammas;
  readonly labels: LabelShares;
}): number[] {
  const rates = Array.from({ length: conceptCount }, (_, c) => state.rate[c]!);
  const { gapShape, gapRate, soundRate } = state.gammas;
  return [
    ...rates,
    state.slipRate,
    state.gapShare,
    rates.reduce((sum, rate) => sum + rate, 0),
    gapShape / gapRate,
    soundRate,
    state.labels.true,
    state.labels.slipTopic,
  ];
}

/** The rate of a concept in no miss is not drawn by the chain: it is put into a row of weight 0. */
function withEveryConcept(compiled: CompiledLog): CompiledLog {
  const { rows } = compiled;
  const known = new Set(rows.concept);
  const missing = Array.from({ length: conceptCount }, (_, c) => c).filter((c) => !known.has(c));
  if (missing.length === 0 || rows.count === 0) return compiled;
  const start = rows.start.slice();
  start[rows.count]! += missing.length;
  const padded = (values: Float64Array, value: number) =>
    Float64Array.from([...values, ...missing.map(() => value)]);
  return {
    ...compiled,
    rows: {
      ...rows,
      start,
      concept: Int32Array.from([...rows.concept, ...missing]),
      weight: padded(rows.weight, 0),
      label: padded(rows.label, 1),
      named: Uint8Array.from([...rows.named, ...missing.map(() => 0)]),
      time: padded(rows.time, 1),
    },
  };
}

export interface Faults {
  /** False: the gammas keep the model's constants, so that a fault cannot feed on itself. */
  readonly learn?: boolean;
  readonly pieces?: ChainPieces;
  /** What a fault makes of the arrays, such as a weight that is dropped. */
  readonly spoil?: (compiled: CompiledLog) => CompiledLog;
}

/**
 * Ranks of the truth among `draws` thinned posterior draws: per quantity, counts of each of the
 * draws + 1 ranks over the replications.
 */
export function calibrationRanks(
  replications: number,
  draws: number,
  thin: number,
  seed: number,
  faults: Faults = {},
): number[][] {
  const random = randomFrom(seed);
  const counts = quantities.map(() => new Array<number>(draws + 1).fill(0));
  for (let replication = 0; replication < replications;) {
    const truth = drawForwardState(random, conceptCount, true);
    const data = drawForwardData(random, forwardItems, truth);
    // A chain without a miss has no rows to draw from; such data are left out, and so is their
    // share of the prior: leaving out by the data alone keeps the posterior of the rest as it is.
    if (data.every((each) => each === undefined)) continue;
    const sound = withEveryConcept(compileForward(forwardItems, data));
    const compiled = faults.spoil?.(sound) ?? sound;
    const start = {
      rate: Float64Array.from(truth.rate, () => 0.2),
      slipRate: 0.1,
      gapShare: 0.1,
      gammas: { gapShape: 3, gapRate: 3, soundRate: 20 },
      labels: defaultLabelShares(defaultParameters),
    };
    const chain = startChain(compiled, random, start, faults.pieces);
    for (let sweep = 0; sweep < 60; sweep++) chain.sweep();
    const below = quantities.map(() => 0);
    const trueValues = valuesOf(truth);
    for (let draw = 0; draw < draws; draw++) {
      for (let sweep = 0; sweep < thin; sweep++) chain.sweep();
      valuesOf(chain.state).forEach((value, q) => {
        if (value < trueValues[q]!) below[q]! += 1;
      });
    }
    below.forEach((rank, q) => (counts[q]![rank]! += 1));
    replication += 1;
  }
  return counts;
}

/** Chi-square against equal chances, `bins` bins of neighbouring ranks. */
export function chiSquareOf(counts: readonly number[], bins: number): number {
  const width = counts.length / bins;
  const total = counts.reduce((sum, count) => sum + count, 0);
  let chiSquare = 0;
  for (let bin = 0; bin < bins; bin++) {
    let seen = 0;
    for (let rank = bin * width; rank < (bin + 1) * width; rank++) seen += counts[rank]!;
    chiSquare += (seen - total / bins) ** 2 / (total / bins);
  }
  return chiSquare;
}

/**
 * Geweke's test: draws of the parameters from the prior against those of a chain that alternates
 * a sweep given the data with new data given the parameters. Both have the prior as their
 * distribution. Returns per test function the z score of the difference of means, the chain's
 * standard error by means of 20 batches.
 */
export function jointDistributionScores(
  sweeps: number,
  seed: number,
  faults: Faults = {},
): number[] {
  const random = randomFrom(seed);
  const learn = faults.learn ?? true;
  const functionsOf = (state: ForwardState): number[] => {
    const values = valuesOf(state);
    return [
      ...values,
      ...values.map((value) => value * value),
      state.gap.filter(Boolean).length,
      state.rate[0]! * state.rate[2]!,
      state.rate[1]! * state.slipRate,
    ];
  };
  const independent: number[][] = Array.from({ length: sweeps }, () =>
    functionsOf(drawForwardState(random, conceptCount, learn)),
  );

  let state = drawForwardState(random, conceptCount, learn);
  const linked: number[][] = [];
  while (linked.length < sweeps) {
    const data = drawForwardData(random, forwardItems, state);
    const none = data.every((each) => each === undefined);
    const sound = none ? paddedEmpty() : withEveryConcept(compileForward(forwardItems, data));
    const chain = startChain(
      faults.spoil?.(sound) ?? sound,
      random,
      {
        rate: Float64Array.from(state.rate),
        slipRate: state.slipRate,
        gapShare: state.gapShare,
        ...(learn ? { gammas: state.gammas, labels: state.labels } : {}),
      },
      faults.pieces,
    );
    chain.sweep();
    const { rate, gap, slipRate, gapShare, gammas, labels } = chain.state;
    state = {
      rate: [...rate],
      gap: Array.from(gap, (z) => z === 1),
      slipRate,
      gapShare,
      gammas: { ...gammas },
      labels: { ...labels },
    };
    linked.push(functionsOf(state));
  }

  const width = linked[0]!.length;
  return Array.from({ length: width }, (_, f) => {
    const first = meanAndError(
      independent.map((row) => row[f]!),
      sweeps,
    );
    const second = meanAndError(
      linked.map((row) => row[f]!),
      50,
    );
    const error = Math.hypot(first.error, second.error);
    // Gammas that are kept do not vary at all.
    return error === 0 ? 0 : (first.mean - second.mean) / error;
  });
}

/** No miss at all: one row of multiplicity 0 keeps every concept in the chain. */
function paddedEmpty(): CompiledLog {
  const missed = compileForward(
    [{ weights: [1, 1, 1, 1], labelled: false, topics: [] }, ...forwardItems.slice(1)],
    [-1, ...forwardItems.slice(1).map(() => undefined)],
  );
  const exact = compileForward(
    forwardItems,
    forwardItems.map(() => undefined),
  );
  return {
    ...exact,
    rows: { ...missed.rows, multiplicity: Int32Array.of(0) },
  };
}

function meanAndError(values: readonly number[], batches: number): { mean: number; error: number } {
  const size = Math.floor(values.length / batches);
  const means = Array.from({ length: batches }, (_, b) => {
    let sum = 0;
    for (let i = b * size; i < (b + 1) * size; i++) sum += values[i]!;
    return sum / size;
  });
  const mean = means.reduce((sum, each) => sum + each, 0) / batches;
  const variance = means.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (batches - 1);
  return { mean, error: Math.sqrt(variance / batches) };
}
