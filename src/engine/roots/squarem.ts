/**
 * Takes the passes to their end in fewer steps: the third scheme of R. Varadhan & C. Roland (2008),
 * "Simple and globally convergent methods for accelerating the convergence of any EM algorithm",
 * Scandinavian Journal of Statistics 35:335-353.
 */

/**
 * Longest step; 1 would be none. Beyond this the passes have been seen to swing before they settle.
 */
const farthest = 8;

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

/** Takes `to`, two passes on from `origin` by way of `middle`, further along the same way. */
export function stepBeyond(origin: PathPoint, middle: PathPoint, to: PathPoint): void {
  const x0 = origin.counts;
  const x1 = middle.counts;
  const x2 = to.counts;
  let first = 0;
  let bend = 0;
  for (let k = 0; k < x2.length; k += 3) {
    const r = x1[k]! - x0[k]!;
    const v = x2[k]! - x1[k]! - r;
    first += r * r;
    bend += v * v;
  }
  if (bend === 0) return;
  const length = Math.min(farthest, Math.max(1, Math.sqrt(first / bend)));
  const beyond = (a: number, b: number, c: number): number => {
    const r = b - a;
    return a + 2 * length * r + length * length * (c - b - r);
  };
  for (let k = 0; k < x2.length; k += 3) {
    x2[k] = Math.max(0, beyond(x0[k]!, x1[k]!, x2[k]!));
    x2[k + 1] = Math.max(0, beyond(x0[k + 1]!, x1[k + 1]!, x2[k + 1]!));
  }
  // Two numbers that all rows hang on: no further than a factor of some two and a half at once.
  to.logSlip =
    middle.logSlip + clamp(beyond(origin.logSlip, middle.logSlip, to.logSlip) - middle.logSlip);
  to.logOdds =
    middle.logOdds + clamp(beyond(origin.logOdds, middle.logOdds, to.logOdds) - middle.logOdds);
}

function clamp(step: number): number {
  return Math.max(-1, Math.min(1, step));
}
