/**
 * One root of the quick pass. What takes longer (intervals, lists, splits) is worked out when it is
 * first read: a screen reads some dozens of roots. Such figures lie on the class, as a getter for
 * each of 2,000 roots took longer to make than all figures together.
 */
import { normalQuantile } from '../numeric/normal';
import { gammaQuantileNear, mixtureInterval, zOf95, type GammaShape } from './interval';
import type { Trend } from './trend';
import type { Root } from './tracing';

/** What all roots of one result are read from; arrays of shape (concepts,). */
export interface RootFigures {
  readonly ids: readonly string[];
  readonly traced: Float64Array;
  readonly gapChance: Float64Array;
  readonly faultRate: Float64Array;
  readonly reach: Float64Array;
  readonly exposure: Float64Array;
  readonly yields: Float64Array;
  readonly avoidable: Float64Array;
  readonly evidenceCount: Int32Array;
  readonly trend: readonly (Trend | undefined)[];
  /** Variance of a concept's traced misses were it a gap, and the most there was to trace. */
  readonly tracedVariance: Float64Array;
  readonly tracedMost: Float64Array;
  splitOf(concept: number): Root['bySystem'];
  evidenceOf(concept: number): Root['evidence'];
  /** Gammas of a concept's rate, were it a gap and were it sound. */
  gammasOf(concept: number): readonly [GammaShape, GammaShape];
  /** 90 % interval of a concept's rate given that it is a gap, its misses counted as they would be then. */
  gapRateInterval(concept: number): readonly [number, number];
}

export class QuickRoot implements Root {
  readonly conceptId: string;
  readonly traced: number;
  readonly gapChance: number;
  readonly faultRate: number;
  readonly reach: number;
  readonly exposure: number;
  readonly exposurePer100: number;
  readonly trend: number | undefined;
  readonly trendInterval: readonly [number, number] | undefined;
  readonly avoidable: number;
  readonly evidenceCount: number;
  readonly #figures: RootFigures;
  readonly #concept: number;
  #split: Root['bySystem'] | undefined;
  #evidence: Root['evidence'] | undefined;
  #faultInterval: readonly [number, number] | undefined;
  #gapFaultInterval: readonly [number, number] | undefined;

  constructor(figures: RootFigures, c: number) {
    this.conceptId = figures.ids[c]!;
    this.traced = figures.traced[c]!;
    this.gapChance = figures.gapChance[c]!;
    this.faultRate = figures.faultRate[c]!;
    this.reach = figures.reach[c]!;
    this.exposure = figures.exposure[c]!;
    this.exposurePer100 = figures.yields[c]!;
    this.trend = figures.trend[c]?.change;
    this.trendInterval = figures.trend[c]?.interval;
    this.avoidable = figures.avoidable[c]!;
    this.evidenceCount = figures.evidenceCount[c]!;
    this.#figures = figures;
    this.#concept = c;
  }

  get tracedInterval(): readonly [number, number] {
    const { tracedVariance, tracedMost } = this.#figures;
    const c = this.#concept;
    return countInterval(this.gapChance, this.traced, tracedVariance[c]!, tracedMost[c]!);
  }

  get faultInterval(): readonly [number, number] {
    return (this.#faultInterval ??= mixtureInterval(
      this.gapChance,
      ...this.#figures.gammasOf(this.#concept),
    ));
  }

  get gapFaultInterval(): readonly [number, number] {
    return (this.#gapFaultInterval ??= this.#figures.gapRateInterval(this.#concept));
  }

  get bySystem(): Root['bySystem'] {
    return (this.#split ??= this.#figures.splitOf(this.#concept));
  }

  get evidence(): Root['evidence'] {
    return (this.#evidence ??= this.#figures.evidenceOf(this.#concept));
  }
}

/**
 * The 90 % interval of traced misses: none unless the concept is a gap, else about a gamma of
 * the given mean and variance, within what there was to trace.
 */
function countInterval(
  gapChance: number,
  traced: number,
  variance: number,
  most: number,
): readonly [number, number] {
  if (traced <= 0 || gapChance <= 0) return [0, 0];
  const mean = Math.min(most, traced / gapChance);
  // A count below this variance is known for all practical purposes; 0 would divide by 0.
  const shape = (mean * mean) / Math.max(variance, 1e-9);
  const at = (p: number): number => {
    const inGap = (p - (1 - gapChance)) / gapChance;
    if (inGap <= 0) return 0;
    const z = inGap === 0.05 ? -zOf95 : normalQuantile(inGap);
    return Math.min(most, gammaQuantileNear({ shape, mean }, z));
  };
  const low = at(0.05);
  return [low, Math.max(low, at(0.95))];
}
