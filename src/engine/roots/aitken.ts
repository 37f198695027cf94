/**
 * Takes the passes to their end in fewer steps: from two passes in a row each number goes on to where
 * its changes, shrinking as they did from the first to the second, would end (A. C. Aitken 1926, "On
 * Bernoulli's numerical solution of algebraic equations", Proc. Royal Society of Edinburgh 46:289-305).
 *
 *     x0 -> x1 -> x2      ratio = (x2 - x1) / (x1 - x0),    end = x2 + (x2 - x1) ratio / (1 - ratio)
 *
 * Each concept goes its own way, as the last slow ones seldom hang together.
 */

/** Farthest a number goes on, in changes of the second pass. Further has been seen to swing. */
const farthest = 8;
/** How far where the second change is no smaller than the first, and no end is in sight. */
const unended = 4;

/** A point of the iteration. */
export interface PathPoint {
  /** Shape (3 * concepts,): mean, variance and third central moment of each count. */
  readonly counts: Float64Array;
  logSlip: number;
  logOdds: number;
}

export function startPoint(counts: Float64Array): PathPoint {
  return { counts, logSlip: 0, logOdds: 0 };
}

/** @param gapShare in (0, 1) */
export function setPoint(
  point: PathPoint,
  counts: Float64Array,
  slipRate: number,
  gapShare: number,
): void {
  if (point.counts !== counts) point.counts.set(counts);
  point.logSlip = Math.log(slipRate);
  point.logOdds = Math.log(gapShare / (1 - gapShare));
}

/**
 * Takes `to`, two passes on from `origin` by way of `middle`, further along the same way.
 *
 * @returns how the two changes lie to each other, from -1 (to and fro) to 1 (straight on)
 */
export function stepBeyond(origin: PathPoint, middle: PathPoint, to: PathPoint): number {
  const x0 = origin.counts;
  const x1 = middle.counts;
  const x2 = to.counts;
  let together = 0;
  let ofFirst = 0;
  let ofSecond = 0;
  for (let k = 0; k < x2.length; k += 3) {
    const first = x1[k]! - x0[k]!;
    const second = x2[k]! - x1[k]!;
    // Small counts matter as much as large ones: changes relative to 1 + count.
    const scale = 1 / ((1 + x2[k]!) * (1 + x2[k]!));
    together += first * second * scale;
    ofFirst += first * first * scale;
    ofSecond += second * second * scale;
    if (second === 0) continue;
    const further = furtherBy(first, second);
    x2[k] = Math.max(0, x2[k]! + further * second);
    x2[k + 1] = Math.max(0, x2[k + 1]! + further * (x2[k + 1]! - x1[k + 1]!));
  }
  to.logSlip = oneBeyond(origin.logSlip, middle.logSlip, to.logSlip);
  to.logOdds = oneBeyond(origin.logOdds, middle.logOdds, to.logOdds);
  return ofFirst === 0 || ofSecond === 0 ? 0 : together / Math.sqrt(ofFirst * ofSecond);
}

/** How many times the second change there still is to go: -1/2 (back half way) to `farthest`. */
function furtherBy(first: number, second: number): number {
  if (first === 0) return 0;
  const ratio = second / first;
  if (ratio >= 1) return unended;
  return Math.min(farthest, Math.max(-0.5, ratio / (1 - ratio)));
}

/** A number that all rows hang on goes no further than a factor of e from the pass before at once. */
function oneBeyond(x0: number, x1: number, x2: number): number {
  const step = x2 + furtherBy(x1 - x0, x2 - x1) * (x2 - x1) - x1;
  return x1 + Math.max(-1, Math.min(1, step));
}
