/** Oracle: the Gibbs sampler over objects and maps, every item looked at in every sweep. */
import type { TraceLog } from '../../../src/engine/index';
import type { Random } from '../../../src/engine/numeric/random';
import {
  drawBeta,
  drawGamma,
  drawZeroTruncatedPoisson,
} from '../../../src/engine/numeric/sampling';
import { naiveExposure, naiveGapChance, naiveItems, slip } from './naive-model';

export interface NaiveSampler {
  sweep(): void;
  readonly gapChance: Map<string, number>;
  readonly rate: Map<string, number>;
}

/** A chain with the model's constants; only the random draws are the engine's. No totals. */
export function naiveSampler(log: TraceLog, halfLifeDays: number, random: Random): NaiveSampler {
  const items = naiveItems(log, halfLifeDays);
  const rate = new Map(log.concepts.map(({ id }) => [id, 0.1]));
  const gapChance = new Map<string, number>();
  let slipRate = 0.1;
  let gapShare = 2 / 22;
  const draw = (masses: ReadonlyMap<string, number>): string => {
    let sum = 0;
    for (const mass of masses.values()) sum += mass;
    let u = random.uniform() * sum;
    let last = slip;
    for (const [source, mass] of masses) {
      last = source;
      u -= mass;
      if (u < 0) break;
    }
    return last;
  };
  return {
    gapChance,
    rate,
    sweep() {
      const exposure = naiveExposure(items);
      const events = new Map<string, number>();
      const count = (source: string, time: number): void => {
        events.set(source, (events.get(source) ?? 0) + time);
      };
      for (const item of items) {
        if (!item.missed) continue;
        const masses = new Map([[slip, slipRate]]);
        const labelled = new Map([[slip, slipRate * item.slipLabel]]);
        for (const [concept, { weight, label }] of item.sources) {
          masses.set(concept, weight * rate.get(concept)!);
          labelled.set(concept, weight * rate.get(concept)! * label);
        }
        let total = 0;
        for (const mass of masses.values()) total += mass;
        const timeOf = (source: string): number => item.sources.get(source)?.time ?? item.slipTime;
        const first = draw(labelled);
        count(first, timeOf(first));
        for (let more = drawZeroTruncatedPoisson(random, total) - 1; more > 0; more--) {
          const source = draw(masses);
          count(source, timeOf(source));
        }
      }
      let gaps = 0;
      let exposed = 0;
      for (const { id } of log.concepts) {
        const seen = exposure.get(id) ?? 0;
        if (seen <= 0) continue;
        exposed += 1;
        const n = events.get(id) ?? 0;
        const chance = naiveGapChance(gapShare, n, seen);
        gapChance.set(id, chance);
        const isGap = random.uniform() < chance;
        if (isGap) gaps += 1;
        rate.set(
          id,
          isGap ? drawGamma(random, 2 + n) / (2 + seen) : drawGamma(random, 1 + n) / (25 + seen),
        );
      }
      gapShare = drawBeta(random, 2 + gaps, 20 + exposed - gaps);
      slipRate = drawGamma(random, 2 + (events.get(slip) ?? 0)) / (20 + (exposure.get(slip) ?? 0));
    },
  };
}
