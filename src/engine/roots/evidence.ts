/** The misses behind each root, largest share first. */
import type { CompiledLog } from './compiled';
import type { EvidenceShare, TraceLog } from './tracing';

export interface EvidenceLists {
  /** The list of a concept, made when it is first asked for. */
  ofConcept(concept: number): readonly EvidenceShare[];
  ofSlip(): readonly EvidenceShare[];
  /** Shape (concepts,): how long each concept's list is. */
  readonly counts: Int32Array;
  /** What the itemised misses weigh today: all shares times weights. */
  readonly weighed: number;
}

/**
 * Evidence lists from the shares of each entry and slip. Misses known only by count have no
 * item to show and are left out.
 *
 * A year's log has tens of thousands of shares, of which a screen shows some dozens: lists are
 * made when they are asked for. Sorting goes by plain numbers, each share packed with its place,
 * and near ties are put right afterwards.
 */
export function evidenceOf(
  log: TraceLog,
  compiled: CompiledLog,
  share: Float64Array,
  slipShare: Float64Array,
): EvidenceLists {
  const { rows, graph } = compiled;
  const conceptCount = graph.ids.length;
  let start: Int32Array | undefined;
  let keys = new Float64Array(0);
  let rowOf = new Int32Array(0);

  function collect(): Int32Array {
    const counts = new Int32Array(conceptCount + 1);
    rowOf = new Int32Array(rows.concept.length);
    for (let r = 0; r < rows.count; r++) {
      if (rows.item[r]! < 0) continue;
      for (let e = rows.start[r]!; e < rows.start[r + 1]!; e++) counts[rows.concept[e]! + 1]! += 1;
    }
    for (let c = 0; c < conceptCount; c++) counts[c + 1]! += counts[c]!;
    const filled = counts.slice(0, conceptCount);
    keys = new Float64Array(counts[conceptCount]!);
    for (let r = 0; r < rows.count; r++) {
      if (rows.item[r]! < 0) continue;
      for (let e = rows.start[r]!; e < rows.start[r + 1]!; e++) {
        rowOf[e] = r;
        const c = rows.concept[e]!;
        keys[filled[c]!] = sortKey(share[e]!, e);
        filled[c]! += 1;
      }
    }
    return counts;
  }

  const lengths = new Int32Array(conceptCount);
  let weighed = 0;
  for (let r = 0; r < rows.count; r++) {
    if (rows.item[r]! < 0) continue;
    weighed += slipShare[r]! * rows.slipTime[r]!;
    for (let e = rows.start[r]!; e < rows.start[r + 1]!; e++) {
      weighed += share[e]! * rows.time[e]!;
      if (share[e]! > 0) lengths[rows.concept[e]!]! += 1;
    }
  }

  return {
    counts: lengths,
    weighed,
    ofConcept(c) {
      start ??= collect();
      const segment = keys.slice(start[c], start[c + 1]).sort();
      const list: EvidenceShare[] = [];
      for (const key of segment) {
        const e = key % placeRange;
        if (share[e]! <= 0) continue;
        list.push({
          itemId: log.items[rows.item[rowOf[e]!]!]!.id,
          share: share[e]!,
          weight: rows.time[e]!,
        });
      }
      return settleTies(list);
    },
    ofSlip() {
      const list: EvidenceShare[] = [];
      for (let r = 0; r < rows.count; r++) {
        if (rows.item[r]! < 0) continue;
        list.push({
          itemId: log.items[rows.item[r]!]!.id,
          share: slipShare[r]!,
          weight: rows.slipTime[r]!,
        });
      }
      return list.sort(compareShares);
    },
  };
}

/**
 * Adds to an object a list that is made when it is first read. The property is the object's
 * own and enumerable, so that cloning, comparing and printing see a plain list.
 */
export function withList<T extends object, K extends string>(
  target: T,
  key: K,
  make: () => readonly EvidenceShare[],
): T & Readonly<Record<K, readonly EvidenceShare[]>> {
  let list: readonly EvidenceShare[] | undefined;
  Object.defineProperty(target, key, {
    enumerable: true,
    get: () => (list ??= make()),
  });
  return target as T & Readonly<Record<K, readonly EvidenceShare[]>>;
}

/** 2^32 places and 2^20 steps of share fill the 52 bits of a double's fraction. */
const placeRange = 2 ** 32;
const shareSteps = 2 ** 20;

function sortKey(share: number, place: number): number {
  return Math.floor((1 - Math.min(1, share)) * shareSteps) * placeRange + place;
}

function compareShares(a: EvidenceShare, b: EvidenceShare): number {
  return b.share - a.share || (a.itemId < b.itemId ? -1 : a.itemId > b.itemId ? 1 : 0);
}

/** Insertion sort: linear here, as only shares within a millionth of each other are out of order. */
function settleTies(list: EvidenceShare[]): EvidenceShare[] {
  for (let i = 1; i < list.length; i++) {
    const moving = list[i]!;
    let j = i;
    while (j > 0 && compareShares(moving, list[j - 1]!) < 0) {
      list[j] = list[j - 1]!;
      j -= 1;
    }
    list[j] = moving;
  }
  return list;
}
