/**
 * One pass over the misses: each is shared among its sources by their rates with its own
 * contribution taken out, and the contributions add up to what is known of each concept's count.
 *
 * Only misses whose sources have moved are shared anew; sums are kept by what has changed. What a
 * pass reads and writes of an entry lies side by side, and so does what it knows of a row: one pass
 * goes over it in a third of the time that as many arrays took.
 */
import { createWorkspace } from '../numeric/workspace';
import type { MissRows } from './compiled';
import type { ConceptModel } from './two-point';

/**
 * Up to this contribution the rate without it is interpolated between nothing and this much
 * taken out; above, it is worked out for itself, let in by degrees up to half as much again so
 * that no jump can keep the passes from settling. A miss has one or two such sources.
 */
export const interpolatedTo = 0.3;
const workedOutFrom = 0.45;

/** What a pass reads of the concepts. */
export interface Beliefs {
  readonly model: ConceptModel;
  slipRate: number;
  /** What divides the slip events in the slip rate. */
  readonly slipDivisor: number;
  /** Shape (3 * concepts,): mean, variance and third central moment of each count. */
  readonly counts: Float64Array;
  /** Shape (3 * concepts,): each rate, by how much it falls for an event taken out, nothing. */
  readonly rates: Float64Array;
  /** A contribution that changes by less is as it was. */
  still: number;
  /** Part of the way to go from the last contributions to the new ones, in (0, 1]. */
  step: number;
}

/** What the passes keep of the rows. */
export interface Sharing {
  /**
   * Shape (entries, 5): weight; label; time; contribution times time; mass, that is weight times rate
   * without the own contribution.
   */
  readonly entry: Float64Array;
  /** Shape (entries,): three times the concept, its place among rates, counts and sums. */
  readonly place: Int32Array;
  /** Shape (rows, 6): slip label, slip time, misses stood for, expected slips, share of a slip, 1 / labelled mass. */
  readonly row: Float64Array;
  /**
   * Shape (entries,): of large contributions the rate without them, and the contribution and the rate
   * with it that it was worked out for.
   */
  readonly without: Float64Array;
  readonly withoutOwn: Float64Array;
  readonly withoutRate: Float64Array;
  /** Shape (3 * concepts,): the moments that the contributions add up to. */
  readonly sums: Float64Array;
  /** Slips that the rows add up to, weighted for time. */
  slipEvents: number;
  /** Rows of concept c: `rowOf[start[c] .. start[c + 1])`. */
  readonly start: Int32Array;
  readonly rowOf: Int32Array;
  /** Rows to be shared anew in the next pass, `waitingCount` of them, each once: `isWaiting` marks them. */
  waiting: Int32Array;
  waitingCount: number;
  readonly isWaiting: Uint8Array;
  /** The list of the pass at work; the two change places. */
  working: Int32Array;
}

const entryWidth = 5;
const rowWidth = 6;

const workspace = createWorkspace();

/**
 * Nothing shared yet. It lies in memory that the next call uses again.
 *
 * @param contribution shape (entries,): where to start from; nothing where left out
 */
export function startSharing(
  rows: MissRows,
  conceptCount: number,
  contribution?: Float64Array,
): Sharing {
  const entryCount = rows.concept.length;
  workspace.begin();
  const start = workspace.ints(conceptCount + 1);
  for (let e = 0; e < entryCount; e++) start[rows.concept[e]! + 1]! += 1;
  for (let c = 0; c < conceptCount; c++) start[c + 1]! += start[c]!;
  const filled = workspace.ints(conceptCount);
  filled.set(start.subarray(0, conceptCount));
  const rowOf = workspace.ints(entryCount);
  const entry = workspace.floats(entryWidth * entryCount);
  const place = workspace.ints(entryCount);
  const row = workspace.floats(rowWidth * rows.count);
  for (let r = 0; r < rows.count; r++) {
    row[rowWidth * r] = rows.slipLabel[r]!;
    row[rowWidth * r + 1] = rows.slipTime[r]!;
    row[rowWidth * r + 2] = rows.multiplicity[r]!;
    for (let e = rows.start[r]!; e < rows.start[r + 1]!; e++) {
      const c = rows.concept[e]!;
      rowOf[filled[c]!] = r;
      filled[c]! += 1;
      place[e] = 3 * c;
      entry[entryWidth * e] = rows.weight[e]!;
      entry[entryWidth * e + 1] = rows.label[e]!;
      entry[entryWidth * e + 2] = rows.time[e]!;
      if (contribution) entry[entryWidth * e + 3] = contribution[e]! * rows.time[e]!;
    }
  }
  const sharing: Sharing = {
    entry,
    place,
    row,
    without: workspace.floats(entryCount),
    withoutOwn: workspace.floats(entryCount),
    withoutRate: workspace.floats(entryCount),
    sums: workspace.floats(3 * conceptCount),
    slipEvents: 0,
    start,
    rowOf,
    waiting: workspace.ints(rows.count),
    waitingCount: 0,
    isWaiting: workspace.bytes(rows.count),
    working: workspace.ints(rows.count),
  };
  if (contribution) addUp(rows, sharing);
  return sharing;
}

