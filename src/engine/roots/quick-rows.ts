/**
 * One pass over the misses: each is shared among its sources by their rates with its own
 * contribution taken out, and the contributions add up to what is known of each concept's count.
 */
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
  counts: Float64Array;
  /** Shape (2 * concepts,): each rate, and by how much it falls for an event taken out. */
  readonly rates: Float64Array;
  /** Shape (concepts,): 1 where the belief was worked out anew since the last pass. */
  readonly moved: Uint8Array;
  /** A contribution that changes by less is as it was. */
  still: number;
  /** Part of the way to go from the last contributions to the new ones, in (0, 1]. */
  step: number;
}

/** What a pass leaves behind. */
export interface Sharing {
  /** Shape (entries,): expected events of each source of each row. */
  readonly contribution: Float64Array;
  /** Shape (rows,): expected slips of each row; the part of its first event. */
  readonly slipContribution: Float64Array;
  readonly slipShare: Float64Array;
  /** Shape (rows,): 1 / labelled mass. */
  readonly perLabelled: Float64Array;
  /** Shape (entries,): rate without the entry's own contribution, and for which it was worked out. */
  readonly without: Float64Array;
  readonly ownSeen: Float64Array;
  /** Shape (entries,): weight times rate without the own contribution. */
  readonly mass: Float64Array;
  /** Shape (entries,): misses the entry's row stands for. */
  readonly copies: Float64Array;
  /** Shape (entries + 1,): the entries with large contributions, `largeCount` of them. */
  readonly large: Int32Array;
  largeCount: number;
}

export function startSharing(rows: MissRows, contribution?: Float64Array): Sharing {
  const entryCount = rows.concept.length;
  const copies = new Float64Array(entryCount);
  for (let r = 0; r < rows.count; r++)
    copies.fill(rows.multiplicity[r]!, rows.start[r], rows.start[r + 1]);
  const large = new Int32Array(entryCount + 1);
  let largeCount = 0;
  if (contribution)
    for (let e = 0; e < entryCount; e++)
      if (contribution[e]! > interpolatedTo) large[largeCount++] = e;
  return {
    contribution: contribution ? contribution.slice() : new Float64Array(entryCount),
    slipContribution: new Float64Array(rows.count),
    slipShare: new Float64Array(rows.count),
    perLabelled: new Float64Array(rows.count),
    without: new Float64Array(entryCount),
    ownSeen: new Float64Array(entryCount).fill(-1),
    mass: new Float64Array(entryCount),
    copies,
    large,
    largeCount,
  };
}

/**
 * Shares all misses out once. Takes time in proportion to their sources.
 *
 * In three steps, each a short loop: rates without the own contribution; what a miss has of mass and
 * events; what each concept gets. One loop for all three took twice as long.
 *
 * @param counts shape (3 * concepts,): receives the moments that the contributions add up to
 * @returns expected slip events, weighted for time
 */
export function shareMisses(
  rows: MissRows,
  beliefs: Beliefs,
  sharing: Sharing,
  counts: Float64Array,
): number {
  findMasses(rows, beliefs, sharing);
  takeOutLargeOnes(rows, beliefs, sharing);
  const slipEvents = shareRows(rows, beliefs, sharing);
  addUp(rows, sharing, counts);
  return slipEvents;
}

/** Mass of each source: weight times rate, small contributions being taken out along the slope. */
function findMasses({ concept, weight, time }: MissRows, { rates }: Beliefs, sharing: Sharing) {
  const { contribution, mass } = sharing;
  for (let e = 0; e < concept.length; e++) {
    const k = 2 * concept[e]!;
    const taken = Math.min(contribution[e]!, interpolatedTo) * time[e]!;
    mass[e] = weight[e]! * (rates[k]! - rates[k + 1]! * taken);
  }
}

