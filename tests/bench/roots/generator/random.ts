/**
 * Seeded random draws for the simulated candidates.
 *
 * Deliberately not the engine's generator: the benchmark shares no code with what it measures.
 * Source: the mixing of `mulberry32` (T. Ettinger, public domain), seeded through FNV-1a.
 */

/** A source of numbers evenly spread over [0, 1). */
export type Uniform = () => number;

/**
 * A repeatable stream of numbers in [0, 1), one for each seed and purpose.
 *
 * Separate purposes keep variants comparable: the same seed gives the same map and gaps whether
 * or not labels are drawn lazily.
 *
 * @example
 * uniformStream(1, 'gaps')(); // the same number on every machine
 */
export function uniformStream(seed: number, purpose: string): Uniform {
  let state = 0x811c9dc5;
  for (const letter of `${seed}/${purpose}`) {
    state = Math.imul(state ^ letter.codePointAt(0)!, 0x01000193);
  }
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** A whole number from 0 to below `count`, each alike. */
export function drawBelow(uniform: Uniform, count: number): number {
  return Math.floor(uniform() * count);
}

/** A number evenly spread between two bounds. */
export function drawBetween(uniform: Uniform, low: number, high: number): number {
  return low + (high - low) * uniform();
}

/** The whole numbers from 0 to below `count` in random order (Fisher-Yates). */
export function shuffledIndices(uniform: Uniform, count: number): number[] {
  const order = Array.from({ length: count }, (_, index) => index);
  for (let last = count - 1; last > 0; last--) {
    const other = drawBelow(uniform, last + 1);
    [order[last], order[other]] = [order[other]!, order[last]!];
  }
  return order;
}

/**
 * Draws from weights by bisection of their running sum; O(log n) a draw.
 *
 * @param weights shape (n,): at least 0, not all 0
 */
export function weightedDraw(weights: readonly number[]): (uniform: Uniform) => number {
  const running: number[] = [];
  let total = 0;
  for (const weight of weights) running.push((total += weight));
  if (!(total > 0)) throw new RangeError(`weightedDraw: got a total of ${total}; need more than 0`);
  return (uniform) => {
    const target = uniform() * total;
    let low = 0;
    let high = running.length - 1;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (running[middle]! > target) high = middle;
      else low = middle + 1;
    }
    return low;
  };
}

/** A draw from Beta(a, b) with whole a and b of at least 1, as a ratio of sums of exponentials. */
export function drawBeta(uniform: Uniform, a: number, b: number): number {
  const gamma = (shape: number) => {
    let sum = 0;
    for (let event = 0; event < shape; event++) sum -= Math.log(1 - uniform());
    return sum;
  };
  const first = gamma(a);
  return first / (first + gamma(b));
}
