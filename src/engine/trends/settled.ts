/** Misses settled against misses open, week by week. */
import { weekOf } from './weeks';

export interface MissOnDay {
  readonly id: string;
  readonly day: number;
}

export interface LookOnDay {
  readonly item: string;
  /** Orders looks of one item. */
  readonly at: number;
  readonly day: number;
  readonly had: boolean;
}

export interface SettledWeek {
  readonly week: number;
  /** Misses whose last second look up to the end of the week was had. */
  readonly settled: number;
  /** All other misses up to then. */
  readonly open: number;
}

/**
 * How many misses stood settled and open at the end of each week, from the first miss to the last
 * miss or look. A miss is settled while its latest second look was had.
 */
export function settledByWeek(
  misses: readonly MissOnDay[],
  looks: readonly LookOnDay[],
): SettledWeek[] {
  const known = new Set(misses.map(({ id }) => id));
  // A look names its miss; a miss that is gone takes its looks with it.
  const events = [
    ...misses.map(({ day }) => ({ day, at: -Infinity, item: undefined, had: false })),
    ...looks.filter(({ item }) => known.has(item)),
  ].sort((a, b) => weekOf(a.day) - weekOf(b.day) || a.at - b.at);
  const weeks: SettledWeek[] = [];
  const had = new Map<string, boolean>();
  let [missed, settled] = [0, 0];
  let next = 0;
  const [first, last] = [events[0], events.at(-1)];
  if (!first || !last) return [];
  for (let week = weekOf(first.day); week <= weekOf(last.day); week++) {
    for (; next < events.length && weekOf(events[next]!.day) === week; next++) {
      const event = events[next]!;
      if (event.item === undefined) missed += 1;
      else {
        settled += Number(event.had) - Number(had.get(event.item) ?? false);
        had.set(event.item, event.had);
      }
    }
    weeks.push({ week, settled, open: missed - settled });
  }
  return weeks;
}
