/**
 * Oracle: the tracing model in the plainest terms: objects and maps, every item looked at in
 * every pass, nothing shared, nothing precomputed but the weights. Shares no code with the engine.
 */
import type { TraceItem, TraceLog } from '../../../src/engine/index';

export const slip = '(slip)';

export interface NaiveSource {
  readonly weight: number;
  readonly label: number;
  readonly time: number;
}

export interface NaiveItem {
  readonly id: string;
  readonly missed: boolean;
  readonly slipLabel: number;
  readonly slipTime: number;
  readonly sources: ReadonlyMap<string, NaiveSource>;
}

const hasty = new Set(['misread', 'out-of-time', 'changed-from-right', 'overthought']);

/** Best products of strengths within three links of each topic, walking every path. */
function reach(log: TraceLog): Map<string, Map<string, number>> {
  const conceptOf = new Map(log.concepts.map((concept) => [concept.id, concept]));
  const all = new Map<string, Map<string, number>>();
  for (const { id } of log.concepts) {
    const best = new Map<string, number>();
    const walk = (at: string, product: number, left: number): void => {
      best.set(at, Math.max(best.get(at) ?? 0, product));
      if (left === 0) return;
      for (const link of conceptOf.get(at)!.restsOn)
        walk(link.id, product * (link.strength ?? 0.35), left - 1);
    };
    walk(id, 1, 3);
    all.set(id, best);
  }
  return all;
}

export function naiveItems(log: TraceLog, halfLifeDays: number): NaiveItem[] {
  const closures = reach(log);
  return log.items.map((item: TraceItem) => {
    const weights = new Map<string, number>();
    for (const topic of item.topics)
      for (const [concept, value] of closures.get(topic)!)
        weights.set(concept, Math.max(weights.get(concept) ?? 0, value));
    const size = log.concepts.length;
    const topics = new Set(item.topics);
    const near = new Set(weights.keys());
    const causes = new Set(item.missed ? item.causes : []);
    for (const cause of causes)
      if (!weights.has(cause)) weights.set(cause, 0.15 / log.concepts.length);
    const labelOf = (source: string): number => {
      if (causes.size === 0) return 1;
      let sum = 0;
      for (const cause of causes) {
        const byTopic = topics.size === 0 ? 1 / size : topics.has(cause) ? 1 / topics.size : 0;
        const byNear = near.size === 0 ? 1 / size : near.has(cause) ? 1 / near.size : 0;
        const otherwise = 0.35 * byTopic + 0.05 * byNear + 0.2 / size;
        sum += source === slip ? otherwise / 0.6 : otherwise + (cause === source ? 0.4 : 0);
      }
      return sum / causes.size;
    };
    const age = Math.max(0, log.now - item.at) / 86_400_000;
    const decay = 2 ** (-age / halfLifeDays);
    const sources = new Map<string, NaiveSource>();
    for (const [concept, weight] of weights) {
      const read = log.readings.some(
        (reading) =>
          reading.at <= log.now && reading.at > item.at && reading.concepts.includes(concept),
      );
      sources.set(concept, { weight, label: labelOf(concept), time: decay * (read ? 0.5 : 1) });
    }
    const ratio =
      item.reason && hasty.has(item.reason) ? 4 : item.reason === 'not-known' ? 0.25 : 1;
    return {
      id: item.id,
      missed: item.missed,
      slipLabel: labelOf(slip) * ratio,
      slipTime: decay,
      sources,
    };
  });
}

/** Exposure of every concept and, under `slip`, of slips. */
export function naiveExposure(items: readonly NaiveItem[]): Map<string, number> {
  const exposure = new Map<string, number>();
  for (const item of items) {
    exposure.set(slip, (exposure.get(slip) ?? 0) + item.slipTime);
    for (const [concept, source] of item.sources)
      exposure.set(concept, (exposure.get(concept) ?? 0) + source.weight * source.time);
  }
  return exposure;
}

/** Chance of a gap at `events` in `exposure`. */
export function naiveGapChance(gapShare: number, events: number, exposure: number): number {
  const logOdds =
    Math.log(gapShare / (1 - gapShare)) +
    Math.log(4 / 25) +
    Math.log(1 + events) -
    (2 + events) * Math.log(2 + exposure) +
    (1 + events) * Math.log(25 + exposure);
  return 1 / (1 + Math.exp(-logOdds));
}
