/** Oracle: the quick pass over objects and maps, each source's contribution taken out exactly. */
import type { TraceLog } from '../../../src/engine/index';
import { naiveExposure, naiveGapChance, naiveItems, slip } from './naive-model';

interface Moments {
  mean: number;
  variance: number;
  third: number;
}

interface Belief {
  gapChance: number;
  gapRate: number;
  rate: number;
}

function belief({ mean, variance, third }: Moments, exposure: number, gapShare: number): Belief {
  const points: { at: number; mass: number }[] = [];
  if (variance > 1e-12) {
    const skew = third / (2 * variance);
    const root = Math.sqrt(skew * skew + variance);
    const high = mean + skew + root;
    const low = Math.max(0, mean + skew - root);
    const mass = Math.max(0, (mean - low) / (high - low));
    points.push({ at: low, mass: 1 - mass }, { at: high, mass });
  } else points.push({ at: Math.max(0, mean), mass: 1 });
  const sum = { gapChance: 0, gapRate: 0, rate: 0 };
  for (const { at, mass } of points) {
    const chance = naiveGapChance(gapShare, at, exposure);
    const asGap = (chance * (2 + at)) / (2 + exposure);
    sum.gapChance += mass * chance;
    sum.gapRate += mass * asGap;
    sum.rate += mass * (asGap + ((1 - chance) * (1 + at)) / (25 + exposure));
  }
  return sum;
}

export interface NaiveResult {
  readonly gapChance: ReadonlyMap<string, number>;
  readonly faultRate: ReadonlyMap<string, number>;
  readonly traced: ReadonlyMap<string, number>;
  readonly slipRate: number;
  readonly passes: number;
}

/** The fixed point, within `tolerance` as the engine counts it. No totals. */
export function naiveQuick(log: TraceLog, halfLifeDays: number, tolerance: number): NaiveResult {
  const items = naiveItems(log, halfLifeDays);
  const contributions = new Map<string, Map<string, number>>();
  let now = new Map<string, Moments>();
  // A short log is begun with rare slips and a gap's rate everywhere, a long one with four fifths of its
  // misses as slips and the prior's mean rate.
  const answered = items.reduce((sum, item) => sum + item.slipTime, 0);
  const missed = items.reduce((sum, item) => sum + (item.missed ? item.slipTime : 0), 0);
  const long = answered / (answered + 200);
  const meanRate = (2 / 22) * 1 + (20 / 22) * 0.04;
  const startingRate = (1 - long) * 1 + long * meanRate;
  let slipRate = (1 - long) * 0.1 + (long * 0.8 * missed) / (1 + answered);
  let gapShare = 2 / 22;
  let traced = new Map<string, number>();
  let passes = 0;
  const nothing = (): Moments => ({ mean: 0, variance: 0, third: 0 });
  for (let change = Infinity; change > tolerance && passes < 500;) {
    passes += 1;
    const exposure = naiveExposure(items);
    const first = passes === 1;
    const beliefs = new Map<string, Belief>();
    const shareBefore = gapShare;
    if (!first) {
      let gaps = 0;
      let exposed = 0;
      for (const { id } of log.concepts) {
        if ((exposure.get(id) ?? 0) <= 0) continue;
        const each = belief(now.get(id) ?? nothing(), exposure.get(id)!, gapShare);
        beliefs.set(id, each);
        gaps += each.gapChance;
        exposed += 1;
      }
      gapShare = (2 + gaps) / (22 + exposed);
    }
    const next = new Map<string, Moments>();
    traced = new Map();
    let slipEvents = 0;
    for (const item of items) {
      if (!item.missed) continue;
      const before = contributions.get(item.id) ?? new Map<string, number>();
      const masses = new Map<string, number>();
      const gapParts = new Map<string, number>();
      const slipMass =
        slipRate - (item.slipTime * (before.get(slip) ?? 0)) / (20 + exposure.get(slip)!);
      let total = slipMass;
      let labelled = slipMass * item.slipLabel;
      for (const [concept, { weight, label, time }] of item.sources) {
        let without: Belief = { gapChance: 0, gapRate: 0, rate: startingRate };
        if (!first) {
          const own = before.get(concept) ?? 0;
          const coin = Math.min(1, own);
          const spread = coin * (1 - coin) * time * time;
          const all = now.get(concept) ?? nothing();
          without = belief(
            {
              mean: all.mean - own * time,
              variance: all.variance - spread,
              third: all.third - spread * (1 - 2 * coin) * time,
            },
            exposure.get(concept)!,
            shareBefore,
          );
        }
        masses.set(concept, weight * without.rate);
        gapParts.set(concept, without.gapRate / without.rate);
        total += weight * without.rate;
        labelled += weight * without.rate * label;
      }
      const extra = (total / (1 - Math.exp(-total)) - 1) / total;
      const after = new Map<string, number>();
      for (const [concept, mass] of masses) {
        const { label, time } = item.sources.get(concept)!;
        const share = (mass * label) / labelled;
        const count = share + mass * extra;
        const coin = Math.min(1, count);
        const spread = coin * (1 - coin) * time * time;
        const sum = next.get(concept) ?? nothing();
        sum.mean += count * time;
        sum.variance += spread;
        sum.third += spread * (1 - 2 * coin) * time;
        next.set(concept, sum);
        after.set(concept, count);
        traced.set(concept, (traced.get(concept) ?? 0) + share * gapParts.get(concept)! * time);
      }
      const slips = (slipMass * item.slipLabel) / labelled + slipMass * extra;
      after.set(slip, slips);
      slipEvents += slips * item.slipTime;
      contributions.set(item.id, after);
    }
    const slipNext = (2 + slipEvents) / (20 + (exposure.get(slip) ?? 0));
    change = first
      ? Infinity
      : Math.max(Math.abs(slipNext / slipRate - 1), Math.abs(gapShare / shareBefore - 1));
    if (!first)
      for (const [concept, { mean }] of next)
        change = Math.max(change, Math.abs(mean - (now.get(concept)?.mean ?? 0)) / (1 + mean));
    slipRate = slipNext;
    now = next;
  }
  const exposure = naiveExposure(items);
  const gapChance = new Map<string, number>();
  const faultRate = new Map<string, number>();
  for (const { id } of log.concepts) {
    const each = belief(now.get(id) ?? nothing(), exposure.get(id) ?? 0, gapShare);
    gapChance.set(id, each.gapChance);
    faultRate.set(id, each.rate);
  }
  return { gapChance, faultRate, traced, slipRate, passes };
}
