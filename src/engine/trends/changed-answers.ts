/** Answers changed: more often to right, or from right? */
import { incompleteBeta } from '../numeric/incomplete-beta';
import { requireCount } from '../numeric/check';
import { wilsonInterval } from '../numeric/wilson';

export interface ChangedAnswers {
  readonly toRight: number;
  readonly fromRight: number;
  /** Of the changes that mattered, the share that helped; 95 % interval of Wilson. */
  readonly share: number;
  readonly interval: readonly [number, number];
  /** Chance of so uneven a split were both as likely (exact two-sided sign test). */
  readonly chance: number;
}

/** Changes before anything is said. */
export const leastChanges = 10;

/**
 * The two kinds of change against each other; undefined below ten of them.
 *
 * @example
 * changedAnswers(8, 2)?.chance; // 0.109375
 */
export function changedAnswers(toRight: number, fromRight: number): ChangedAnswers | undefined {
  requireCount('changedAnswers', 'toRight', toRight);
  requireCount('changedAnswers', 'fromRight', fromRight);
  const all = toRight + fromRight;
  if (all < leastChanges) return undefined;
  const more = Math.max(toRight, fromRight);
  // P(X >= k) of n fair coins is the incomplete beta function I_1/2(k, n - k + 1).
  const tail = incompleteBeta(0.5, more, all - more + 1);
  return {
    toRight,
    fromRight,
    share: toRight / all,
    interval: wilsonInterval(toRight, all),
    chance: Math.min(1, 2 * tail),
  };
}
