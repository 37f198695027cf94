/** The course of one concept, in stretches of four weeks. */

export interface Asked {
  /** Whole local day. */
  readonly day: number;
  /** Traced misses of that day: sums of shares. */
  readonly traced: number;
  /** Items of that day that are about it. */
  readonly asked: number;
}

export interface Stretch {
  /** Its last day, whole local days. */
  readonly last: number;
  readonly traced: number;
  readonly asked: number;
}

const daysOfStretch = 28;
/** Half a year. */
const mostStretches = 6;

/**
 * The last stretches of four weeks that reach back to the first day anything happened, oldest
 * first; none where nothing did.
 *
 * @example
 * fourWeeks(100, [{ day: 100, traced: 0.5, asked: 1 }]); // [{ last: 100, traced: 0.5, asked: 1 }]
 */
export function fourWeeks(today: number, ...sorts: readonly (readonly Asked[])[]): Stretch[] {
  const stretches = Array.from({ length: mostStretches }, (_, back) => ({
    last: today - back * daysOfStretch,
    traced: 0,
    asked: 0,
  }));
  let reached = -1;
  for (const { day, traced, asked } of sorts.flat()) {
    const back = Math.floor((today - day) / daysOfStretch);
    const stretch = stretches[back];
    if (!stretch) continue;
    stretch.traced += traced;
    stretch.asked += asked;
    reached = Math.max(reached, back);
  }
  return stretches.slice(0, reached + 1).reverse();
}
