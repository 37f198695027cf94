/**
 * Draws from the distributions that the sampler needs.
 *
 * Normal: the polar method of G. Marsaglia & T. A. Bray (1964), SIAM Review 6:260-264.
 * Gamma: G. Marsaglia & W. W. Tsang (2000), "A simple method for generating gamma variables",
 * ACM Transactions on Mathematical Software 26:363-372.
 */
import type { Random } from './random';

/** A standard normal draw. */
export function drawNormal(random: Random): number {
  for (;;) {
    const a = 2 * random.uniform() - 1;
    const b = 2 * random.uniform() - 1;
    const square = a * a + b * b;
    // The second value of each pair is dropped: keeping it would be state outside the generator.
    if (square < 1 && square > 0) return a * Math.sqrt((-2 * Math.log(square)) / square);
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
    const u = random.uniform();
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
  let u = (random.word() + 0.5) * 2 ** -32;
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
