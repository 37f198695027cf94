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
/** A share of helpful changes that a candidate would act on: two in three. Common practice, no source. */
export const helpfulShareThatMatters = 2 / 3;
/** Power and error of every "about so many more": found four times in five, at 5 %. */
const powerWanted = 0.8;
const errorAllowed = 0.05;
/** Two in three need some 70 changes; a share nearer to a half than this search goes is out of reach. */
const mostChanges = 2_000;

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

/**
 * Changes from which on the sign test finds a share of helpful ones four times in five, at 5 %.
 *
 * Exact: the least n such that neither n nor any greater number has less power, since the power of
 * a test on whole numbers rises in saw teeth. Undefined where more than 2,000 would be needed.
 *
 * @param share above a half and below 1
 *
 * @example
 * changesToFind(0.9); // 12
 */
export function changesToFind(share = helpfulShareThatMatters): number | undefined {
  if (!(share > 0.5 && share < 1))
    throw new RangeError(`changesToFind: got a share of ${share}; need one above 0.5 and below 1`);
  let enough: number | undefined;
  let least = 1;
  // Past the first n of full power the teeth fall below it for a while, then never again.
  for (let n = 1; n <= mostChanges; n++) {
    // The least split that is found, 2 P(X >= k) at most 5 % of n fair coins: never less than before.
    while (least <= n && 2 * upperTail(n, least, 0.5) > errorAllowed) least += 1;
    // A split as uneven the other way would be found too, but next to never comes.
    const power = least > n ? 0 : upperTail(n, least, share);
    if (power < powerWanted) enough = undefined;
    else if (enough === undefined) enough = n;
    else if (n > 2 * enough) break;
  }
  return enough;
}

/** P(X >= k) of n coins with chance p, as the incomplete beta function I_p(k, n - k + 1). */
function upperTail(n: number, k: number, p: number): number {
  return incompleteBeta(p, k, n - k + 1);
}
