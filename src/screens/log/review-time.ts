/** The review's timer in numbers. Times in ms unless said otherwise. */
import type { Block } from '../../model/log';

/** Most minutes of review a block can have: a day. */
const mostMinutes = 1_440;

/** A clock that jumps back by less than this was only put right by the network. */
const leastJumpMs = 60_000;

/**
 * Whole minutes of review so far: those written down, and those since the timer was started.
 *
 * @param leastRunning what the running timer has shown before: a clock set back takes nothing away
 *
 * @example
 * reviewMinutesAt({ reviewMinutes: 10, reviewSince: 0 }, 300_000); // 15
 */
export function reviewMinutesAt(
  { reviewMinutes = 0, reviewSince }: Pick<Block, 'reviewMinutes' | 'reviewSince'>,
  now: number,
  leastRunning = 0,
): number {
  const running = reviewSince === undefined ? 0 : Math.max(leastRunning, now - reviewSince);
  return Math.min(mostMinutes, Math.round(reviewMinutes + running / 60_000));
}

/** Whether the clock was set back while the timer ran: it then has to count from now on afresh. */
export function clockWentBack(reviewSince: number, now: number, leastRunning: number): boolean {
  return now - reviewSince < leastRunning - leastJumpMs;
}
