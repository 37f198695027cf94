/** Items known only by count: collected by system, spread over topic sets, placed in the arrays. */
import type { ConceptGraph } from '../graph/concept-graph';
import type { EvidenceClock } from './clock';
import {
  ageSpans,
  windowBefore,
  windowNow,
  type CompiledLog,
  type CountedSystem,
} from './compiled';
import { noLabel } from './label';
import type { TraceParameters } from './parameters';
import type { RowBuilder } from './row-builder';
import { spreadFinder } from './spread';
import type { TopicSetBuilder } from './topic-sets';
import type { TraceLog, TraceTotals } from './tracing';

/** The topic set of one itemised item. */
export interface ItemSet {
  readonly set: number;
  readonly system: string | undefined;
  readonly missed: boolean;
}

/** The totals of a log by system, with their spreads; empty without totals. */
export function countSystems(from: {
  readonly log: TraceLog;
  readonly graph: ConceptGraph;
  readonly sets: TopicSetBuilder;
  readonly clock: EvidenceClock;
  readonly parameters: TraceParameters;
  readonly itemSets: readonly ItemSet[];
}): CountedSystem[] {
  const { log, graph, sets, clock, parameters, itemSets } = from;
  if (log.unitemised.length === 0) return [];
  const bySystem = new Map<string | undefined, TraceTotals[]>();
  for (const totals of log.unitemised) {
    if (totals.right + totals.missed === 0) continue;
    const known = bySystem.get(totals.system);
    if (known) known.push(totals);
    else bySystem.set(totals.system, [totals]);
  }
  const spreadOf = spreadFinder(log.concepts, graph, sets, itemSets);
  return [...bySystem].map(([system, totals]) => {
    const spread = spreadOf(system);
    const place = new Map(spread.sets.map((set, k) => [set, k]));
    const itemised = new Float64Array(spread.sets.length);
    let itemisedRight = 0;
    let itemisedMissed = 0;
    for (const item of itemSets) {
      if (system !== undefined && item.system !== system) continue;
      const k = place.get(item.set);
      if (k === undefined) continue;
      itemised[k]! += 1;
      if (item.missed) itemisedMissed += 1;
      else itemisedRight += 1;
    }
    const sums = { right: 0, missed: 0, answeredWeighted: 0, rightWeighted: 0 };
    const rightByAge = new Float64Array(ageSpans);
    const answeredByAge = new Float64Array(ageSpans);
    let rightNow = 0;
    let rightBefore = 0;
    for (const { at, right, missed } of totals) {
      const timeWeight = clock.weightAt(at);
      sums.right += right;
      sums.missed += missed;
      sums.answeredWeighted += (right + missed) * timeWeight;
      sums.rightWeighted += right * timeWeight;
      const ageSpan = clock.ageSpanOf(at);
      rightByAge[ageSpan]! += right * timeWeight;
      answeredByAge[ageSpan]! += (right + missed) * timeWeight;
      const window = clock.windowOf(at);
      if (window === windowNow) rightNow += right;
      else if (window === windowBefore) rightBefore += right;
    }
    const rightLost = clock.anyRead
      ? Float64Array.from(clock.lastRead, (read) =>
          lostTo(read, totals, clock, parameters, (each) => each.right),
        )
      : undefined;
    return {
      system,
      sets: Int32Array.from(spread.sets),
      share: Float64Array.from(spread.shares),
      isLeaf: Uint8Array.from(spread.sets, (set) => (spread.leafSets.has(set) ? 1 : 0)),
      itemised,
      itemisedRight,
      itemisedMissed,
      ...sums,
      rightNow,
      rightBefore,
      rightByAge,
      answeredByAge,
      rightLost,
      totals,
    };
  });
}

/** What a reading at `read` took from the weighted counts of totals before it. */
function lostTo(
  read: number,
  totals: readonly TraceTotals[],
  clock: EvidenceClock,
  parameters: TraceParameters,
  countOf: (totals: TraceTotals) => number,
): number {
  if (read === -Infinity) return 0;
  let lost = 0;
  for (const each of totals)
    if (each.at < read)
      lost += countOf(each) * clock.weightAt(each.at) * (1 - parameters.readingDiscount);
  return lost;
}

