/**
 * The standard normal distribution.
 *
 * Quantile: M. J. Wichura (1988), "Algorithm AS 241: The percentage points of
 * the normal distribution", Applied Statistics 37:477-484 (its 16-digit
 * version). Distribution function: by the regularised incomplete gamma,
 * A&S 26.2.29 and 6.5.16.
 */
import { lowerGamma, upperGamma } from './incomplete-gamma';

/** Chance that a standard normal variable is at most z. `normalCdf(1)` is 0.8413447460685429. */
export function normalCdf(z: number): number {
  if (Number.isNaN(z)) return NaN;
  const half = (z * z) / 2;
  if (z < 0) return 0.5 * upperGamma(0.5, half);
  return 0.5 + 0.5 * lowerGamma(0.5, half);
}

const centre = [
  3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946, 45921.95393154987,
  67265.7709270087, 33430.57558358813, 2509.0809287301227,
];
const centreBelow = [
  1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597, 39307.89580009271,
  28729.085735721943, 5226.495278852546,
];
const middle = [
  1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045, 1.2704582524523684,
  0.2417807251774506, 0.022723844989269184, 0.0007745450142783414,
];
const middleBelow = [
  1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008,
  0.015198666563616457, 0.0005475938084995345, 1.0507500716444169e-9,
];
const far = [
  6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487,
  0.026532189526576124, 0.0012426609473880784, 2.7115555687434876e-5, 2.0103343992922881e-7,
];
const farBelow = [
  1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 0.0007868691311456133,
  1.8463183175100548e-5, 1.421511758316446e-7, 2.0442631033899397e-15,
];

function polynomial(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (let i = coefficients.length - 1; i >= 0; i--) sum = sum * x + coefficients[i]!;
  return sum;
}

/**
 * The z below which a standard normal variable falls with chance p.
 *
 * @returns -Infinity at 0, Infinity at 1, NaN outside [0, 1]
 *
 * @example
 * normalQuantile(0.975); // 1.959963984540054
 */
export function normalQuantile(p: number): number {
  if (!(p >= 0 && p <= 1)) return NaN;
  if (p === 0) return -Infinity;
  if (p === 1) return Infinity;
  const fromHalf = p - 0.5;
  if (Math.abs(fromHalf) <= 0.425) {
    const r = 0.180625 - fromHalf * fromHalf;
    return (fromHalf * polynomial(centre, r)) / polynomial(centreBelow, r);
  }
  const r = Math.sqrt(-Math.log(fromHalf < 0 ? p : 1 - p));
  const z =
    r <= 5
      ? polynomial(middle, r - 1.6) / polynomial(middleBelow, r - 1.6)
      : polynomial(far, r - 5) / polynomial(farBelow, r - 5);
  return fromHalf < 0 ? -z : z;
}
