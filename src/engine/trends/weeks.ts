/** Accuracy week by week. */
import { requireCount } from '../numeric/check';
import { wilsonInterval } from '../numeric/wilson';

/** Items of which so many were right, on one day. */
export interface DayCount {
  /** Whole days since 1970-01-01. */
  readonly day: number;
  readonly items: number;
  readonly right: number;
}

export interface WeekAccuracy {
  /** Weeks since the one that began on Monday 1969-12-29. */
  readonly week: number;
  readonly items: number;
  readonly right: number;
  /** Right among all, 0 to 1. */
  readonly share: number;
  /** Wilson's 95 % interval. */
  readonly interval: readonly [number, number];
}

/**
 * The week a day falls in; weeks begin on Monday (ISO 8601). Day 0 was a Thursday.
 *
 * @example
 * weekOf(0); // 0
 * weekOf(4); // 1: Monday 5 January 1970
 */
export const weekOf = (day: number): number => Math.floor((day + 3) / 7);

/** The Monday of a week. */
export const mondayOf = (week: number): number => week * 7 - 3;

/** One entry for each week with items, the earliest first. @throws {RangeError} for a count that is none */
export function accuracyByWeek(counts: readonly DayCount[]): WeekAccuracy[] {
  const weeks = new Map<number, { items: number; right: number }>();
  counts.forEach(({ day, items, right }, i) => {
    requireCount('accuracyByWeek', `counts[${i}].items`, items);
    requireCount('accuracyByWeek', `counts[${i}].right`, right);
    const sum = weeks.get(weekOf(day)) ?? { items: 0, right: 0 };
    weeks.set(weekOf(day), { items: sum.items + items, right: sum.right + right });
  });
  return [...weeks]
    .filter(([, { items }]) => items > 0)
    .sort(([a], [b]) => a - b)
    .map(([week, { items, right }]) => ({
      week,
      items,
      right,
      share: right / items,
      interval: wilsonInterval(right, items),
    }));
}
