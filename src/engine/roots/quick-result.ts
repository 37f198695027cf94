/** Reads the roots off the settled quick pass. */
import { avoidableMisses, mixExposure } from './avoidable';
import type { CompiledLog } from './compiled';
import { evidenceOf, withList, type EvidenceLists } from './evidence';
import { gammaQuantileNear, mixtureInterval, zOf95 } from './interval';
import { missChanceOf } from './miss-chance';
import type { QuickState } from './quick-pass';
import { normalQuantile } from '../numeric/normal';
import { perSystem } from './per-system';
import { trendOf } from './trend';
import type { Root, TraceLog, TraceResult } from './tracing';

/** The most of a count's variance that may be put down to doubt about sources. */
const mostMissingInformation = 0.8;

export function quickResult(log: TraceLog, compiled: CompiledLog, state: QuickState): TraceResult {
  const { rows, exposure, parameters, graph } = compiled;
  const conceptCount = graph.ids.length;
  const { model, counts } = state;
  model.priorOdds = state.gapShare / (1 - state.gapShare);
  const { gapShape, gapRate, soundShape, soundRate } = parameters;

  const gapChance = new Float64Array(conceptCount);
  const faultRate = new Float64Array(conceptCount);
  const partOf = new Float64Array(conceptCount);
  for (let c = 0; c < conceptCount; c++) {
    model.evaluate(c, counts);
    gapChance[c] = model.gapChance;
    faultRate[c] = model.rate;
    partOf[c] = model.rate > 0 ? model.gapRate / model.rate : 0;
  }

  const entryCount = rows.concept.length;
  const gapShareOfEntry = new Float64Array(entryCount);
  const traced = new Float64Array(conceptCount);
  const spread = new Float64Array(conceptCount);
  const heads = new Float64Array(conceptCount);
  const most = new Float64Array(conceptCount);
  for (let r = 0; r < rows.count; r++) {
    const copies = rows.multiplicity[r]!;
    for (let e = rows.start[r]!; e < rows.start[r + 1]!; e++) {
      const c = rows.concept[e]!;
      const time = rows.time[e]!;
      const share = state.share[e]!;
      // A gap's part in the share: the chance of a gap given that this miss came from the
      // concept weighs gap and sound by their rates without the miss. Small contributions
      // change little; the large ones are taken out for themselves.
      let gapPart = partOf[c]!;
      if (state.contribution[e]! > 0.05) {
        model.evaluateWithout(c, counts, state.contribution, rows.time, e);
        gapPart = model.gapRate / model.rate;
      }
      const part = share * gapPart;
      gapShareOfEntry[e] = part;
      traced[c]! += part * time * copies;
      const given = gapChance[c]! > 0 ? Math.min(1, part / gapChance[c]!) : 0;
      spread[c]! += given * (1 - given) * time * time * copies;
      heads[c]! += given * time * time * copies;
      most[c]! += time * copies;
    }
  }

  const bySystem = perSystem(compiled, gapShareOfEntry);
  const trend = trendOf(compiled, gapShareOfEntry);
  const lists: EvidenceLists = evidenceOf(log, compiled, state.share, state.slipShare);
  const soundMean = soundShape / soundRate;
  const avoidable = avoidableMisses(compiled, faultRate, state.slipRate, soundMean);
  const yields = mixExposure(compiled);

  const roots: Root[] = [];
  for (let c = 0; c < conceptCount; c++) {
    const count = counts[3 * c]!;
    const chance = gapChance[c]!;
    const missing = heads[c]! > 0 ? Math.min(mostMissingInformation, spread[c]! / heads[c]!) : 0;
    // Doubt about sources leaves less information than the events would carry if seen.
    const seenCount = count * (1 - missing);
    let interval: readonly [number, number] | undefined;
    let evidence: Root['evidence'] | undefined;
    roots.push({
      conceptId: graph.ids[c]!,
      traced: traced[c]!,
      tracedInterval: countInterval(chance, traced[c]!, spread[c]! / (1 - missing), most[c]!),
      gapChance: chance,
      faultRate: faultRate[c]!,
      // Intervals and lists are made when they are read: a screen reads some dozens of them.
      get faultInterval() {
        return (interval ??= mixtureInterval(
          chance,
          { shape: gapShape + seenCount, mean: (gapShape + count) / (gapRate + exposure[c]!) },
          {
            shape: soundShape + seenCount,
            mean: (soundShape + count) / (soundRate + exposure[c]!),
          },
        ));
      },
      bySystem: bySystem.splits[c]!,
      reach: bySystem.reach[c]!,
      exposure: exposure[c]!,
      exposurePer100: yields[c]!,
      trend: trend[c]?.change,
      trendInterval: trend[c]?.interval,
      avoidable: avoidable[c]!,
      evidenceCount: lists.counts[c]!,
      get evidence() {
        return (evidence ??= lists.ofConcept(c));
      },
    });
  }
  roots.sort((a, b) => b.traced - a.traced || (a.conceptId < b.conceptId ? -1 : 1));

  let slip = 0;
  for (let r = 0; r < rows.count; r++)
    slip += state.slipShare[r]! * rows.slipTime[r]! * rows.multiplicity[r]!;
  const result: Omit<TraceResult, 'slipEvidence'> = {
    roots,
    slip,
    weighed: lists.weighed,
    slipRate: state.slipRate,
    missChance: missChanceOf(compiled, faultRate, state.slipRate),
    diagnostics: {
      method: 'quick',
      converged: state.converged,
      iterations: state.iterations,
      residual: state.residual,
      missCount: compiled.missCount,
      itemCount: compiled.itemCount,
      unitemisedMissCount: compiled.unitemisedMissCount,
      gapShare: state.gapShare,
    },
  };
  return withList(result, 'slipEvidence', () => lists.ofSlip());
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
