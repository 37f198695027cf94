/** Turns a log into flat arrays, checking every entry on the way. */
import { buildClosures } from '../graph/closure';
import { buildConceptGraph } from '../graph/concept-graph';
import { requireCount, requireFinite, requirePositive } from '../numeric/check';
import { evidenceClock, type EvidenceClock } from './clock';
import { addMissedRows, countSystems, placeCounted, type ItemSet } from './counted';
import { ageSpans, windowBefore, windowNow, type CompiledLog } from './compiled';
import { defaultLabelShares, labelTerms, reasonSlipRatio } from './label';
import { defaultHalfLifeDays, defaultTrendWindowDays, type TraceParameters } from './parameters';
import { rowBuilder } from './row-builder';
import { topicSetBuilder, type TopicSetBuilder } from './topic-sets';
import type { TraceLog, TraceOptions, TraceTotals } from './tracing';

const where = 'traceRoots';

/**
 * The flat arrays of a log. Time grows linearly with items, misses and the concepts each reaches.
 *
 * @throws {RangeError} naming an unknown or repeated id, a loop in the map, a negative count,
 *   or a time or count that is no number
 */
export function compileLog(
  log: TraceLog,
  options: TraceOptions,
  parameters: TraceParameters,
): CompiledLog {
  const halfLifeDays = options.halfLifeDays ?? defaultHalfLifeDays;
  const trendWindowDays = options.trendWindowDays ?? defaultTrendWindowDays;
  requireFinite(where, 'now', log.now);
  requirePositive(where, 'halfLifeDays', halfLifeDays);
  requirePositive(where, 'trendWindowDays', trendWindowDays);
  const graph = buildConceptGraph(where, log.concepts);
  const closures = buildClosures(graph);
  const sets = topicSetBuilder(closures);
  const clock = evidenceClock(log, graph.indexOf, halfLifeDays, trendWindowDays);
  const systems = new Map<string, number>();
  const systemIndex = (system: string | undefined): number => {
    if (system === undefined) return -1;
    let index = systems.get(system);
    if (index === undefined) systems.set(system, (index = systems.size));
    return index;
  };

  const conceptCount = graph.ids.length;
  const outsideWeight = parameters.outsideWeight / Math.max(1, conceptCount);
  const exposure = new Float64Array(conceptCount);
  let slipExposure = 0;
  const slipByAge = new Float64Array(ageSpans);
  let mixTotal = 0;
  const rows = rowBuilder(log.items.length >> 1);
  const setExposure: number[] = [];
  const itemSets: ItemSet[] = [];
  const needsItemSets = log.unitemised.length > 0;
  // Of one item at a time, each index once.
  const topics = indexList();
  const causes = indexList();
  const marks = new Uint8Array(conceptCount);
  const span = { concept: sets.concept, weight: sets.weight, from: 0, to: 0 };
  const times = { at: 0, time: 1, ifRead: 1 };

  const { items } = log;
  for (let i = 0; i < items.length; i++) {
    const item = items[i]!;
    if (!Number.isFinite(item.at))
      throw new RangeError(`${where}: got at = ${item.at} for item "${item.id}"; need a time`);
    readIndices(topics, item.topics, graph.indexOf, item.id, 'topic');
    const timeWeight = clock.weightAt(item.at);
    const window = clock.windowOf(item.at);
    const ageSpan = clock.ageSpanOf(item.at);
    slipExposure += timeWeight;
    slipByAge[ageSpan]! += timeWeight;
    mixTotal += 1;

    const set = topics.count === 0 ? -1 : sets.setOf(topics.indices, topics.count);
    if (set >= 0) {
      if (needsItemSets) itemSets.push({ set, system: item.system, missed: item.missed });
      setExposure[set] = (setExposure[set] ?? 0) + timeWeight;
      sets.mix[set]! += 1;
      sets.byAge[set * ageSpans + ageSpan]! += timeWeight;
      if (window === windowNow) sets.now[set]! += 1;
      else if (window === windowBefore) sets.before[set]! += 1;
      if (clock.anyRead) discountRead(exposure, sets, set, clock, item.at, timeWeight, parameters);
    }
    // Causes are checked on right items too: a wrong id is a mistake wherever it stands.
    readIndices(causes, item.causes, graph.indexOf, item.id, 'cause');
    const causeCount = causes.count;
    if (!item.missed) continue;

    const discounted = clock.anyRead ? timeWeight * parameters.readingDiscount : timeWeight;
    let nearCount = 0;
    if (set >= 0) {
      const end = sets.start[set + 1]!;
      nearCount = end - sets.start[set]!;
      span.from = sets.start[set]!;
      span.to = end;
      times.at = item.at;
      times.time = timeWeight;
      times.ifRead = discounted;
      for (let k = 0; k < causeCount; k++) marks[causes.indices[k]!] = 1;
      rows.sources(span, marks, clock.lastRead, times);
    }
    let topicCauses = 0;
    let nearCauses = 0;
    for (let k = 0; k < causeCount; k++) {
      const cause = causes.indices[k]!;
      if (holds(topics, cause)) topicCauses += 1;
      marks[cause] = 0;
      if (set >= 0 && sets.has(set, cause)) {
        nearCauses += 1;
        continue;
      }
      const time = clock.lastRead[cause]! > item.at ? discounted : timeWeight;
      rows.source(cause, outsideWeight, true, time);
      exposure[cause]! += outsideWeight * time;
    }
    rows.close({
      terms: labelTerms(
        { causeCount, topicCauses, nearCauses, topicCount: topics.count, nearCount },
        conceptCount,
      ),
      slipRatio: reasonSlipRatio(parameters, item.reason),
      slipTime: timeWeight,
      multiplicity: 1,
      system: systemIndex(item.system),
      window,
      ageSpan,
      item: i,
    });
  }

  let missCount = 0;
  for (const item of items) if (item.missed) missCount += 1;

  log.unitemised.forEach(checkTotals);
  const counted = countSystems({ log, graph, sets, clock, parameters, itemSets });
  let unitemisedMissCount = 0;
  for (const system of counted) {
    slipExposure += system.answeredWeighted;
    system.answeredByAge.forEach((answered, span) => (slipByAge[span]! += answered));
    mixTotal += system.right + system.missed;
    unitemisedMissCount += system.missed;
    addMissedRows(system, { sets, rows, exposure, clock, parameters, systemIndex });
  }

  const topicSets = sets.finish();
  for (let set = 0; set < topicSets.count; set++) {
    const total = setExposure[set] ?? 0;
    if (total === 0) continue;
    for (let k = topicSets.start[set]!; k < topicSets.start[set + 1]!; k++)
      exposure[topicSets.concept[k]!]! += total * topicSets.weight[k]!;
  }
  return placeCounted(
    {
      graph,
      closures,
      parameters,
      topicSets,
      rows: rows.finish(defaultLabelShares(parameters)),
      exposure,
      slipExposure,
      slipByAge,
      systems: [...systems.keys()],
      mixTotal,
      itemCount: items.length,
      missCount,
      unitemisedMissCount,
      lastRead: clock.lastRead,
      now: log.now,
      counted,
      placedOn: undefined,
    },
    counted.map((system) => system.share),
  );
}

