/**
 * What a set of readings would mend, as flat arrays.
 *
 * Reading r covers concept c to a degree rho from 0 to 1. A set S is worth
 *
 *     sum over c of worth_c * (1 - product over r in S of (1 - rho_rc))
 *
 * which never falls when a reading is added, and adds less the more is read already (monotone,
 * submodular). `left[c]` is what of a concept's worth the readings taken so far leave.
 */

export interface CoverageReading {
  readonly id: string;
  /** Above 0. */
  readonly minutes: number;
  /** How far it covers each concept, 0 to 1; a concept at most once. */
  readonly covers: readonly { readonly concept: string; readonly degree: number }[];
}

export interface Coverage {
  readonly minutes: Float64Array;
  /** Reading r covers `concept[start[r] .. start[r + 1])`, each to `degree`. */
  readonly start: Int32Array;
  readonly concept: Int32Array;
  readonly degree: Float64Array;
  /** Worth of each concept that a reading covers and that has any. */
  readonly worth: Float64Array;
  readonly conceptIds: readonly string[];
}

/**
 * The arrays of some readings, checked.
 *
 * @param worth misses that could be avoided by mending each concept; a concept without an entry has none
 * @throws {RangeError} naming the reading whose minutes or degrees are out of range, or that comes twice
 */
export function compileCoverage(
  readings: readonly CoverageReading[],
  worth: ReadonlyMap<string, number>,
): Coverage {
  const start = new Int32Array(readings.length + 1);
  const minutes = new Float64Array(readings.length);
  const concept: number[] = [];
  const degree: number[] = [];
  const indexOf = new Map<string, number>();
  const conceptIds: string[] = [];
  const worths: number[] = [];
  const seen = new Set<string>();

  readings.forEach((reading, r) => {
    if (seen.has(reading.id))
      throw new RangeError(`planReadings: got reading "${reading.id}" twice; need every id once`);
    seen.add(reading.id);
    if (!(reading.minutes > 0 && Number.isFinite(reading.minutes)))
      throw new RangeError(
        `planReadings: got ${reading.minutes} minutes for "${reading.id}"; need above 0`,
      );
    minutes[r] = reading.minutes;
    const covered = new Set<string>();
    for (const { concept: id, degree: rho } of reading.covers) {
      if (!(rho >= 0 && rho <= 1))
        throw new RangeError(
          `planReadings: got degree ${rho} for "${id}" in "${reading.id}"; need 0 to 1`,
        );
      if (covered.has(id))
        throw new RangeError(
          `planReadings: "${reading.id}" covers "${id}" twice; need each concept once`,
        );
      covered.add(id);
      const value = worth.get(id) ?? 0;
      if (!(value >= 0 && Number.isFinite(value)))
        throw new RangeError(`planReadings: got worth ${value} for "${id}"; need 0 or more`);
      if (value === 0 || rho === 0) continue;
      let c = indexOf.get(id);
      if (c === undefined) {
        c = conceptIds.length;
        indexOf.set(id, c);
        conceptIds.push(id);
        worths.push(value);
      }
      concept.push(c);
      degree.push(rho);
    }
    start[r + 1] = concept.length;
  });
  return {
    minutes,
    start,
    concept: Int32Array.from(concept),
    degree: Float64Array.from(degree),
    worth: Float64Array.from(worths),
    conceptIds,
  };
}

/** What one more reading would add, given what is left of each concept. */
export function gainOf(coverage: Coverage, left: Float64Array, r: number): number {
  const { start, concept, degree } = coverage;
  let gain = 0;
  for (let k = start[r]!; k < start[r + 1]!; k++) gain += left[concept[k]!]! * degree[k]!;
  return gain;
}

/** Takes a reading: lowers what is left of its concepts. */
export function takeInto(coverage: Coverage, left: Float64Array, r: number): void {
  const { start, concept, degree } = coverage;
  for (let k = start[r]!; k < start[r + 1]!; k++) left[concept[k]!]! *= 1 - degree[k]!;
}
