/**
 * One day's looks, levelled to the minutes given: the most useful first, what does not fit waits for
 * tomorrow, and what could not be made up for within days is let go, the least useful first.
 */
import type { LocalDay } from '../../model/time';

export interface DueLook {
  readonly id: string;
  /** When it should come back. */
  readonly due: LocalDay;
  readonly gapDays: number;
  /** What holding it is worth: misses traced to its concepts, or 1. */
  readonly worth: number;
}

export interface LevelledDay<T extends DueLook> {
  /** To be made today, most useful first. */
  readonly today: readonly T[];
  /** Waiting for the days after, most useful first. */
  readonly waiting: readonly T[];
  /** More than the coming days can hold: let go, most useful first. */
  readonly letGo: readonly T[];
}

/** Days' worth of looks that may wait; what is beyond that would only grow (our choice). */
export const mostWaitingDays = 3;

/**
 * Chance that a miss still holds a share of its gap after its last look: a power of time, as
 * forgetting is (J. T. Wixted & E. B. Ebbesen, 1991, Psychological Science 2:409-415), here through
 * 1 at once and 0.8 at the end of the gap (our choice; it only orders looks).
 *
 * @param elapsed days since the last look, over the gap
 */
export function chanceOfHolding(elapsed: number): number {
  return (1 + Math.max(0, elapsed)) ** Math.log2(0.8);
}

/** What a look would be good for: its worth, times the chance that it is needed. */
export function lookUse(look: DueLook, day: LocalDay): number {
  const elapsed = (day - (look.due - look.gapDays)) / look.gapDays;
  return look.worth * (1 - chanceOfHolding(elapsed));
}

/**
 * The looks of a day.
 *
 * @param due those due on the day or before; others are ignored
 * @param perDay looks that the minutes of a day hold, a whole number
 * @param lastDay the last day for looks; nothing waits beyond it
 * @param alreadyMade looks made on this day before
 */
export function levelDay<T extends DueLook>(
  due: readonly T[],
  day: LocalDay,
  perDay: number,
  lastDay: LocalDay | undefined,
  alreadyMade = 0,
): LevelledDay<T> {
  const use = new Map(due.map((look) => [look, lookUse(look, day)]));
  const ordered = due
    .filter((look) => look.due <= day)
    .sort((a, b) => use.get(b)! - use.get(a)! || a.due - b.due || (a.id < b.id ? -1 : 1));
  const daysLeft = lastDay === undefined ? mostWaitingDays : Math.max(0, lastDay - day);
  const mostWaiting = perDay * Math.min(mostWaitingDays, daysLeft);
  const now = Math.max(0, perDay - alreadyMade);
  return {
    today: ordered.slice(0, now),
    waiting: ordered.slice(now, now + mostWaiting),
    letGo: ordered.slice(now + mostWaiting),
  };
}