/** Adds the missed ones of a system: a row for each window of time and span of age, and their exposure. */
export function addMissedRows(
  { system, sets: setIndices, share, totals }: CountedSystem,
  into: {
    readonly sets: TopicSetBuilder;
    readonly rows: RowBuilder;
    readonly exposure: Float64Array;
    readonly clock: EvidenceClock;
    readonly parameters: TraceParameters;
    readonly systemIndex: (system: string | undefined) => number;
  },
): void {
  const { sets, rows, exposure, clock, parameters, systemIndex } = into;
  const weights = new Map<number, number>();
  setIndices.forEach((set, k) => {
    for (let e = sets.start[set]!; e < sets.start[set + 1]!; e++) {
      const concept = sets.concept[e]!;
      weights.set(concept, (weights.get(concept) ?? 0) + share[k]! * sets.weight[e]!);
    }
  });
  const byTime = new Map<number, { window: number; ageSpan: number; inTime: TraceTotals[] }>();
  for (const each of totals) {
    if (each.missed === 0) continue;
    const window = clock.windowOf(each.at);
    const ageSpan = clock.ageSpanOf(each.at);
    const key = window * ageSpans + ageSpan;
    const known = byTime.get(key);
    if (known) known.inTime.push(each);
    else byTime.set(key, { window, ageSpan, inTime: [each] });
  }
  for (const { window, ageSpan, inTime } of byTime.values()) {
    let missed = 0;
    let weighted = 0;
    for (const each of inTime) {
      missed += each.missed;
      weighted += each.missed * clock.weightAt(each.at);
    }
    for (const [concept, weight] of weights) {
      const lost = lostTo(
        clock.lastRead[concept]!,
        inTime,
        clock,
        parameters,
        (each) => each.missed,
      );
      exposure[concept]! += weight * (weighted - lost);
      rows.source(concept, weight, false, (weighted - lost) / missed);
    }
    setIndices.forEach((set, k) => {
      sets.mix[set]! += share[k]! * missed;
      if (window === windowNow) sets.now[set]! += share[k]! * missed;
      else if (window === windowBefore) sets.before[set]! += share[k]! * missed;
    });
    rows.close({
      terms: noLabel,
      slipRatio: 1,
      slipTime: weighted / missed,
      multiplicity: missed,
      system: systemIndex(system),
      window,
      ageSpan,
      item: -1,
    });
  }
}

/**
 * The arrays with the right items known by count spread by given shares (per system, over its
 * sets): exposure, mix and windows. Starts from arrays without them, or that were placed before.
 */
export function placeCounted(compiled: CompiledLog, shares: readonly Float64Array[]): CompiledLog {
  const base = compiled.placedOn ?? compiled;
  if (base.counted.length === 0) return base;
  const { topicSets } = base;
  const mix = topicSets.mix.slice();
  const now = topicSets.now.slice();
  const before = topicSets.before.slice();
  base.counted.forEach((system, s) => {
    system.sets.forEach((set, k) => {
      const share = shares[s]![k]!;
      mix[set]! += share * system.right;
      now[set]! += share * system.rightNow;
      before[set]! += share * system.rightBefore;
    });
  });
  const exposure = base.exposure.slice();
  addCountedExposure(base, shares, exposure);
  return { ...base, topicSets: { ...topicSets, mix, now, before }, exposure, placedOn: base };
}

/** Adds the weighted exposure of the right items known by count. */
export function addCountedExposure(
  base: CompiledLog,
  shares: readonly Float64Array[],
  exposure: Float64Array,
): void {
  const { topicSets } = base;
  base.counted.forEach(({ sets, rightWeighted, rightLost }, s) => {
    const share = shares[s]!;
    for (let k = 0; k < sets.length; k++) {
      const set = sets[k]!;
      const each = share[k]!;
      for (let e = topicSets.start[set]!; e < topicSets.start[set + 1]!; e++) {
        const concept = topicSets.concept[e]!;
        const weighted = rightLost ? rightWeighted - rightLost[concept]! : rightWeighted;
        exposure[concept]! += each * topicSets.weight[e]! * weighted;
      }
    }
  });
}
