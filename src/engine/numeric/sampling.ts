/**
 * Draws from the distributions that the sampler needs.
 *
 * Normal: the ziggurat of G. Marsaglia & W. W. Tsang (2000), Journal of Statistical Software 5(8), in
 * the form of J. A. Doornik (2005), "An improved ziggurat method to generate normal random samples",
 * whose layer and place come from separate random bits.
 * Gamma: G. Marsaglia & W. W. Tsang (2000), "A simple method for generating gamma variables",
 * ACM Transactions on Mathematical Software 26:363-372.
 */
import type { Random } from './random';

/** Layers of equal area under exp(-x^2 / 2): where the lowest one's rectangle ends, and the area. */
const layers = 128;
const lowestEnd = 3.442619855899;
const layerArea = 9.91256303526217e-3;

/** Shape (layers + 1,): right end of each layer, falling; the first is widened to hold the tail's area. */
const ends = layerEnds();
/** Shape (layers,): the part of each layer that lies under the curve all through. */
const inside = ends.slice(0, layers).map((end, k) => ends[k + 1]! / end);

function layerEnds(): Float64Array {
  const found = new Float64Array(layers + 1);
  let height = Math.exp(-0.5 * lowestEnd * lowestEnd);
  found[0] = layerArea / height;
  found[1] = lowestEnd;
  for (let k = 2; k < layers; k++) {
    found[k] = Math.sqrt(-2 * Math.log(layerArea / found[k - 1]! + height));
    height = Math.exp(-0.5 * found[k]! * found[k]!);
  }
  return found;
}

/** A standard normal draw. */
export function drawNormal(random: Random): number {
  for (;;) {
    const u = 2 * random.coarse() - 1;
    // The upper bits: the lower ones are the weaker in generators of this kind.
    const k = random.word() >>> 25;
    const x = u * ends[k]!;
    if (Math.abs(u) < inside[k]!) return x;
    if (k === 0) return drawTail(random, u < 0);
    const above = Math.exp(-0.5 * (ends[k]! * ends[k]! - x * x));
    const below = Math.exp(-0.5 * (ends[k + 1]! * ends[k + 1]! - x * x));
    if (below + random.uniform() * (above - below) < 1) return x;
  }
}

/** Beyond the lowest layer: G. Marsaglia (1964), Technometrics 6:101-102. */
function drawTail(random: Random, negative: boolean): number {
  for (;;) {
    const x = -Math.log(random.uniform()) / lowestEnd;
    if (-2 * Math.log(random.uniform()) > x * x) return negative ? -lowestEnd - x : lowestEnd + x;
  }
}

/** A gamma draw of the given shape above 0 and rate 1; divide by the rate for another. */
export function drawGamma(random: Random, shape: number): number {
  // Waiting times of one and two events: the shapes of rates without any event.
  if (shape === 1) return -Math.log(random.uniform());
  if (shape === 2) return -Math.log(random.uniform() * random.uniform());
  // Below 1, draw one shape higher and shrink (their section 6).
  if (shape < 1) return drawGamma(random, shape + 1) * Math.exp(Math.log(random.uniform()) / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = drawNormal(random);
    const root = 1 + c * x;
    if (root <= 0) continue;
    const v = root * root * root;
    const u = random.coarse();
    const square = x * x;
    if (u < 1 - 0.0331 * square * square) return d * v;
    if (Math.log(u) < 0.5 * square + d * (1 - v + Math.log(v))) return d * v;
  }
}

/** A beta draw, in (0, 1), from two gammas. */
export function drawBeta(random: Random, a: number, b: number): number {
  const first = drawGamma(random, a);
  return first / (first + drawGamma(random, b));
}

/** Above this the chance of zero is below 1e-13, and summing up from one would be slow. */
const rejectionFrom = 30;

/** A Poisson draw by summing up chances, in parts of at most 30; time grows with the rate. */
export function drawPoisson(random: Random, rate: number): number {
  let count = 0;
  for (let left = rate; left > 0; left -= rejectionFrom) {
    const part = Math.min(left, rejectionFrom);
    let chance = Math.exp(-part);
    let u = random.uniform();
    let k = 0;
    // The bound only stops a tail lost to rounding; 400 is 67 standard deviations out.
    while (u > chance && k < 400) {
      u -= chance;
      k += 1;
      chance *= part / k;
    }
    count += k;
  }
  return count;
}

/**
 * A Poisson draw given that it is not zero.
 *
 * The chance of exactly one is rate / (exp(rate) - 1), at least 1 - rate / 2: most draws at the
 * small rates met here end there without the exponential.
 */
export function drawZeroTruncatedPoisson(random: Random, rate: number): number {
  if (rate > rejectionFrom) {
    let count = 0;
    while (count === 0) count = drawPoisson(random, rate);
    return count;
  }
  // 32 bits place the count of a miss finely enough.
  let u = random.coarse();
  if (u < 1 - rate / 2) return 1;
  let chance = rate / Math.expm1(rate);
  let count = 1;
  while (u > chance && count < 400) {
    u -= chance;
    count += 1;
    chance *= rate / count;
  }
  return count;
}
