/**
 * The regularised incomplete beta function and its inverse.
 *
 * Continued fraction A&S 26.5.8 by the modified Lentz scheme, on the side of
 * the mean where it converges quickly (A&S 26.5.2 for the other side).
 */
import { logGamma } from './special';

const smallest = 1e-300;

/**
 * Chance that a Beta(a, b) variable is at most x; NaN unless a and b are above 0 and x in [0, 1].
 *
 * @example
 * incompleteBeta(0.5, 2, 3); // 0.6875
 */
export function incompleteBeta(x: number, a: number, b: number): number {
  if (!(a > 0 && b > 0 && x >= 0 && x <= 1)) return NaN;
  if (x === 0 || x === 1) return x;
  const front = Math.exp(
    logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x),
  );
  if (x < (a + 1) / (a + b + 2)) return (front * fraction(x, a, b)) / a;
  return 1 - (front * fraction(1 - x, b, a)) / b;
}

function fraction(x: number, a: number, b: number): number {
  let c = 1;
  let d = 1 - ((a + b) * x) / (a + 1);
  if (Math.abs(d) < smallest) d = smallest;
  d = 1 / d;
  let value = d;
  for (let m = 1; m < 100_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    let change = 1;
    for (const term of [even, odd]) {
      d = 1 + term * d;
      if (Math.abs(d) < smallest) d = smallest;
      c = 1 + term / c;
      if (Math.abs(c) < smallest) c = smallest;
      d = 1 / d;
      change = c * d;
      value *= change;
    }
    if (Math.abs(change - 1) < 3e-16) break;
  }
  return value;
}

/**
 * The x with `incompleteBeta(x, a, b)` = p, by bisection to the last digits.
 *
 * @example
 * betaQuantile(0.025, 2, 3); // 0.0675859864885...
 */
export function betaQuantile(p: number, a: number, b: number): number {
  if (!(p >= 0 && p <= 1) || !(a > 0 && b > 0)) return NaN;
  if (p === 0 || p === 1) return p;
  let low = 0;
  let high = 1;
  // 1,100 halvings reach the smallest double; most stop near 60, when nothing lies between.
  for (let i = 0; i < 1_100; i++) {
    const x = (low + high) / 2;
    if (x <= low || x >= high) break;
    if (incompleteBeta(x, a, b) < p) low = x;
    else high = x;
  }
  return (low + high) / 2;
}
