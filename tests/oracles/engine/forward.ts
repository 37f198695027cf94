/**
 * The model run forwards on a small fixed network: parameters from the prior, events, outcomes and
 * labels from the parameters. For simulation-based calibration and joint-distribution tests of the
 * sampler, which runs on compiled arrays; so the arrays are written here, by hand.
 *
 * Labels are written as the method has it: the source, a topic, a concept leant on, any concept; a
 * slip in one of the last three manners. A label is drawn from its chances given the source, which
 * are written out again here.
 */
import type { Random } from '../../../src/engine/numeric/random';
import { drawBeta, drawGamma, drawPoisson } from '../../../src/engine/numeric/sampling';
import { compileLog } from '../../../src/engine/roots/compile';
import type { CompiledLog } from '../../../src/engine/roots/compiled';
import { defaultParameters } from '../../../src/engine/roots/parameters';
import type { RateGammas } from '../../../src/engine/roots/learned';
import { labelTerms, noLabel, type LabelShares } from '../../../src/engine/roots/label';
import { rowBuilder } from '../../../src/engine/roots/row-builder';

export interface ForwardItem {
  /** Weight of each concept. */
  readonly weights: readonly number[];
  readonly labelled: boolean;
  readonly topics: readonly number[];
}

export interface ForwardState {
  readonly rate: readonly number[];
  readonly gap: readonly boolean[];
  readonly gapShare: number;
  readonly slipRate: number;
  /** The gammas of the rates: drawn, where they are learned; else the model's constants. */
  readonly gammas: RateGammas;
  readonly labels: LabelShares;
}

/** Per item: undefined when right, else its label (-1 for none). */
export type ForwardData = readonly (number | undefined)[];

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
  const labels = learn ? drawPriorLabels(random) : { ...fixedLabels };
  const gapShare = drawBeta(random, p.gapShareFor, p.gapShareAgainst);
  const gap = Array.from({ length: conceptCount }, () => random.uniform() < gapShare);
  return {
    gapShare,
    gap,
    gammas,
    labels,
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

const fixedLabels: LabelShares = {
  true: 0.4,
  topic: 0.35,
  near: 0.05,
  stray: 0.2,
  slipTopic: 7 / 12,
  slipNear: 1 / 12,
  slipStray: 4 / 12,
};

/** Dirichlet of 20 times the fixed shares, and of 12 times those of a slip. */
function drawPriorLabels(random: Random): LabelShares {
  const dirichlet = (shapes: readonly number[]): number[] => {
    const parts = shapes.map((shape) => drawGamma(random, shape));
    const total = parts.reduce((sum, part) => sum + part, 0);
    return parts.map((part) => part / total);
  };
  const [ofTrue, topic, near, stray] = dirichlet([8, 7, 1, 4]);
  const [slipTopic, slipNear, slipStray] = dirichlet([7, 1, 4]);
  return {
    true: ofTrue!,
    topic: topic!,
    near: near!,
    stray: stray!,
    slipTopic: slipTopic!,
    slipNear: slipNear!,
    slipStray: slipStray!,
  };
}

/** Chance of each label given the source, -1 for a slip; they add to 1. */
export function labelChances(item: ForwardItem, labels: LabelShares, source: number): number[] {
  const count = item.weights.length;
  const leantOn = item.weights.filter((weight) => weight > 0).length;
  const topics = new Set(item.topics);
  return item.weights.map((weight, l) => {
    const topic = topics.size === 0 ? 1 / count : topics.has(l) ? 1 / topics.size : 0;
    const near = weight > 0 ? 1 / leantOn : 0;
    return source < 0
      ? labels.slipTopic * topic + labels.slipNear * near + labels.slipStray / count
      : (l === source ? labels.true : 0) +
          labels.topic * topic +
          labels.near * near +
          labels.stray / count;
  });
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
    let u = random.uniform();
    const chances = labelChances(item, state.labels, source);
    for (let l = 0; l < conceptCount - 1; l++) {
      u -= chances[l]!;
      if (u < 0) return l;
    }
    return conceptCount - 1;
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
    item.weights.forEach((weight, c) => {
      if (weight === 0) return;
      rows.source(c, weight, label === c, 1);
    });
    rows.close({
      terms:
        label < 0
          ? noLabel
          : labelTerms(
              {
                causeCount: 1,
                topicCauses: item.topics.includes(label) ? 1 : 0,
                nearCauses: item.weights[label]! > 0 ? 1 : 0,
                topicCount: item.topics.length,
                nearCount: item.weights.filter((weight) => weight > 0).length,
              },
              conceptCount,
            ),
      slipRatio: 1,
      slipTime: 1,
      multiplicity: 1,
      system: -1,
      window: 0,
      ageSpan: 0,
      item: i,
    });
  });
  return { ...empty, exposure, slipExposure: items.length, rows: rows.finish(fixedLabels) };
}

/** A network of four concepts and eighteen items that tie them together unequally. */
export const forwardItems: readonly ForwardItem[] = Array.from({ length: 18 }, (_, i) => ({
  weights: [i % 3 === 0 ? 1 : 0.35, i % 3 === 1 ? 1 : 0, i % 3 === 2 ? 0.8 : 0.1, i < 6 ? 0.5 : 0],
  labelled: i % 4 !== 3,
  // One topic, two, or none.
  topics: i % 5 === 0 ? [0, 2] : i % 7 === 0 ? [] : [i % 3],
}));
