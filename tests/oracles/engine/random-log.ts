/** Small random logs for comparisons: a seeded map, items on it, labels and reasons of all kinds. */
import type { TraceLog } from '../../../src/engine/index';
import type { Random } from '../../../src/engine/numeric/random';
import { missReasons } from '../../../src/model/log';

export interface RandomLogSize {
  readonly concepts: number;
  readonly right: number;
  readonly missed: number;
}

const day = 86_400_000;

export function randomLog(random: Random, size: RandomLogSize): TraceLog {
  const below = (n: number): number => Math.floor(random.uniform() * n);
  const pick = <T>(list: readonly T[]): T => list[below(list.length)]!;
  const concepts = Array.from({ length: size.concepts }, (_, i) => ({
    id: `c${i}`,
    systems: [`s${below(3)}`],
    restsOn: Array.from({ length: i }, (__, j) => j)
      .filter(() => random.uniform() < 0.4)
      .map((j) =>
        random.uniform() < 0.5
          ? { id: `c${j}` }
          : { id: `c${j}`, strength: 0.1 + 0.9 * random.uniform() },
      ),
  }));
  const ids = concepts.map((concept) => concept.id);
  const items = Array.from({ length: size.right + size.missed }, (_, i) => {
    const missed = i < size.missed;
    const topics = random.uniform() < 0.1 ? [] : [pick(ids)];
    if (topics.length === 1 && random.uniform() < 0.25) topics.push(pick(ids));
    const causes = missed && random.uniform() < 0.7 ? [pick(ids)] : [];
    if (causes.length === 1 && random.uniform() < 0.2) causes.push(pick(ids));
    return {
      id: `i${i}`,
      at: -below(200) * day,
      missed,
      system: random.uniform() < 0.8 ? `s${below(3)}` : undefined,
      topics,
      causes,
      reason: missed && random.uniform() < 0.5 ? pick(missReasons) : undefined,
    };
  });
  return { now: 0, concepts, items, unitemised: [], readings: [] };
}
