/** Times pieces of work against each other, in turns, and sums up what was seen. */

/** Work to be timed. What it returns is kept, so that no compiler may leave the work out. */
export interface Subject {
  readonly label: string;
  readonly run: () => unknown;
}

export interface Timings {
  readonly label: string;
  /** ms of each timed run, in the order they were made */
  readonly ms: readonly number[];
}

export interface Summary {
  readonly min: number;
  readonly median: number;
  readonly mean: number;
  /** sample standard deviation, with n - 1; 0 for one value */
  readonly deviation: number;
}

export interface MeasureOptions {
  /** timed runs of each subject, at least 1 */
  readonly repeats: number;
  /** untimed runs of each subject first, so that compiling and caching are over */
  readonly warmups: number;
  /** ms on a clock that never goes back */
  readonly now: () => number;
}

/**
 * Times each subject `repeats` times. In every round each subject runs once, and every other round
 * runs them in the opposite order: what slows the machine for a while slows them alike, and none
 * always has the caches the other left.
 *
 * @returns timings in the order of the subjects
 * @throws {RangeError} if there is nothing to time
 */
export async function measureInTurns(
  subjects: readonly Subject[],
  options: MeasureOptions,
): Promise<Timings[]> {
  if (subjects.length === 0 || options.repeats < 1) {
    throw new RangeError(
      `measureInTurns: got ${subjects.length} subjects, ${options.repeats} repeats; need 1 of each`,
    );
  }
  const kept: unknown[] = [];
  for (let i = 0; i < options.warmups; i++) {
    for (const subject of subjects) kept[0] = await subject.run();
  }
  const timings = subjects.map(({ label }) => ({ label, ms: [] as number[] }));
  const forwards = timings.map((timing, i) => ({ timing, subject: subjects[i]! }));
  const backwards = forwards.toReversed();
  for (let i = 0; i < options.repeats; i++) {
    for (const { timing, subject } of i % 2 === 0 ? forwards : backwards) {
      const started = options.now();
      const result = subject.run();
      // Work that is no promise is not awaited: that would cost it a turn of the event loop.
      kept[0] = result instanceof Promise ? await result : result;
      timing.ms.push(options.now() - started);
    }
  }
  return timings;
}

/**
 * Minimum, median, mean and deviation.
 *
 * @param values shape (n,), n at least 1, any unit
 * @throws {RangeError} if there are none
 *
 * @example
 * summarise([4, 1, 7]); // { min: 1, median: 4, mean: 4, deviation: 3 }
 */
export function summarise(values: readonly number[]): Summary {
  const sorted = [...values].sort((a, b) => a - b);
  const n = sorted.length;
  if (n === 0) throw new RangeError('summarise: got no values; need at least 1');
  const mean = sorted.reduce((sum, value) => sum + value, 0) / n;
  const squares = sorted.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return {
    min: sorted[0]!,
    median: (sorted[Math.floor((n - 1) / 2)]! + sorted[Math.floor(n / 2)]!) / 2,
    mean,
    deviation: n === 1 ? 0 : Math.sqrt(squares / (n - 1)),
  };
}

/**
 * How many times longer the other took, round by round: rounds pair what ran next to each other.
 *
 * @param ours shape (n,), ms
 * @param other shape (n,), ms
 * @throws {RangeError} if the shapes differ
 *
 * @example
 * pairedRatios([1, 2], [10, 10]); // [10, 5]
 */
export function pairedRatios(ours: readonly number[], other: readonly number[]): number[] {
  if (ours.length !== other.length) {
    throw new RangeError(`pairedRatios: got ${ours.length} and ${other.length}; need as many`);
  }
  return ours.map((ms, i) => other[i]! / ms);
}
