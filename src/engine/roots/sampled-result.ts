/** Reads the roots off the tally of the chains. */
import { normalQuantile } from '../numeric/normal';
import { logGamma } from '../numeric/special';
import type { Agreement } from './agreement';
import { avoidableMisses, mixExposure } from './avoidable';
import type { CompiledLog } from './compiled';
import { evidenceOf, withList } from './evidence';
import { exactMixtureInterval } from './interval';
import { linkDoubt, linkedShare } from './link-doubt';
import { missChanceOf } from './miss-chance';
import { perSystem } from './per-system';
import type { Tally } from './tally';
import { trendOf } from './trend';
import type { Root, TraceLog, TraceResult } from './tracing';

interface GammaPair {
  readonly gapShape: number;
  readonly gapRate: number;
  readonly soundShape: number;
  readonly soundRate: number;
}

/** Draws of a concept as a gap, in sum of their chances, from which their quantiles are believed. */
const leastGapDraws = 100;

/**
 * @param atOnce the quick pass, whose intervals stand for what the draws hardly ever saw
 */
export function sampledResult(
  log: TraceLog,
  compiled: CompiledLog,
  reached: Int32Array,
  tally: Tally,
  agreement: Agreement,
  atOnce: TraceResult,
): TraceResult {
  const { rows, graph } = compiled;
  const { settled, worstRHat, leastEssBulk, leastEssTail } = agreement;
  const parameters = {
    gapShape: tally.gammas.gapShape / tally.drawCount,
    gapRate: tally.gammas.gapRate / tally.drawCount,
    soundShape: compiled.parameters.soundShape,
    soundRate: tally.gammas.soundRate / tally.drawCount,
  };
  const linked = linkedShare(compiled);
  const exposure = tally.exposure.map((sum) => sum / tally.drawCount);
  const conceptCount = graph.ids.length;
  const draws = tally.drawCount;
  const placeOf = new Int32Array(conceptCount).fill(-1);
  reached.forEach((c, k) => (placeOf[c] = k));
  const slipRate = meanOf(tally.slipRateDraws);
  const gapShare = meanOf(tally.gapShareDraws);
  const priorMean =
    (gapShare * parameters.gapShape) / parameters.gapRate +
    ((1 - gapShare) * parameters.soundShape) / parameters.soundRate;

  // Shares of one miss of a row: what was counted, over draws and copies.
  const share = new Float64Array(rows.concept.length);
  const asGap = new Float64Array(rows.concept.length);
  const slipShare = new Float64Array(rows.count);
  const traced = new Float64Array(conceptCount);
  let slip = 0;
  for (let r = 0; r < rows.count; r++) {
    const counted = draws * rows.multiplicity[r]!;
    slipShare[r] = tally.slips[r]! / counted;
    slip += slipShare[r]! * rows.slipTime[r]! * rows.multiplicity[r]!;
    for (let e = rows.start[r]!; e < rows.start[r + 1]!; e++) {
      share[e] = tally.first[e]! / counted;
      asGap[e] = tally.firstAsGap[e]! / counted;
      traced[rows.concept[e]!]! += asGap[e]! * rows.time[e]! * rows.multiplicity[r]!;
    }
  }

  const bySystem = perSystem(compiled, asGap);
  const trend = trendOf(compiled, asGap);
  const lists = evidenceOf(log, compiled, share, slipShare);
  const yields = mixExposure(compiled);
  const avoidable = new Float64Array(conceptCount);
  // What "sound" means is fixed, so that a shaky candidate is not told that little can be won.
  const soundMean = compiled.parameters.soundShape / compiled.parameters.soundRate;
  for (const snapshot of tally.snapshots) {
    const each = avoidableMisses(compiled, snapshot.rate, snapshot.slipRate, soundMean);
    for (let c = 0; c < conceptCount; c++) avoidable[c]! += each[c]! / tally.snapshots.length;
  }
  const chances = tally.snapshots.map((snapshot) =>
    missChanceOf(compiled, snapshot.rate, snapshot.slipRate),
  );

  const quickRoots = new Map(atOnce.roots.map((root) => [root.conceptId, root]));
  const isGapGiven = gapGivenRate(parameters, gapShare);
  const roots: Root[] = [];
  for (let c = 0; c < conceptCount; c++) {
    const k = placeOf[c]!;
    const seen = exposure[c]! > 0;
    const gapChance = seen ? tally.gapChance[c]! / draws : gapShare;
    const ofTraced = drawsOf(tally.tracedDraws, k, tally);
    const root: Omit<Root, 'evidence'> = {
      conceptId: graph.ids[c]!,
      traced: traced[c]!,
      tracedInterval: ofTraced ? drawInterval(ofTraced) : [0, 0],
      gapChance,
      faultRate: seen ? tally.meanRate[c]! / draws : priorMean,
      faultInterval:
        k >= 0
          ? drawInterval(doubted(drawsOf(tally.rateDraws, k, tally)!, linked[c]!))
          : exactMixtureInterval(
              gapChance,
              { shape: parameters.gapShape, rate: parameters.gapRate + exposure[c]! },
              { shape: parameters.soundShape, rate: parameters.soundRate + exposure[c]! },
            ),
      gapFaultInterval:
        (k >= 0 && gapDrawInterval(drawsOf(tally.rateDraws, k, tally)!, linked[c]!, isGapGiven)) ||
        quickRoots.get(graph.ids[c]!)!.gapFaultInterval,
      bySystem: bySystem.of(c),
      reach: bySystem.reach[c]!,
      exposure: exposure[c]!,
      exposurePer100: yields[c]!,
      trend: trend[c]?.change,
      trendInterval: trend[c]?.interval,
      avoidable: avoidable[c]!,
      evidenceCount: lists.counts[c]!,
      firstTenChance: tally.inFirst[c]! / draws,
    };
    roots.push(withList(root, 'evidence', () => lists.ofConcept(c)));
  }
  roots.sort((a, b) => b.traced - a.traced || (a.conceptId < b.conceptId ? -1 : 1));

  const result: Omit<TraceResult, 'slipEvidence'> = {
    roots,
    slip,
    weighed: lists.weighed,
    slipRate,
    missChance: (item) => {
      let sum = 0;
      for (const chance of chances) sum += chance(item);
      return sum / chances.length;
    },
    diagnostics: {
      method: 'sampled',
      converged: settled,
      iterations: draws,
      residual: worstRHat - 1,
      missCount: compiled.missCount,
      itemCount: compiled.itemCount,
      unitemisedMissCount: compiled.unitemisedMissCount,
      gapShare,
      sampling: { chains: tally.chains, worstRHat, leastEssBulk, leastEssTail },
    },
  };
  return withList(result, 'slipEvidence', () => lists.ofSlip());
}

