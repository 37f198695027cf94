/**
 * The plan of one day: what fits the hours given, in order, ending an hour before bedtime.
 *
 * Each task first gets the least that makes sense, then the rest in the order given; what has no room
 * is left for another day, and that is said. After each 50 minutes of work come 10 of rest (common
 * practice, no source); what is done against the clock is not parted by them.
 */
import { requireNonNegative } from '../numeric/check';

export interface DayTask<Kind extends string = string> {
  readonly kind: Kind;
  readonly minutes: number;
  /** The least that makes sense; it may be shortened down to this. The whole, where not given. */
  readonly leastMinutes?: number;
  /** Never parted by a pause, nor shortened: a timed block, a rehearsal. */
  readonly whole?: boolean;
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
/** So much may come before a whole task without a pause between (our choice). */
const shortBeforeWhole = 15;
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
  let room = Math.floor(Math.min(input.workMinutes, workUntil(end - input.startMinutes)));
  let given = allot(input.tasks, room);
  let slots = layOut(input.tasks, given, input.startMinutes);
  // Whole tasks may need one pause more than was reckoned with.
  for (let over = overrun(slots, end); over > 0; over = overrun(slots, end)) {
    room -= Math.ceil(over);
    given = allot(input.tasks, room);
    slots = layOut(input.tasks, given, input.startMinutes);
  }
  const leftOut = input.tasks.filter(({ minutes }, k) => given[k] === 0 && minutes > 0);
  return { slots, leftOut, workMinutes: given.reduce((sum, minutes) => sum + minutes, 0) };
}

function overrun(slots: readonly DaySlot<string>[], end: number): number {
  return (slots.at(-1)?.until ?? -Infinity) - end;
}

function layOut<Kind extends string>(
  tasks: readonly DayTask<Kind>[],
  given: readonly number[],
  start: number,
): DaySlot<Kind>[] {
  const slots: DaySlot<Kind>[] = [];
  let at = start;
  let sincePause = 0;
  tasks.forEach(({ kind, minutes, whole }, k) => {
    for (let left = given[k]!; left > 0;) {
      const crowded =
        whole && sincePause > shortBeforeWhole && sincePause + minutes > stretchMinutes;
      if (sincePause >= stretchMinutes || crowded) {
        slots.push({ kind: 'pause', from: at, until: at + pauseMinutes, shortened: false });
        at += pauseMinutes;
        sincePause = 0;
      }
      const part = whole ? left : Math.min(left, stretchMinutes - sincePause);
      slots.push({ kind, from: at, until: at + part, shortened: given[k]! < minutes });
      at += part;
      left -= part;
      sincePause += part;
    }
  });
  return slots;
}

/** Minutes for each task: the least of each in turn, then the rest in turn; 0 for what has no room. */
function allot(tasks: readonly DayTask[], room: number): number[] {
  let left = room;
  const given = tasks.map(({ kind, minutes, leastMinutes = minutes, whole }) => {
    requireNonNegative('planDay', `minutes of ${kind}`, minutes);
    const least = whole ? minutes : Math.min(minutes, leastMinutes);
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
