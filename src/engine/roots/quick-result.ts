/** Reads the roots off the settled quick pass. */
import { avoidableMisses, mixExposure } from './avoidable';
import type { CompiledLog } from './compiled';
import { countedGapRates } from './counted-rate';
import { evidenceOf, withList, type EvidenceLists } from './evidence';
import { gammaInterval } from './interval';
import { levelOf } from './level';
import { linkDoubt, linkedShare } from './link-doubt';
import { missChanceOf } from './miss-chance';
import type { QuickState } from './quick-pass';
import { perSystem } from './per-system';
import { QuickRoot, type RootFigures } from './quick-root';
import { trendOf } from './trend';
import type { TraceLog, TraceResult } from './tracing';

/** The most of a count's variance that may be put down to doubt about sources. */
const mostMissingInformation = 0.8;

export function quickResult(log: TraceLog, compiled: CompiledLog, state: QuickState): TraceResult {
  const { rows, exposure, parameters, graph } = compiled;
  const conceptCount = graph.ids.length;
  const { model, counts } = state;
  const { answer, asked } = model;
  model.priorOdds = state.gapShare / (1 - state.gapShare);
  const { gapShape, gapRate, soundShape, soundRate } = parameters;

  const gapChance = new Float64Array(conceptCount);
  const faultRate = new Float64Array(conceptCount);
  const partOf = new Float64Array(conceptCount);
  for (let c = 0; c < conceptCount; c++) {
    model.evaluate(c, counts);
    const rate = answer[0]!;
    gapChance[c] = answer[2]!;
    faultRate[c] = rate;
    partOf[c] = rate > 0 ? answer[1]! / rate : 0;
  }

  const entryCount = rows.concept.length;
  const gapShareOfEntry = new Float64Array(entryCount);
  const traced = new Float64Array(conceptCount);
  const spread = new Float64Array(conceptCount);
  const heads = new Float64Array(conceptCount);
  const most = new Float64Array(conceptCount);
  const closeness = new Float64Array(conceptCount);
  const countIfGap = new Float64Array(conceptCount);
  const firsts = new Float64Array(conceptCount);
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
        asked[0] = state.contribution[e]!;
        asked[1] = time;
        model.evaluateWithout(c, counts);
        gapPart = answer[1]! / answer[0]!;
      }
      const part = share * gapPart;
      gapShareOfEntry[e] = part;
      traced[c]! += part * time * copies;
      const given = gapChance[c]! > 0 ? Math.min(1, part / gapChance[c]!) : 0;
      spread[c]! += given * (1 - given) * time * time * copies;
      heads[c]! += given * time * time * copies;
      countIfGap[c]! += given * time * copies;
      firsts[c]! += share * time * copies;
      most[c]! += time * copies;
      closeness[c]! += state.contribution[e]! * rows.weight[e]! * time * copies;
    }
  }

  const bySystem = perSystem(compiled, gapShareOfEntry);
  const trend = trendOf(compiled, gapShareOfEntry);
  const lists: EvidenceLists = evidenceOf(log, compiled, state.share, state.slipShare);
  const soundMean = soundShape / soundRate;
  const avoidable = avoidableMisses(compiled, faultRate, state.slipRate, soundMean);
  const yields = mixExposure(compiled);

  // Doubt about sources leaves less information than the events would carry if seen.
  const missing = heads.map((head, c) =>
    head > 0 ? Math.min(mostMissingInformation, spread[c]! / head) : 0,
  );
  const linked = linkedShare(compiled);
  const countedRates = countedGapRates(compiled, faultRate, state.slipRate, linked);
  const figures: RootFigures = {
    ids: graph.ids,
    traced,
    gapChance,
    faultRate,
    reach: bySystem.reach,
    exposure,
    yields,
    avoidable,
    evidenceCount: lists.counts,
    trend,
    tracedVariance: spread.map((each, c) => each / (1 - missing[c]!)),
    tracedMost: most,
    splitOf: (c) => bySystem.of(c),
    evidenceOf: (c) => lists.ofConcept(c),
    gammasOf: (c) => {
      const count = counts[3 * c]!;
      const near = count > 0 ? closeness[c]! / count : 1;
      const seenCount = count * (1 - missing[c]!) * seenShare(near * faultRate[c]!);
      return [
        {
          shape: doubted(gapShape + seenCount, linked[c]!),
          mean: (gapShape + count) / (gapRate + exposure[c]!),
        },
        {
          shape: doubted(soundShape + seenCount, linked[c]!),
          mean: (soundShape + count) / (soundRate + exposure[c]!),
        },
      ];
    },
    gapRateInterval: (c) => {
      if (countedRates) return countedRates(c);
      // Failures are more than first failures, by the same factor whether it is a gap or not.
      const all = counts[3 * c]!;
      const count = firsts[c]! > 0 ? (all * countIfGap[c]!) / firsts[c]! : 0;
      const near = all > 0 ? closeness[c]! / all : 1;
      const mean = (gapShape + count) / (gapRate + exposure[c]!);
      const seenCount = count * (1 - missing[c]!) * seenShare(near * mean);
      return gammaInterval({ shape: doubted(gapShape + seenCount, linked[c]!), mean });
    },
  };
  const roots = rankedConcepts(traced, graph.ids).map((c) => new QuickRoot(figures, c));

  let slip = 0;
  for (let r = 0; r < rows.count; r++)
    slip += state.slipShare[r]! * rows.slipTime[r]! * rows.multiplicity[r]!;
  const result: Omit<TraceResult, 'slipEvidence'> = {
    roots,
    slip,
    weighed: lists.weighed,
    slipRate: state.slipRate,
    missChance: missChanceOf(compiled, faultRate, state.slipRate, () =>
      levelOf(compiled, faultRate, state.slipRate),
    ),
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

/** Concepts, largest traced first, ties by id. */
function rankedConcepts(traced: Float64Array, ids: readonly string[]): number[] {
  const order = Array.from(traced.keys());
  return order.sort((a, b) => traced[b]! - traced[a]! || (ids[a]! < ids[b]! ? -1 : 1));
}

/** Shape of a gamma whose relative variance is its own and that of the doubt about links. */
function doubted(shape: number, linked: number): number {
  return 1 / (1 / shape + (linkDoubt * linked) ** 2);
}

/**
 * Share of what events would tell of their rate that is left where only "none" and "some" are told
 * apart: the observed over the complete information (T. A. Louis 1982, JRSS B 44:226-233), which for a
 * Poisson mean x is x / (exp(x) - 1).
 */
function seenShare(x: number): number {
  return x < 1e-6 ? 1 : x / Math.expm1(x);
}
