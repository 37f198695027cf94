/**
 * Intervals of the quick pass: quantiles of gammas and of mixtures of two, by the cube-root
 * approximation of E. B. Wilson & M. M. Hilferty (1931), PNAS 17:684-688. Good to a percent or
 * two from shape 1 up, which is less than the quick pass itself is off; the sampler's
 * intervals come from its draws.
 */

import { lowerGamma } from '../numeric/incomplete-gamma';

/** The z of 0.95: half of a 90 % interval lies to either side. */
export const zOf95 = 1.644853626951;

/** A gamma given by shape and mean. */
export interface GammaShape {
  readonly shape: number;
  readonly mean: number;
}

/** Quantile at standard normal deviate z. */
export function gammaQuantileNear({ shape, mean }: GammaShape, z: number): number {
  const ninth = 1 / (9 * shape);
  const root = 1 - ninth + z * Math.sqrt(ninth);
  return root <= 0 ? 0 : mean * root * root * root;
}

function gammaCdfNear({ shape, mean }: GammaShape, x: number): number {
  const ninth = 1 / (9 * shape);
  return normalCdfNear((Math.cbrt(x / mean) - 1 + ninth) / Math.sqrt(ninth));
}

/** A&S 26.2.17: off by at most 7.5e-8, and much quicker than the exact function. */
function normalCdfNear(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const tail =
    0.3989422804014327 *
    Math.exp((-z * z) / 2) *
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return z < 0 ? tail : 1 - tail;
}

/** The 90 % interval of a gamma that is `high` with chance `chance` and `low` otherwise. */
export function mixtureInterval(
  chance: number,
  high: GammaShape,
  low: GammaShape,
): readonly [number, number] {
  // Below this the other part moves a 5 % point by less than the approximation does.
  const negligible = 0.002;
  if (chance < negligible) return gammaInterval(low);
  if (chance > 1 - negligible) return gammaInterval(high);
  return [mixtureQuantile(chance, high, low, 0.05), mixtureQuantile(chance, high, low, 0.95)];
}

/** The 90 % interval of one gamma. */
export function gammaInterval(gamma: GammaShape): readonly [number, number] {
  return [gammaQuantileNear(gamma, -zOf95), gammaQuantileNear(gamma, zOf95)];
}

function mixtureQuantile(chance: number, high: GammaShape, low: GammaShape, p: number): number {
  // The mixture's quantile lies between those of its parts.
  const z = p < 0.5 ? -zOf95 : zOf95;
  const a = gammaQuantileNear(high, z);
  const b = gammaQuantileNear(low, z);
  let below = Math.min(a, b);
  let above = Math.max(a, b);
  // 20 halvings of the span: a millionth of it.
  for (let i = 0; i < 20; i++) {
    const x = (below + above) / 2;
    const reached = chance * gammaCdfNear(high, x) + (1 - chance) * gammaCdfNear(low, x);
    if (reached < p) below = x;
    else above = x;
  }
  return (below + above) / 2;
}

/** A gamma given by shape and rate. */
interface GammaRate {
  readonly shape: number;
  readonly rate: number;
}

/** The same interval without approximation, for where time allows. */
export function exactMixtureInterval(
  chance: number,
  high: GammaRate,
  low: GammaRate,
): readonly [number, number] {
  const reached = (x: number): number =>
    chance * lowerGamma(high.shape, high.rate * x) +
    (1 - chance) * lowerGamma(low.shape, low.rate * x);
  const quantile = (p: number): number => {
    let below = 0;
    let above = 1;
    while (reached(above) < p) above *= 2;
    for (let i = 0; i < 40; i++) {
      const x = (below + above) / 2;
      if (reached(x) < p) below = x;
      else above = x;
    }
    return (below + above) / 2;
  };
  return [quantile(0.05), quantile(0.95)];
}
