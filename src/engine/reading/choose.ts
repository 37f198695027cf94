/**
 * Which readings to choose within a budget of minutes: partial enumeration of starts, each completed
 * greedily, then swaps.
 *
 * Every start of up to three readings, completed by gain per minute, gives at least 1 - 1/e of the
 * best (S. Khuller, A. Moss & J. Naor, "The budgeted maximum coverage problem", Information
 * Processing Letters 70, 1999; M. Sviridenko, Operations Research Letters 32, 2004, for any monotone
 * submodular gain). With many readings that is too many starts: then the most promising are tried
 * within a limit of work, and the bound of the result says what is proved.
 */
import type { LazyGreedy } from './lazy-greedy';

export interface Choice {
  readonly readings: readonly number[];
  readonly gain: number;
  /** No set within the budget adds more than this. */
  readonly bound: number;
  /** All starts of up to three readings were tried: at least 1 - 1/e of the best, by the theorem. */
  readonly enumerated: boolean;
}

/** Share of the bound at which nothing worth the work can be left to gain. */
const asGoodAsBest = 1 - 1e-9;

/** Candidates from outside that a swap brings in: the best by gain a minute. */
const swapCandidates = 60;

/** @param mostEvaluations gains that may be worked out for enumeration, and again for swaps */
export function chooseReadings(greedy: LazyGreedy, mostEvaluations: number): Choice {
  let best = greedy.complete([]);
  // A bound at every step would cost more than the greedy itself; these are the telling ones.
  const taken = best.readings.length;
  let bound = Infinity;
  for (const k of new Set([0, Math.ceil(taken / 2), Math.max(0, taken - 1), taken]))
    bound = Math.min(bound, greedy.boundAt(best.readings.slice(0, k)));
  const proved = () => best.gain >= bound * asGoodAsBest;

  const offer = (start: readonly number[], barred: readonly number[] = []): boolean => {
    const found = greedy.complete(start, barred);
    if (found.gain <= best.gain * (1 + 1e-12)) return false;
    best = found;
    return true;
  };

  const limit = greedy.evaluations + mostEvaluations;
  let enumerated = proved();
  if (!enumerated)
    enumerated = tryStarts(greedy, offer, () => greedy.evaluations > limit || proved());

  const swapLimit = greedy.evaluations + mostEvaluations;
  for (let improved = true; improved && !proved() && greedy.evaluations < swapLimit;)
    improved = trySwaps(greedy, best.readings, offer, () => greedy.evaluations > swapLimit);

  bound = Math.max(best.gain, Math.min(bound, greedy.boundAt(best.readings)));
  return { readings: best.readings, gain: best.gain, bound, enumerated };
}

type Offer = (start: readonly number[], barred?: readonly number[]) => boolean;

/** @returns whether all starts were tried, or what was found is proved to be best */
function tryStarts(greedy: LazyGreedy, offer: Offer, enough: () => boolean): boolean {
  const all = [...greedy.order];
  for (const a of all) {
    offer([a]);
    if (enough()) return false;
  }
  // By gain, not gain a minute: what greedy never begins with is what is long and worth much.
  const byGain = all.sort((a, b) => greedy.aloneGain(b) - greedy.aloneGain(a) || a - b);
  // In the order of the last one taken, so that a limit keeps the starts among the most promising.
  for (let k = 1; k < byGain.length; k++) {
    for (let j = 0; j < k; j++) {
      const pair = [byGain[j]!, byGain[k]!];
      if (!greedy.fits(pair)) continue;
      offer(pair);
      if (enough()) return false;
      for (let i = 0; i < j; i++) {
        const triple = [byGain[i]!, ...pair];
        if (!greedy.fits(triple)) continue;
        offer(triple);
        if (enough()) return false;
      }
    }
  }
  return true;
}

/** Takes one or two readings out, one in, and fills up again; stops at the first that is better. */
function trySwaps(
  greedy: LazyGreedy,
  current: readonly number[],
  offer: Offer,
  enough: () => boolean,
): boolean {
  const outside = [...greedy.order].filter((r) => !current.includes(r)).slice(0, swapCandidates);
  for (let i = 0; i < current.length; i++) {
    for (let j = i; j < current.length; j++) {
      const out = i === j ? [current[i]!] : [current[i]!, current[j]!];
      const kept = current.filter((r) => !out.includes(r));
      for (const incoming of outside) {
        const start = [...kept, incoming];
        if (greedy.fits(start) && offer(start, out)) return true;
        if (enough()) return false;
      }
    }
  }
  return false;
}
