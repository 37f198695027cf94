/** The misses behind each root, largest share first. */
import type { CompiledLog } from './compiled';
import type { EvidenceShare, TraceLog } from './types';

export interface EvidenceLists {
  readonly ofConcept: readonly (readonly EvidenceShare[])[];
  readonly ofSlip: readonly EvidenceShare[];
}

/**
 * Evidence lists from the shares of each entry and slip. Misses known only by count have no
 * item to show and are left out.
 *
 * Sorting tens of thousands of objects by a comparator would take longer than the passes do:
 * shares are packed with their place into one number each, sorted as plain numbers, and near
 * ties put right afterwards.
 */
export function evidenceOf(
  log: TraceLog,
  compiled: CompiledLog,
  share: Float64Array,
  slipShare: Float64Array,
): EvidenceLists {
  const { rows, graph } = compiled;
  const conceptCount = graph.ids.length;
  const start = new Int32Array(conceptCount + 1);
  for (let r = 0; r < rows.count; r++) {
    if (rows.item[r]! < 0) continue;
    for (let e = rows.start[r]!; e < rows.start[r + 1]!; e++) start[rows.concept[e]! + 1]! += 1;
  }
  for (let c = 0; c < conceptCount; c++) start[c + 1]! += start[c]!;
  const filled = start.slice(0, conceptCount);
  const keys = new Float64Array(start[conceptCount]!);
  const rowOf = new Int32Array(rows.concept.length);
  for (let r = 0; r < rows.count; r++) {
    if (rows.item[r]! < 0) continue;
    for (let e = rows.start[r]!; e < rows.start[r + 1]!; e++) {
      rowOf[e] = r;
      const c = rows.concept[e]!;
      keys[filled[c]!] = sortKey(share[e]!, e);
      filled[c]! += 1;
    }
  }

  const ofConcept: (readonly EvidenceShare[])[] = [];
  for (let c = 0; c < conceptCount; c++) {
    const segment = keys.subarray(start[c], start[c + 1]);
    if (segment.length > 1) segment.sort();
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
    ofConcept.push(settleTies(list));
  }

  const ofSlip: EvidenceShare[] = [];
  for (let r = 0; r < rows.count; r++) {
    if (rows.item[r]! < 0) continue;
    ofSlip.push({
      itemId: log.items[rows.item[r]!]!.id,
      share: slipShare[r]!,
      weight: rows.slipTime[r]!,
    });
  }
  ofSlip.sort(compareShares);
  return { ofConcept, ofSlip };
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
