/** How long one second look takes, from when they were made. */

/** Until enough were made one after another (our choice). */
export const usualSecondsALook = 45;

/** Looks further apart than this were not made in a row. */
const longestSeconds = 300;

const leastMeasured = 10;

/**
 * Median seconds from one look to the next, in rows of looks; 45 until there are ten such steps.
 *
 * @param times of the looks, in ms, in any order
 */
export function secondsALook(times: readonly number[]): number {
  const sorted = [...times].sort((a, b) => a - b);
  const steps: number[] = [];
  for (let k = 1; k < sorted.length; k++) {
    const seconds = (sorted[k]! - sorted[k - 1]!) / 1_000;
    if (seconds > 0 && seconds <= longestSeconds) steps.push(seconds);
  }
  if (steps.length < leastMeasured) return usualSecondsALook;
  steps.sort((a, b) => a - b);
  const middle = Math.floor(steps.length / 2);
  const median =
    steps.length % 2 === 1 ? steps[middle]! : (steps[middle - 1]! + steps[middle]!) / 2;
  return Math.max(5, median);
}
