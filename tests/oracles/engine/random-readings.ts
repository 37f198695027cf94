/** Random reading plans to be solved, from a seed. */
import { randomFrom } from '../../../src/engine/numeric/random';
import type { PlainReading } from './best-readings';

export interface PlanInstance {
  readonly readings: readonly PlainReading[];
  readonly worth: ReadonlyMap<string, number>;
  readonly budgetMinutes: number;
}

/**
 * @param degreeOf degree to which a reading covers a concept, from a uniform number and the concept's index
 */
export function randomInstance(
  seed: number,
  readingCount: number,
  conceptCount: number,
  degreeOf: (uniform: number, concept: number) => number,
): PlanInstance {
  const random = randomFrom(seed);
  const below = (n: number) => Math.floor(random.uniform() * n);
  // A few concepts are worth much, most little, as misses are.
  const worth = new Map(
    Array.from({ length: conceptCount }, (_, c) => [`c${c}`, 10 * random.uniform() ** 3]),
  );
  const readings = Array.from({ length: readingCount }, (_, r): PlainReading => {
    const covered = new Set(Array.from({ length: 1 + below(5) }, () => below(conceptCount)));
    return {
      id: `r${r}`,
      minutes: 5 * (1 + below(12)),
      covers: Array.from(covered, (c) => ({
        concept: `c${c}`,
        degree: degreeOf(random.uniform(), c),
      })),
    };
  });
  return { readings, worth, budgetMinutes: 20 + 5 * below(25) };
}