/** The same for the large contributions, where the rate without them is worked out for itself. */
function takeOutLargeOnes(rows: MissRows, beliefs: Beliefs, sharing: Sharing): void {
  const { concept, weight, time } = rows;
  const { model, moved, still, counts } = beliefs;
  const { contribution, mass, without, ownSeen, large } = sharing;
  const { largeCount } = sharing;
  for (let k = 0; k < largeCount; k++) {
    const e = large[k]!;
    const c = concept[e]!;
    const own = contribution[e]!;
    if (moved[c] === 1 || Math.abs(own - ownSeen[e]!) > still) {
      ownSeen[e] = own;
      model.evaluateWithout(c, counts, contribution, time, e);
      without[e] = model.rate;
    }
    const part = (own - interpolatedTo) / (workedOutFrom - interpolatedTo);
    const alone = weight[e]! * without[e]!;
    mass[e] = part < 1 ? mass[e]! + part * (alone - mass[e]!) : alone;
  }
}

/** Sums of each miss, and its slips. Returns expected slip events, weighted for time. */
function shareRows(rows: MissRows, beliefs: Beliefs, sharing: Sharing): number {
  const { start, label, slipLabel, slipTime, multiplicity } = rows;
  const { mass, contribution, slipContribution, slipShare, perLabelled } = sharing;
  const { slipRate, step } = beliefs;
  const perEvent = 1 / beliefs.slipDivisor;
  let slipEvents = 0;
  for (let r = 0; r < rows.count; r++) {
    const first = start[r]!;
    const end = start[r + 1]!;
    const slip = slipRate - slipTime[r]! * slipContribution[r]! * perEvent;
    const slipMass = slip * slipLabel[r]!;
    let total = slip;
    let labelled = slipMass;
    for (let e = first; e < end; e++) {
      total += mass[e]!;
      labelled += mass[e]! * label[e]!;
    }
    const extra = furtherEvents(total);
    const each = 1 / labelled;
    for (let e = first; e < end; e++) {
      const count = mass[e]! * (label[e]! * each + extra);
      contribution[e]! += step * (count - contribution[e]!);
    }
    perLabelled[r] = each;
    slipShare[r] = slipMass * each;
    slipContribution[r] = slipMass * each + slip * extra;
    slipEvents += slipContribution[r]! * slipTime[r]! * multiplicity[r]!;
  }
  return slipEvents;
}

/** Adds the contributions up to moments of each concept's count, and notes the large ones. */
function addUp({ concept, time }: MissRows, sharing: Sharing, counts: Float64Array): void {
  const { contribution, copies, large } = sharing;
  counts.fill(0);
  let largeCount = 0;
  for (let e = 0; e < concept.length; e++) {
    const count = contribution[e]!;
    const took = time[e]!;
    const coin = Math.min(count, 1);
    const spread = coin * (1 - coin) * took * took * copies[e]!;
    const k = 3 * concept[e]!;
    counts[k]! += count * took * copies[e]!;
    counts[k + 1]! += spread;
    counts[k + 2]! += spread * (1 - 2 * coin) * took;
    large[largeCount] = e;
    largeCount += count > interpolatedTo ? 1 : 0;
  }
  sharing.largeCount = largeCount;
}

/** Share of each source in its row, that is its chance of being the first event's. */
export function sharesOf(rows: MissRows, { mass, perLabelled }: Sharing): Float64Array {
  const share = new Float64Array(mass.length);
  for (let r = 0; r < rows.count; r++)
    for (let e = rows.start[r]!; e < rows.start[r + 1]!; e++)
      share[e] = mass[e]! * rows.label[e]! * perLabelled[r]!;
  return share;
}

/**
 * Events of a miss beyond the first, for each unit of its total rate: (T / (1 - exp(-T)) - 1) / T.
 * By its series (Bernoulli numbers, A&S 23.1.1) below 1, where that is within 1e-6 and quicker.
 */
function furtherEvents(total: number): number {
  if (total < 1) {
    const square = total * total;
    return 0.5 + total * (1 / 12 - square * (1 / 720 - square / 30240));
  }
  return (total / -Math.expm1(-total) - 1) / total;
}
