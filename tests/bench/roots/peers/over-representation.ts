/**
 * Over-representation: is a concept under more of the misses than chance allows?
 *
 * Sources: the hypergeometric upper tail (Fisher's exact test, one-sided); Benjamini & Hochberg
 * (1995), JRSS B 57:289-300, for many tests at once.
 */
import type { ItemTable } from './item-table';

/** Table of ln(n!) up to `most`, shape (most + 1,). */
export function logFactorials(most: number): Float64Array {
  const table = new Float64Array(most + 1);
  for (let n = 2; n <= most; n++) table[n] = table[n - 1]! + Math.log(n);
  return table;
}

/**
 * Chance of at least `seen` marked among `drawn` taken without putting back from `total` of
 * which `marked` are marked.
 *
 * @param logs `logFactorials(total)` or longer
 *
 * @example
 * hypergeometricUpperTail(3, 8, 4, 4, logFactorials(8)); // 17/70, the tea tasting
 */
export function hypergeometricUpperTail(
  seen: number,
  total: number,
  marked: number,
  drawn: number,
  logs: Float64Array,
): number {
  const logChoose = (n: number, k: number) => logs[n]! - logs[k]! - logs[n - k]!;
  const most = Math.min(marked, drawn);
  const least = Math.max(0, drawn + marked - total);
  let tail = 0;
  for (let k = Math.max(seen, least); k <= most; k++) {
    tail += Math.exp(
      logChoose(marked, k) + logChoose(total - marked, drawn - k) - logChoose(total, drawn),
    );
  }
  return Math.min(1, tail);
}

/**
 * Benjamini-Hochberg adjusted p-values, in the order given: the smallest rate of false
 * discoveries at which each would be called.
 *
 * @example
 * adjustedPValues([0.04, 0.03]); // [0.04, 0.04]
 */
export function adjustedPValues(pValues: readonly number[]): number[] {
  const order = pValues.map((_, index) => index).sort((a, b) => pValues[b]! - pValues[a]!);
  const adjusted = new Array<number>(pValues.length);
  let running = 1;
  order.forEach((index, place) => {
    const rank = pValues.length - place;
    running = Math.min(running, (pValues[index]! * pValues.length) / rank);
    adjusted[index] = running;
  });
  return adjusted;
}

export interface OverRepresentation {
  readonly pValues: readonly number[];
  readonly adjusted: readonly number[];
}

/** Tests each concept: items that are about it or rest on it, against the misses among them. */
export function testOverRepresentation(table: ItemTable): OverRepresentation {
  const touched = new Int32Array(table.conceptCount);
  const touchedMissed = new Int32Array(table.conceptCount);
  let missCount = 0;
  for (const { topics, missed } of table.items) {
    if (missed) missCount++;
    const met = new Set(topics.flatMap((t) => table.closures[t]!.map(({ concept }) => concept)));
    for (const concept of met) {
      touched[concept]!++;
      if (missed) touchedMissed[concept]!++;
    }
  }
  const total = table.items.length;
  const logs = logFactorials(total);
  const pValues = Array.from(touched, (marked, concept) =>
    hypergeometricUpperTail(touchedMissed[concept]!, total, marked, missCount, logs),
  );
  return { pValues, adjusted: adjustedPValues(pValues) };
}
