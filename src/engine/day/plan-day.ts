/**
 * The plan of one day: what fits the hours given, in order, ending an hour before bedtime.
 *
 * Each task first gets the least that makes sense, then the rest in the order given; what has no room
 * is left for another day, and that is said. After each 50 minutes of work come 10 of rest (common
 * practice, no source).
 */
import { requireNonNegative } from '../numeric/check';

export interface DayTask<Kind extends string = string> {
  readonly kind: Kind;
  readonly minutes: number;
  /** The least that makes sense; it may be shortened down to this. The whole, where not given. */
  readonly leastMinutes?: number;
}

export interface DayInput<Kind extends string> {
  /** In the order of the day, which is also that of their right to the time. */
  readonly tasks: readonly DayTask<Kind>[];
  /** Minutes after midnight at which work may begin. */
  readonly startMinutes: number;
  /** Minutes of work given to the day. */
  readonly workMinutes: number;
  /** Minutes after midnight; after midnight itself it is more than 1,440. Undefined: not chosen. */
  readonly bedtimeMinutes?: number;
}

export interface DaySlot<Kind extends string> {
  readonly kind: Kind | 'pause';
  /** Minutes after midnight. */
  readonly from: number;
  readonly until: number;
  /** True when the task has more minutes than are given to it here and in its other slots. */
  readonly shortened: boolean;
}

export interface DayPlan<Kind extends string> {
  readonly slots: readonly DaySlot<Kind>[];
  readonly leftOut: readonly DayTask<Kind>[];
  /** Minutes of the day's work that are planned. */
  readonly workMinutes: number;
}

/** Nothing is planned in this time before bed (common practice, no source). */
export const quietMinutesBeforeBed = 60;

const stretchMinutes = 50;
const pauseMinutes = 10;

/**
 * Lays the tasks into the day.
 *
 * @throws {RangeError} for minutes that are negative or not finite
 *
 * @example
 * planDay({ tasks: [{ kind: 'looks', minutes: 20 }], startMinutes: 1_200, workMinutes: 60 }).slots;
 * // [{ kind: 'looks', from: 1_200, until: 1_220, shortened: false }]
 */
export function planDay<Kind extends string>(input: DayInput<Kind>): DayPlan<Kind> {
  requireNonNegative('planDay', 'startMinutes', input.startMinutes);
  requireNonNegative('planDay', 'workMinutes', input.workMinutes);
  const end =
    input.bedtimeMinutes === undefined ? Infinity : input.bedtimeMinutes - quietMinutesBeforeBed;
  const room = Math.floor(Math.min(input.workMinutes, workUntil(end - input.startMinutes)));
  const given = allot(input.tasks, room);

  const slots: DaySlot<Kind>[] = [];
  const leftOut: DayTask<Kind>[] = [];
  let at = input.startMinutes;
  let sincePause = 0;
  input.tasks.forEach((task, k) => {
    if (given[k] === 0 && task.minutes > 0) leftOut.push(task);
    for (let left = given[k]!; left > 0;) {
      if (sincePause >= stretchMinutes) {
        slots.push({ kind: 'pause', from: at, until: at + pauseMinutes, shortened: false });
        at += pauseMinutes;
        sincePause = 0;
      }
      const part = Math.min(left, stretchMinutes - sincePause);
      slots.push({
        kind: task.kind,
        from: at,
        until: at + part,
        shortened: given[k]! < task.minutes,
      });
      at += part;
      left -= part;
      sincePause += part;
    }
  });
  return { slots, leftOut, workMinutes: given.reduce((sum, minutes) => sum + minutes, 0) };
}

/** Minutes for each task: the least of each in turn, then the rest in turn; 0 for what has no room. */
function allot(tasks: readonly DayTask[], room: number): number[] {
  let left = room;
  const given = tasks.map(({ kind, minutes, leastMinutes = minutes }) => {
    requireNonNegative('planDay', `minutes of ${kind}`, minutes);
    const least = Math.min(minutes, leastMinutes);
    if (least > left) return 0;
    left -= least;
    return least;
  });
  tasks.forEach(({ minutes }, k) => {
    if (given[k] === 0) return;
    const more = Math.min(minutes - given[k]!, left);
    given[k]! += more;
    left -= more;
  });
  return given;
}

/** Minutes of work that fit into a time, pauses taken off. */
function workUntil(minutes: number): number {
  if (minutes === Infinity) return Infinity;
  const rounds = Math.floor(Math.max(0, minutes) / (stretchMinutes + pauseMinutes));
  const rest = Math.max(0, minutes) - rounds * (stretchMinutes + pauseMinutes);
  return rounds * stretchMinutes + Math.min(stretchMinutes, rest);
}
