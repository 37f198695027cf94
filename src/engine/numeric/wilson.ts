/** Wilson's interval for a proportion: E. B. Wilson (1927), JASA 22:209-212. */
import { requireNonNegative, requireProbability } from './check';
import { normalQuantile } from './normal';

/**
 * Wilson's score interval without continuity correction, [low, high] in [0, 1].
 *
 * @param successes 0 to `trials`; fractions are allowed, for weighted counts
 * @param level the interval's level, 0.95 if left out
 * @returns [0, 1] where there were no trials
 * @throws {RangeError} for a negative count, NaN, or more successes than trials
 *
 * @example
 * wilsonInterval(81, 263); // [0.2552885..., 0.3662096...]
 */
export function wilsonInterval(
  successes: number,
  trials: number,
  level = 0.95,
): readonly [number, number] {
  requireNonNegative('wilsonInterval', 'trials', trials);
  requireNonNegative('wilsonInterval', 'successes', successes);
  requireProbability('wilsonInterval', 'level', level);
  if (successes > trials)
    throw new RangeError(
      `wilsonInterval: got ${successes} successes in ${trials} trials; need at most ${trials}`,
    );
  if (trials === 0) return [0, 1];
  const z = normalQuantile(0.5 + level / 2);
  const share = successes / trials;
  const centre = 2 * successes + z * z;
  const half = z * Math.sqrt(z * z + 4 * successes * (1 - share));
  const below = 2 * (trials + z * z);
  // At the ends the limit is exactly 0 or 1; rounding would leave a hair.
  const low = successes === 0 ? 0 : Math.max(0, (centre - half) / below);
  const high = successes === trials ? 1 : Math.min(1, (centre + half) / below);
  return [low, high];
}