/** Distinct indices, the first `count` of the array. A list of its own for each item would be costly. */
interface IndexList {
  indices: Int32Array;
  count: number;
}

function indexList(): IndexList {
  return { indices: new Int32Array(16), count: 0 };
}

function holds({ indices, count }: IndexList, index: number): boolean {
  for (let k = 0; k < count; k++) if (indices[k] === index) return true;
  return false;
}

/** Writes the indices of some ids over a list, each once, in order. */
function readIndices(
  list: IndexList,
  ids: readonly string[],
  indexOf: ReadonlyMap<string, number>,
  itemId: string,
  kind: 'topic' | 'cause',
): void {
  if (ids.length > list.indices.length) list.indices = new Int32Array(2 * ids.length);
  list.count = 0;
  for (let k = 0; k < ids.length; k++) {
    const index = indexOf.get(ids[k]!);
    if (index === undefined)
      throw new RangeError(
        `${where}: item "${itemId}" has the ${kind} "${ids[k]}"; need the id of a concept`,
      );
    if (!holds(list, index)) list.indices[list.count++] = index;
  }
}

/** Takes back from the exposure of concepts read since what the reading took from this item. */
function discountRead(
  exposure: Float64Array,
  sets: TopicSetBuilder,
  set: number,
  clock: EvidenceClock,
  at: number,
  timeWeight: number,
  parameters: TraceParameters,
): void {
  for (let k = sets.start[set]!; k < sets.start[set + 1]!; k++) {
    const concept = sets.concept[k]!;
    if (clock.lastRead[concept]! > at)
      exposure[concept]! -= sets.weight[k]! * timeWeight * (1 - parameters.readingDiscount);
  }
}

function checkTotals(totals: TraceTotals, i: number): void {
  if (!Number.isFinite(totals.at))
    throw new RangeError(`${where}: got at = ${totals.at} for unitemised[${i}]; need a time`);
  requireCount(where, `unitemised[${i}].right`, totals.right);
  requireCount(where, `unitemised[${i}].missed`, totals.missed);
}