function drawsOf(values: Float32Array, k: number, tally: Tally): Float32Array | undefined {
  const kept = tally.chains * tally.drawsPerChain;
  return k < 0 ? undefined : values.subarray(k * kept, (k + 1) * kept);
}

function meanOf(values: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]!;
  return sum / values.length;
}

/** The 90 % interval between the 5 % and 95 % order statistics. */
function drawInterval(values: Float32Array): readonly [number, number] {
  const sorted = values.slice().sort();
  const last = sorted.length - 1;
  return [sorted[Math.floor(0.05 * last)]!, sorted[Math.ceil(0.95 * last)]!];
}

/**
 * Chance that a concept is a gap given its rate alone: what is known of it from the log speaks
 * through the rate.
 */
function gapGivenRate(
  { gapShape, gapRate, soundShape, soundRate }: GammaPair,
  gapShare: number,
): (rate: number) => number {
  const level =
    Math.log(gapShare / (1 - gapShare)) +
    gapShape * Math.log(gapRate) -
    logGamma(gapShape) -
    (soundShape * Math.log(soundRate) - logGamma(soundShape));
  return (rate) =>
    1 /
    (1 +
      Math.exp(-(level + (gapShape - soundShape) * Math.log(rate) - (gapRate - soundRate) * rate)));
}

/** The 90 % interval of the draws, each weighed by its chance of being a gap's; undefined for too few. */
function gapDrawInterval(
  draws: Float32Array,
  linked: number,
  isGapGiven: (rate: number) => number,
): readonly [number, number] | undefined {
  const shown = doubted(draws, linked);
  const weighed = Array.from(draws, (rate, i) => ({
    rate: shown[i]!,
    weight: rate > 0 ? isGapGiven(rate) : 0,
  })).sort((a, b) => a.rate - b.rate);
  const total = weighed.reduce((sum, { weight }) => sum + weight, 0);
  if (total < leastGapDraws) return undefined;
  const quantile = (p: number): number => {
    let below = 0;
    for (const { rate, weight } of weighed) {
      below += weight;
      if (below >= p * total) return rate;
    }
    return weighed.at(-1)!.rate;
  };
  return [quantile(0.05), quantile(0.95)];
}

/**
 * Draws of a rate with the doubt about link strengths let in. For a concept met only through
 * links the data know strength times rate, not the rate alone.
 *
 * @param linked share of its exposure that comes through links
 */
function doubted(draws: Float32Array, linked: number): Float32Array {
  if (linked === 0) return draws;
  // Evenly spread quantiles, dealt out by a stride that shares no factor with most counts, stand
  // for random draws without a generator.
  const count = draws.length;
  return draws.map((draw, i) => {
    const place = ((i * 7_919) % count) + 0.5;
    return draw * Math.exp(linkDoubt * linked * normalQuantile(place / count));
  });
}
