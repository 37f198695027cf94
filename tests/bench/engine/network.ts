/** Logs for the engine's benchmarks, from a seed: a map with shared foundations and a year's items. */
import type { TraceItem, TraceLog } from '../../../src/engine/index';
import { randomFrom } from '../../../src/engine/numeric/random';

const day = 86_400_000;

/**
 * `items` answered at 40 a day on a map of `concepts`, a third of them missed. A quarter of the
 * concepts are foundations; each of the others rests on one or two of them and some on a third
 * level, which makes about five sources a miss.
 */
export function benchLog(seed: number, items: number, concepts: number): TraceLog {
  const random = randomFrom(seed);
  const below = (n: number): number => Math.floor(random.uniform() * n);
  const deep = Math.floor(concepts / 4);
  const map = Array.from({ length: concepts }, (_, c) => {
    const floor = c < deep ? Math.floor(c / 2) : deep;
    const links = c < deep / 2 ? 0 : 1 + below(2);
    const targets = new Set(Array.from({ length: floor === 0 ? 0 : links }, () => below(floor)));
    return {
      id: `c${c}`,
      systems: [`s${below(12)}`],
      restsOn: [...targets].map((target) => ({ id: `c${target}` })),
    };
  });
  const gap = Array.from({ length: concepts }, () => random.uniform() < 0.06);
  const now = items * (day / 40);
  const log: TraceItem[] = Array.from({ length: items }, (_, i) => {
    // Squared: some topics come up far more often than others.
    const topic = deep + Math.floor((concepts - deep) * random.uniform() ** 2);
    const under = map[topic]!.restsOn.map((link) => Number(link.id.slice(1)));
    const failed = [topic, ...under].filter((c) => gap[c]! && random.uniform() < 0.6);
    const missed = failed.length > 0 || random.uniform() < 0.27;
    const cause = failed[0] ?? topic;
    return {
      id: `i${i}`,
      at: Math.floor(i / 40) * day,
      missed,
      system: `s${below(12)}`,
      topics: [`c${topic}`],
      causes:
        missed && random.uniform() < 0.8 ? [`c${random.uniform() < 0.6 ? cause : topic}`] : [],
    };
  });
  return { now, concepts: map, items: log, unitemised: [], readings: [] };
}
