/**
 * Many items in a few flat arrays, for a message to a worker: a year of items sent one object each
 * would hold the page up for as long as it takes to copy some hundred thousand values.
 */
import type { TraceLog } from '../engine';
import type { MissReason } from '../model/log';

export type TraceItem = TraceLog['items'][number];

export interface PackedItems {
  readonly ids: readonly string[];
  /** ms */
  readonly at: Float64Array;
  /** 1 for a miss */
  readonly missed: Uint8Array;
  /** Every system, concept and reason that occurs; the arrays below hold places in it. */
  readonly names: readonly string[];
  /** -1 for none */
  readonly system: Int32Array;
  /** -1 for none */
  readonly reason: Int32Array;
  /** The topics of all items in turn; those of item i begin at `topicStart[i]`. */
  readonly topics: Int32Array;
  /** one longer than there are items */
  readonly topicStart: Int32Array;
  readonly causes: Int32Array;
  readonly causeStart: Int32Array;
}

export function packItems(items: readonly TraceItem[]): PackedItems {
  const places = new Map<string, number>();
  const placeOf = (name: string | undefined): number => {
    if (name === undefined) return -1;
    let place = places.get(name);
    if (place === undefined) places.set(name, (place = places.size));
    return place;
  };
  const lists = (of: (item: TraceItem) => readonly string[]) => {
    const start = new Int32Array(items.length + 1);
    items.forEach((item, i) => (start[i + 1] = start[i]! + of(item).length));
    const all = new Int32Array(start[items.length]!);
    items.forEach((item, i) => of(item).forEach((name, k) => (all[start[i]! + k] = placeOf(name))));
    return { start, all };
  };
  const topics = lists((item) => item.topics);
  const causes = lists((item) => item.causes);
  return {
    ids: items.map(({ id }) => id),
    at: Float64Array.from(items, ({ at }) => at),
    missed: Uint8Array.from(items, ({ missed }) => Number(missed)),
    system: Int32Array.from(items, ({ system }) => placeOf(system)),
    reason: Int32Array.from(items, ({ reason }) => placeOf(reason)),
    topics: topics.all,
    topicStart: topics.start,
    causes: causes.all,
    causeStart: causes.start,
    names: [...places.keys()],
  };
}

/** The items that were packed, in their order. */
export function unpackItems(packed: PackedItems): TraceItem[] {
  const { names } = packed;
  const list = (all: Int32Array, start: Int32Array, i: number): string[] =>
    Array.from(all.subarray(start[i], start[i + 1]), (place) => names[place]!);
  return packed.ids.map((id, i) => ({
    id,
    at: packed.at[i]!,
    missed: packed.missed[i] === 1,
    system: names[packed.system[i]!],
    topics: list(packed.topics, packed.topicStart, i),
    causes: list(packed.causes, packed.causeStart, i),
    // Every name in this place was a reason when it was packed.
    reason: names[packed.reason[i]!] as MissReason | undefined,
  }));
}