function addUp(rows: MissRows, { entry, place, sums }: Sharing): void {
  for (let r = 0; r < rows.count; r++) {
    const copies = rows.multiplicity[r]!;
    for (let e = rows.start[r]!; e < rows.start[r + 1]!; e++) {
      const took = entry[entryWidth * e + 2]!;
      const count = entry[entryWidth * e + 3]!;
      const coin = Math.min(took, count);
      const spread = coin * (took - coin) * copies;
      const k = place[e]!;
      sums[k]! += count * copies;
      sums[k + 1]! += spread;
      sums[k + 2]! += spread * (took - 2 * coin);
    }
  }
}

/** Has all misses that a concept could be the source of shared anew in the next pass. */
export function waitForRowsOf(sharing: Sharing, c: number): void {
  const { start, rowOf, waiting, isWaiting } = sharing;
  let count = sharing.waitingCount;
  for (let k = start[c]!; k < start[c + 1]!; k++) {
    const r = rowOf[k]!;
    if (isWaiting[r] === 1) continue;
    isWaiting[r] = 1;
    waiting[count++] = r;
  }
  sharing.waitingCount = count;
}

export function waitForAllRows(sharing: Sharing): void {
  const { waiting, isWaiting } = sharing;
  for (let r = 0; r < waiting.length; r++) waiting[r] = r;
  isWaiting.fill(1);
  sharing.waitingCount = waiting.length;
}

/**
 * Shares the waiting misses out once. Takes time in proportion to their sources. Afterwards those wait
 * whose own contributions have changed by more than `still`.
 */
