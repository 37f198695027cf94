/** What a line of the recall sheet is worth: misses it may save, and time. */
import { requireNonNegative, requirePositive } from '../numeric/check';
import type { Root } from '../roots/tracing';

/** Seconds a line saves each time it is needed: common practice, no source. */
export const secondsSavedEachUse = 5;

export type WorthRoot = Pick<Root, 'conceptId' | 'traced' | 'exposurePer100'>;

export interface WorthLine {
  readonly id: string;
  readonly concepts: readonly string[];
  /** How often the candidate noted that it was needed. */
  readonly timesNeeded: number;
  /** A line that is banned takes no share of its concepts. */
  readonly banned?: boolean;
}

export interface PaperFacts {
  /** Items in the paper. */
  readonly paperItems: number;
  /** Items in the log, against which times needed are counted. */
  readonly itemsLogged: number;
  /** Seconds the paper gives an item. */
  readonly paceSeconds: number;
}

export interface LineWorth {
  readonly id: string;
  /** Traced misses of its concepts, each shared between the lines that hold it. */
  readonly traced: number;
  /** Times it is expected to be needed in the paper. */
  readonly usesExpected: number;
  /** Chance that the paper needs it at least once. */
  readonly neededChance: number;
  /** In items: traced misses times the chance it is needed, and the time it saves as items' worth. */
  readonly worth: number;
}

/**
 * The worth of every line, in the order given.
 *
 * Worth = traced misses of its concepts x chance it is needed + seconds saved / seconds an item.
 * The chance is 1 - exp(-uses); uses are the paper's items at the rate items touch its concepts,
 * or at the rate the candidate noted needing it, whichever is more: two measures of one thing.
 * A concept held by k lines gives each a k-th, so that no miss is saved twice.
 *
 * @throws {RangeError} for a pace or a paper of 0, or a negative count
 */
export function worthOfLines(
  lines: readonly WorthLine[],
  roots: readonly WorthRoot[],
  facts: PaperFacts,
): LineWorth[] {
  requirePositive('worthOfLines', 'paperItems', facts.paperItems);
  requirePositive('worthOfLines', 'paceSeconds', facts.paceSeconds);
  requireNonNegative('worthOfLines', 'itemsLogged', facts.itemsLogged);
  const rootOf = new Map(roots.map((root) => [root.conceptId, root]));
  const holders = new Map<string, number>();
  for (const line of lines) {
    if (line.banned) continue;
    for (const concept of new Set(line.concepts))
      holders.set(concept, (holders.get(concept) ?? 0) + 1);
  }
  return lines.map((line) => {
    requireNonNegative('worthOfLines', `timesNeeded of "${line.id}"`, line.timesNeeded);
    let traced = 0;
    let askedPer100 = 0;
    for (const concept of new Set(line.concepts)) {
      const root = rootOf.get(concept);
      if (!root) continue;
      // A banned line is shown what it would be worth if it were let in.
      const lineCount = (holders.get(concept) ?? 0) + (line.banned ? 1 : 0);
      traced += root.traced / lineCount;
      askedPer100 = Math.max(askedPer100, root.exposurePer100);
    }
    const noted = facts.itemsLogged > 0 ? line.timesNeeded / facts.itemsLogged : 0;
    const usesExpected = facts.paperItems * Math.min(1, Math.max(askedPer100 / 100, noted));
    const neededChance = -Math.expm1(-usesExpected);
    const itemsOfTime = (usesExpected * secondsSavedEachUse) / facts.paceSeconds;
    return {
      id: line.id,
      traced,
      usesExpected,
      neededChance,
      worth: traced * neededChance + itemsOfTime,
    };
  });
}

/** A concept that has traced misses and no line. */
export interface LineProposal {
  readonly conceptId: string;
  readonly traced: number;
}

/** Fewer traced misses than this are no reason for a line. */
const leastTraced = 1;

/**
 * Concepts with at least one traced miss that no line holds and nobody put away, most first.
 *
 * @param putAway concepts whose proposal was dismissed
 */
export function proposeLines(
  lines: readonly { readonly concepts: readonly string[] }[],
  roots: readonly WorthRoot[],
  putAway: ReadonlySet<string>,
): LineProposal[] {
  const held = new Set(lines.flatMap(({ concepts }) => concepts));
  return roots
    .filter(
      ({ conceptId, traced }) =>
        traced >= leastTraced && !held.has(conceptId) && !putAway.has(conceptId),
    )
    .map(({ conceptId, traced }) => ({ conceptId, traced }))
    .sort((a, b) => b.traced - a.traced || (a.conceptId < b.conceptId ? -1 : 1));
}
