/**
 * The plan of one day: what fits the hours given, in order, ending an hour before bedtime.
 *
 * Work comes in the order it is given; what does not fit is shortened where that makes sense and else
 * left for another day, and that is said. After each 50 minutes of work come 10 of rest (common
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
  /** Most useful first. */
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
  const slots: DaySlot<Kind>[] = [];
  const leftOut: DayTask<Kind>[] = [];
  let at = input.startMinutes;
  let work = input.workMinutes;
  let sincePause = 0;

  for (const task of input.tasks) {
    requireNonNegative('planDay', `minutes of ${task.kind}`, task.minutes);
    if (task.minutes === 0) continue;
    const room = Math.min(work, workUntil(end - at, sincePause));
    const given = Math.min(task.minutes, Math.floor(room));
    if (given <= 0 || given < Math.min(task.minutes, task.leastMinutes ?? task.minutes)) {
      leftOut.push(task);
      continue;
    }
    const shortened = given < task.minutes;
    for (let left = given; left > 0;) {
      if (sincePause >= stretchMinutes) {
        slots.push({ kind: 'pause', from: at, until: at + pauseMinutes, shortened: false });
        at += pauseMinutes;
        sincePause = 0;
      }
      const part = Math.min(left, stretchMinutes - sincePause);
      slots.push({ kind: task.kind, from: at, until: at + part, shortened });
      at += part;
      left -= part;
      sincePause += part;
    }
    work -= given;
  }
  return { slots, leftOut, workMinutes: input.workMinutes - work };
}

/** Minutes of work that fit into a time, pauses taken off. */
function workUntil(minutes: number, sincePause: number): number {
  if (minutes === Infinity) return Infinity;
  const first = Math.min(minutes, stretchMinutes - sincePause);
  if (minutes <= first) return Math.max(0, minutes);
  const rest = minutes - first;
  const rounds = Math.floor(rest / (stretchMinutes + pauseMinutes));
  const last = rest - rounds * (stretchMinutes + pauseMinutes);
  return first + rounds * stretchMinutes + Math.max(0, last - pauseMinutes);
}
