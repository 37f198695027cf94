/** Why a concept stands where it stands: facts for sentences, without the sentences. */
import { buildClosures } from '../graph/closure';
import { buildConceptGraph } from '../graph/concept-graph';
import type { MissReason } from '../../model/log';
import type { Root, TraceLog, TraceResult } from './tracing';

/** A part of a miss that another source took. `conceptId` undefined: a slip. */
export interface SharedPart {
  readonly conceptId: string | undefined;
  readonly share: number;
}

/** One miss that this concept could have caused. */
export interface ExplainedMiss {
  readonly itemId: string;
  readonly at: number;
  readonly share: number;
  /** What the miss still counts after time and reading. */
  readonly weight: number;
  readonly topics: readonly string[];
  /** The candidate named this concept as the cause. */
  readonly named: boolean;
  readonly reason: MissReason | undefined;
  /** The other sources, largest first, those below a twentieth left out. */
  readonly sharedWith: readonly SharedPart[];
}

/** An item answered right although it leans on the concept. */
export interface RightItem {
  readonly itemId: string;
  readonly at: number;
  readonly topics: readonly string[];
  /** How closely it leans on the concept, in (0, 1]. */
  readonly closeness: number;
}

export interface RootExplanation {
  readonly root: Root;
  /** Misses put down mostly to this concept: no other source has a larger share. */
  readonly mostly: readonly ExplainedMiss[];
  /** Misses of which it has a part worth naming, though another source has more. */
  readonly partly: readonly ExplainedMiss[];
  /** Misses it could have caused, but that others explain: its share is below a tenth. */
  readonly explainedAway: readonly ExplainedMiss[];
  /** Items right although they lean on it, closest and latest first. */
  readonly against: readonly RightItem[];
  /** Of all itemised items that lean on it: how many right, how many missed. */
  readonly rightCount: number;
  readonly missedCount: number;
  readonly lastReadAt: number | undefined;
}

/** A source with less of a miss than this is not worth naming beside it. */
const leastNamed = 0.05;
/** A concept with less of a miss than this has been explained away. */
const leastPart = 0.1;

/**
 * The facts behind one root.
 *
 * @param result of `traceRoots` or `sampleRoots` on this very log
 * @param most longest each list may be
 * @throws {RangeError} when the concept is not among the roots
 *
 * @example
 * explainRoot(log, traceRoots(log), 'acid-base').mostly[0]; // { itemId: 'i7', share: 0.82, ... }
 */
export function explainRoot(
  log: TraceLog,
  result: TraceResult,
  conceptId: string,
  most = 50,
): RootExplanation {
  const root = result.roots.find((each) => each.conceptId === conceptId);
  if (!root)
    throw new RangeError(`explainRoot: got concept "${conceptId}"; need one of the result's roots`);
  const itemOf = new Map(log.items.map((item) => [item.id, item]));
  const wanted = new Map(root.evidence.map(({ itemId }) => [itemId, [] as SharedPart[]]));
  for (const other of result.roots) {
    if (other === root) continue;
    for (const { itemId, share } of other.evidence) {
      // Largest first, so nothing further down is worth naming.
      if (share < leastNamed) break;
      wanted.get(itemId)?.push({ conceptId: other.conceptId, share });
    }
  }
  for (const { itemId, share } of result.slipEvidence)
    if (share >= leastNamed) wanted.get(itemId)?.push({ conceptId: undefined, share });

  const misses: ExplainedMiss[] = [];
  for (const { itemId, share, weight } of root.evidence) {
    const item = itemOf.get(itemId);
    if (!item)
      throw new RangeError(
        `explainRoot: the result counts item "${itemId}"; need the log it is of`,
      );
    misses.push({
      itemId,
      at: item.at,
      share,
      weight,
      topics: item.topics,
      named: item.causes.includes(conceptId),
      reason: item.reason,
      sharedWith: wanted.get(itemId)!.sort((a, b) => b.share - a.share),
    });
  }
  const isMost = ({ share, sharedWith }: ExplainedMiss): boolean =>
    share >= (sharedWith[0]?.share ?? 0);

  const graph = buildConceptGraph('explainRoot', log.concepts);
  const closures = buildClosures(graph);
  const target = graph.indexOf.get(conceptId);
  const closenessOf = (topics: readonly string[]): number => {
    let closest = 0;
    for (const topic of topics) {
      const index = graph.indexOf.get(topic);
      if (index === undefined) continue;
      for (let k = closures.start[index]!; k < closures.start[index + 1]!; k++)
        if (closures.concept[k] === target) closest = Math.max(closest, closures.weight[k]!);
    }
    return closest;
  };
  const right: RightItem[] = [];
  for (const item of log.items) {
    if (item.missed) continue;
    const closeness = closenessOf(item.topics);
    if (closeness > 0) right.push({ itemId: item.id, at: item.at, topics: item.topics, closeness });
  }
  right.sort((a, b) => b.closeness - a.closeness || b.at - a.at || (a.itemId < b.itemId ? -1 : 1));

  let lastReadAt: number | undefined;
  for (const reading of log.readings)
    if (reading.at <= log.now && reading.concepts.includes(conceptId))
      lastReadAt = Math.max(lastReadAt ?? -Infinity, reading.at);
  return {
    root,
    mostly: misses.filter((miss) => miss.share >= leastPart && isMost(miss)).slice(0, most),
    partly: misses.filter((miss) => miss.share >= leastPart && !isMost(miss)).slice(0, most),
    explainedAway: misses.filter((miss) => miss.share < leastPart).slice(0, most),
    against: right.slice(0, most),
    rightCount: right.length,
    missedCount: misses.length,
    lastReadAt,
  };
}
