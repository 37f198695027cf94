/**
 * The regularised incomplete gamma functions.
 *
 * Series A&S 6.5.29 where x is below shape + 1, the continued fraction A&S
 * 6.5.31 by the modified Lentz scheme (W. J. Lentz 1976; I. J. Thompson & A. R.
 * Barnett 1986) above it.
 */
import { logGamma } from './special';

const smallest = 1e-300;
const precision = 1e-16;

/** Chance that a gamma variable of this shape and rate 1 is at most x; NaN for a shape not above 0. */
export function lowerGamma(shape: number, x: number): number {
  if (!(shape > 0) || Number.isNaN(x)) return NaN;
  if (x <= 0) return 0;
  if (x === Infinity) return 1;
  return x < shape + 1 ? series(shape, x) : 1 - fraction(shape, x);
}

/** Chance that a gamma variable of this shape and rate 1 is above x; keeps its digits in the far tail. */
export function upperGamma(shape: number, x: number): number {
  if (!(shape > 0) || Number.isNaN(x)) return NaN;
  if (x <= 0) return 1;
  if (x === Infinity) return 0;
  return x < shape + 1 ? 1 - series(shape, x) : fraction(shape, x);
}

function series(shape: number, x: number): number {
  let term = 1 / shape;
  let sum = term;
  // Terms fall at least as fast as (x / (shape + n))^n; the count grows like sqrt(shape).
  for (let n = 1; n < 100_000 && term > sum * precision; n++) {
    term *= x / (shape + n);
    sum += term;
  }
  return sum * Math.exp(shape * Math.log(x) - x - logGamma(shape));
}

function fraction(shape: number, x: number): number {
  let b = x + 1 - shape;
  let c = 1 / smallest;
  let d = 1 / (Math.abs(b) < smallest ? smallest : b);
  let value = d;
  for (let n = 1; n < 100_000; n++) {
    const a = -n * (n - shape);
    b += 2;
    d = a * d + b;
    if (Math.abs(d) < smallest) d = smallest;
    c = b + a / c;
    if (Math.abs(c) < smallest) c = smallest;
    d = 1 / d;
    const change = c * d;
    value *= change;
    if (Math.abs(change - 1) < precision * 4) break;
  }
  return value * Math.exp(shape * Math.log(x) - x - logGamma(shape));
}
