/**
 * When a miss comes back.
 *
 *     missed -- first gap --> look -- had it: up to twice the gap --> look ... final week -> paper
 *                              \---- not yet: 1 day --> look
 *
 * The first gap is that of Cepeda et al. (2008) for the time left to paper day; a hold doubles the gap
 * that was really kept; a miss that was not held comes back the next day. No look on paper day or after
 * it, the last one in its final week: what held then is settled and rests.
 */
import type { LocalDay } from '../../model/time';
import { bestFirstGapDays } from './gap';

export type LookOutcome = 'had-it' | 'not-yet';

/** A miss (or another thing that comes back) with what is known of its looks. */
export interface LookSubject {
  readonly id: string;
  /** The day it was missed. */
  readonly since: LocalDay;
  /** In any order; of several on one day the last one given counts. */
  readonly looks: readonly { readonly day: LocalDay; readonly outcome: LookOutcome }[];
  /** Days on which its look was let go: it then waits for as long again. */
  readonly letGo?: readonly LocalDay[];
}

/** Where a subject stands before its next look. */
export interface LookState {
  /** The day from which the gap counts. */
  readonly from: LocalDay;
  /** Days from `from` to the next look. */
  readonly gapDays: number;
  /** The last look that was made; undefined before the first. */
  readonly outcome: LookOutcome | undefined;
}

/** Days before paper day in which the last look falls. */
export const finalWeekDays = 7;

/** Where in the final week a last look is put: its middle, so that days can be levelled either way. */
const lastLookDaysBefore = 4;

/** Most by which a hold multiplies the gap. */
const holdFactor = 2;

/** The time left that is reckoned with while no paper day is chosen. */
export const daysLeftWithoutPaper = 180;

/**
 * The next look of a subject, before days are levelled; undefined when none is left to make.
 *
 * @param paperDay undefined: not chosen yet
 */
export function nextLook(
  subject: LookSubject,
  paperDay: LocalDay | undefined,
): { readonly day: LocalDay; readonly state: LookState } | undefined {
  const state = stateOf(subject, paperDay);
  return state && { day: (state.from + state.gapDays) as LocalDay, state };
}

/** The state after all that is known of a subject; undefined when no look is left. */
function stateOf(subject: LookSubject, paperDay: LocalDay | undefined): LookState | undefined {
  const byDay = new Map<LocalDay, LookOutcome>();
  for (const { day, outcome } of subject.looks) byDay.set(day, outcome);
  let state = firstState(subject.since, paperDay);
  let last = subject.since;
  for (const [day, outcome] of [...byDay].sort(([a], [b]) => a - b)) {
    state = stateAfter(outcome, day, Math.max(1, day - last), paperDay);
    last = day;
  }
  for (const day of [...(subject.letGo ?? [])].sort((a, b) => a - b)) {
    if (state && day >= state.from + state.gapDays) state = stateLetGo(state, day, paperDay);
  }
  return state;
}

export function firstState(since: LocalDay, paperDay: LocalDay | undefined): LookState | undefined {
  const left = paperDay === undefined ? daysLeftWithoutPaper : paperDay - since;
  return stateWith(since, bestFirstGapDays(left), undefined, paperDay);
}

/**
 * The state after a look; undefined when it was the last.
 *
 * @param keptDays the gap that was really kept before it
 */
export function stateAfter(
  outcome: LookOutcome,
  day: LocalDay,
  keptDays: number,
  paperDay: LocalDay | undefined,
): LookState | undefined {
  if (outcome === 'not-yet') return stateWith(day, 1, outcome, paperDay);
  if (paperDay !== undefined && day >= paperDay - finalWeekDays) return undefined;
  return stateWith(day, keptDays * holdFactor, outcome, paperDay);
}

/** The state of a look that was let go: as long a wait again, at most to its last look. */
export function stateLetGo(
  state: LookState,
  day: LocalDay,
  paperDay: LocalDay | undefined,
): LookState | undefined {
  return stateWith(day, state.gapDays, state.outcome, paperDay);
}

/** A wish for a gap, rounded to days and kept before paper day. */
function stateWith(
  from: LocalDay,
  wishedDays: number,
  outcome: LookOutcome | undefined,
  paperDay: LocalDay | undefined,
): LookState | undefined {
  let gapDays = Math.max(1, Math.round(wishedDays));
  if (paperDay !== undefined) {
    gapDays = Math.min(gapDays, Math.max(1, paperDay - lastLookDaysBefore - from));
    if (from + gapDays >= paperDay) return undefined;
  }
  return { from, gapDays, outcome };
}

/** Whether a subject held at its last look: settled, if none comes after it before the paper. */
export function holdsNow(subject: LookSubject): boolean {
  return outcomeOf(subject) === 'had-it';
}

function outcomeOf(subject: LookSubject): LookOutcome | undefined {
  let last: LookSubject['looks'][number] | undefined;
  for (const look of subject.looks) if (!last || look.day >= last.day) last = look;
  return last?.outcome;
}
