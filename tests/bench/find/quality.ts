/** How good the order of results is, against judged questions. */
import { discountedGain } from '../roots/metrics/ranking';

/** One search engine over the same documents: keys, best first. */
export interface Engine {
  readonly label: string;
  readonly search: (typed: string) => readonly string[];
}

export interface Quality {
  /** Mean over the questions of 1 / place of the first record that was sought (grade 3); 0 where none came. */
  readonly meanReciprocalRank: number;
  /** Mean share of the best possible discounted gain of ten places; the grade is the gain. */
  readonly gainAt10: number;
  /** Share of the questions with a record that was sought among the first ten. */
  readonly foundIn10: number;
}

/** 1 / place of the first of these keys with the highest grade asked for; 0 where none is there. */
export function reciprocalRank(
  keys: readonly string[],
  grades: ReadonlyMap<string, number>,
): number {
  const place = keys.findIndex((key) => grades.get(key) === 3);
  return place < 0 ? 0 : 1 / (place + 1);
}

/**
 * Normalised discounted cumulated gain of the first ten places.
 *
 * Source: Järvelin and Kekäläinen 2002, ACM TOIS 20(4), with the discount log2(place + 1).
 */
export function gainAt10(keys: readonly string[], grades: ReadonlyMap<string, number>): number {
  const ideal = [...grades.values()].sort((a, b) => b - a);
  const gains = keys.slice(0, 10).map((key) => grades.get(key) ?? 0);
  return discountedGain(gains, 10) / discountedGain(ideal, 10);
}

export function qualityOf(
  engine: Engine,
  questions: readonly {
    readonly typed: string;
    readonly grades: ReadonlyMap<string, number>;
  }[],
): Quality {
  const sums = [0, 0, 0];
  for (const { typed, grades } of questions) {
    const keys = engine.search(typed);
    const rank = reciprocalRank(keys, grades);
    sums[0]! += rank;
    sums[1]! += gainAt10(keys, grades);
    sums[2]! += rank >= 0.1 ? 1 : 0;
  }
  const [ranks, gains, found] = sums.map((sum) => sum / questions.length);
  return { meanReciprocalRank: ranks!, gainAt10: gains!, foundIn10: found! };
}
