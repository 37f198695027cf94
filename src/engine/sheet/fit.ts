/** Which lines go on the sheet in the minutes there are. */
import { requireNonNegative } from '../numeric/check';
import { solveKnapsack } from './knapsack';

export interface FitLine {
  readonly id: string;
  /** Writing seconds. */
  readonly seconds: number;
  readonly worth: number;
  /** Goes in whatever it is worth. */
  readonly pinned?: boolean;
  /** Stays out whatever it is worth. */
  readonly banned?: boolean;
}

export interface SheetFit {
  /** Ids, in the order given. */
  readonly in: readonly string[];
  readonly out: readonly string[];
  /** Writing seconds of what is in, whole seconds a line. */
  readonly secondsUsed: number;
  readonly worth: number;
  /** Pinned lines alone take longer than there is: nothing else is in. */
  readonly pinnedTooLong: boolean;
}

export interface NextMinute {
  readonly added: readonly string[];
  readonly removed: readonly string[];
  /** How much more the sheet would be worth. */
  readonly worth: number;
}

/** A line's cost on the sheet: whole seconds, at least one, so that the choice is exact and finite. */
export const wholeSeconds = (seconds: number) => Math.max(1, Math.ceil(seconds - 1e-9));

/**
 * The lines of greatest worth whose writing fits, with the pinned in and the banned out.
 * A line that is worth nothing stays out, unless pinned.
 *
 * @param budgetSeconds time for the whole sheet; parts of a second are left unused
 * @throws {RangeError} for a negative or infinite number
 *
 * @example
 * fitSheet([{ id: 'a', seconds: 40, worth: 1 }, { id: 'b', seconds: 30, worth: 2 }], 60); // in: ['b']
 */
export function fitSheet(lines: readonly FitLine[], budgetSeconds: number): SheetFit {
  requireNonNegative('fitSheet', 'budgetSeconds', budgetSeconds);
  for (const { id, seconds, worth } of lines) {
    requireNonNegative('fitSheet', `seconds of "${id}"`, seconds);
    requireNonNegative('fitSheet', `worth of "${id}"`, worth);
  }
  const pinned = lines.filter((line) => line.pinned && !line.banned);
  const free = lines.filter((line) => !line.pinned && !line.banned);
  const pinnedSeconds = pinned.reduce((sum, { seconds }) => sum + wholeSeconds(seconds), 0);
  const left = Math.floor(budgetSeconds) - pinnedSeconds;
  const choice = solveKnapsack(
    free.map(({ seconds, worth }) => ({ weight: wholeSeconds(seconds), value: worth })),
    Math.max(0, left),
  );
  const inside = new Set(pinned.map(({ id }) => id));
  free.forEach(({ id }, i) => {
    if (choice.taken[i]) inside.add(id);
  });
  return {
    in: lines.filter(({ id }) => inside.has(id)).map(({ id }) => id),
    out: lines.filter(({ id }) => !inside.has(id)).map(({ id }) => id),
    secondsUsed: pinnedSeconds + choice.weight,
    worth: pinned.reduce((sum, { worth }) => sum + worth, 0) + choice.value,
    pinnedTooLong: left < 0,
  };
}

/**
 * What sixty seconds more would change: lines that come in, lines that give way, worth gained.
 *
 * @param fit of the same lines and budget
 */
export function nextMinuteOf(
  lines: readonly FitLine[],
  budgetSeconds: number,
  fit: SheetFit,
): NextMinute {
  const more = fitSheet(lines, budgetSeconds + 60);
  const before = new Set(fit.in);
  const after = new Set(more.in);
  return {
    added: more.in.filter((id) => !before.has(id)),
    removed: fit.in.filter((id) => !after.has(id)),
    worth: more.worth - fit.worth,
  };
}