export function shareMisses(rows: MissRows, beliefs: Beliefs, sharing: Sharing): void {
  const { start } = rows;
  const { entry, place, row, sums, isWaiting } = sharing;
  const { rates, slipRate, step, still } = beliefs;
  const perEvent = 1 / beliefs.slipDivisor;
  const list = sharing.waiting;
  const count = sharing.waitingCount;
  const next = sharing.working;
  let nextCount = 0;
  let slipEvents = sharing.slipEvents;
  for (let i = 0; i < count; i++) {
    const r = list[i]!;
    const first = start[r]!;
    const end = start[r + 1]!;
    const inRow = rowWidth * r;
    const slipTime = row[inRow + 1]!;
    const copies = row[inRow + 2]!;
    const slip = slipRate - slipTime * row[inRow + 3]! * perEvent;
    const slipMass = slip * row[inRow]!;
    let total = slip;
    let labelled = slipMass;
    for (let e = first; e < end; e++) {
      const at = entryWidth * e;
      const own = entry[at + 3]!;
      if (own <= interpolatedTo * entry[at + 2]!) {
        const k = place[e]!;
        entry[at + 4] = entry[at]! * (rates[k]! - rates[k + 1]! * own);
      } else findMassWithout(beliefs, sharing, e);
      const mass = entry[at + 4]!;
      total += mass;
      labelled += mass * entry[at + 1]!;
    }
    // Events beyond the first, for each unit of the total rate: (T / (1 - exp(-T)) - 1) / T, below 1 by
    // its series (Bernoulli numbers, A&S 23.1.1), which is within 1e-6 there and quicker.
    const square = total * total;
    const extra =
      total < 1
        ? 0.5 + total * (1 / 12 - square * (1 / 720 - square / 30240))
        : (total / (1 - Math.exp(-total)) - 1) / total;
    const part = 1 / labelled;
    let largest = 0;
    for (let e = first; e < end; e++) {
      const at = entryWidth * e;
      const own = entry[at + 3]!;
      const took = entry[at + 2]!;
      const events = entry[at + 4]! * (entry[at + 1]! * part + extra);
      const change = step * (events * took - own);
      const after = own + change;
      entry[at + 3] = after;
      const size = change < 0 ? -change : change;
      if (size > largest) largest = size;
      // Of a coin of chance p and size t, with x = p t: variance x (t - x), third moment x (t - x) (t - 2 x).
      const coin = own < took ? own : took;
      const coinAfter = after < took ? after : took;
      const spread = coin * (took - coin);
      const spreadAfter = coinAfter * (took - coinAfter);
      const k = place[e]!;
      sums[k]! += change * copies;
      sums[k + 1]! += (spreadAfter - spread) * copies;
      sums[k + 2]! += (spreadAfter * (took - 2 * coinAfter) - spread * (took - 2 * coin)) * copies;
    }
    const slips = slipMass * part + slip * extra;
    slipEvents += (slips - row[inRow + 3]!) * slipTime * copies;
    row[inRow + 3] = slips;
    row[inRow + 4] = slipMass * part;
    row[inRow + 5] = part;
    if (largest > still) next[nextCount++] = r;
    else isWaiting[r] = 0;
  }
  sharing.slipEvents = slipEvents;
  sharing.waiting = next;
  sharing.working = list;
  sharing.waitingCount = nextCount;
}

/** Works out the mass of a source with a large contribution. */
function findMassWithout(
  { model, rates, counts, still }: Beliefs,
  { entry, place, without, withoutOwn, withoutRate }: Sharing,
  e: number,
): void {
  const at = entryWidth * e;
  const k = place[e]!;
  const c = k / 3;
  const took = entry[at + 2]!;
  const own = entry[at + 3]! / took;
  const seenAt = withoutRate[e]!;
  // A rate that has moved little takes the one without along in proportion.
  if (
    Math.abs(rates[k]! - seenAt) > 4 * still * seenAt ||
    seenAt === 0 ||
    Math.abs(own - withoutOwn[e]!) > still / 4
  ) {
    model.asked[0] = own;
    model.asked[1] = took;
    model.evaluateWithout(c, counts);
    without[e] = model.answer[0]!;
    withoutOwn[e] = own;
    withoutRate[e] = rates[k]!;
  }
  let rate = (without[e]! * rates[k]!) / withoutRate[e]!;
  if (own < workedOutFrom) {
    const along = rates[k]! - rates[k + 1]! * interpolatedTo * took;
    const part = (own - interpolatedTo) / (workedOutFrom - interpolatedTo);
    rate = along + part * (rate - along);
  }
  entry[at + 4] = entry[at]! * rate;
}

/** What was settled on, in arrays of their own. */
export interface Shared {
  /** Shape (entries,): expected events of each source of each row; chance of being the first event's. */
  readonly contribution: Float64Array;
  readonly share: Float64Array;
  /** Shape (rows,): share of a slip. */
  readonly slipShare: Float64Array;
}

export function sharedOf(rows: MissRows, { entry, row }: Sharing): Shared {
  const contribution = new Float64Array(rows.concept.length);
  const share = new Float64Array(rows.concept.length);
  const slipShare = new Float64Array(rows.count);
  for (let r = 0; r < rows.count; r++) {
    slipShare[r] = row[rowWidth * r + 4]!;
    const part = row[rowWidth * r + 5]!;
    for (let e = rows.start[r]!; e < rows.start[r + 1]!; e++) {
      const at = entryWidth * e;
      contribution[e] = entry[at + 2]! > 0 ? entry[at + 3]! / entry[at + 2]! : 0;
      share[e] = entry[at + 4]! * entry[at + 1]! * part;
    }
  }
  return { contribution, share, slipShare };
}
