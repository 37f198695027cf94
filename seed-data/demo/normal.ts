/** The normal draws of the demo, of its own for the same reason as its random numbers. */
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
