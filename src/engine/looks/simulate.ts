/**
 * From today to paper day, many times over: how many looks each day brings, and how many of today's
 * open misses will be settled.
 *
 * A miss is settled when it held at its last look before the paper. Each run draws the chance of
 * holding from what the candidate's looks say so far (beta, after 3 looks held and 1 not, our choice)
 * and the looks of each day from the days just past, so that both uncertainties are in the interval.
 */
import type { LocalDay } from '../../model/time';
import { requireCount } from '../numeric/check';
import { randomFrom, type Random } from '../numeric/random';
import { drawBeta, drawPoisson } from '../numeric/sampling';
import { levelDay, type DueLook } from './level';
import {
  firstState,
  nextLook,
  stateAfter,
  stateLetGo,
  type LookState,
  type LookSubject,
} from './schedule';

export interface SimulationInput {
  /** All misses that have something to look at. */
  readonly subjects: readonly (LookSubject & { readonly worth: number })[];
  readonly today: LocalDay;
  readonly paperDay: LocalDay;
  /** Looks that the minutes of a day hold. */
  readonly perDay: number;
  /**
   * Share of the planned looks that were made on each of the days just past, 0 to 1: what "this pace"
   * means. Empty: every look is made.
   */
  readonly keptShares: readonly number[];
  /** New misses a day, which compete for the same minutes. */
  readonly newMissesPerDay: number;
  /** Looks so far by outcome. */
  readonly heldBefore: number;
  readonly notHeldBefore: number;
  readonly runs: number;
  readonly seed: number;
}

export interface Simulation {
  /** Misses open today: those that still have a look before the paper. */
  readonly openMisses: number;
  /** Share of them settled by paper day: 5th, 50th and 95th in 100 runs. */
  readonly settled: readonly [number, number, number];
  /** Mean looks on each day from today to the day before the paper. */
  readonly looksByDay: readonly {
    readonly day: LocalDay;
    readonly mean: number;
    readonly most: number;
  }[];
  /** Mean number of the open misses that get no look before the paper, for want of minutes. */
  readonly unseen: number;
  readonly runs: number;
}

interface Running extends DueLook {
  state: LookState;
  due: LocalDay;
  gapDays: number;
  /** Index of the open miss; -1 for one that is new in the run. */
  readonly open: number;
}

/** As `simulateSteps`, all at once. */
export function simulateToPaper(input: SimulationInput): Simulation {
  const steps = simulateSteps(input);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/**
 * The simulation run by run, so that its caller can breathe, show progress and stop.
 *
 * @returns a generator that yields the runs done and returns the result
 * @throws {RangeError} for a count that is negative or no run at all
 */
export function* simulateSteps(input: SimulationInput): Generator<number, Simulation> {
  requireCount('simulateToPaper', 'runs', input.runs, 1);
  requireCount('simulateToPaper', 'perDay', input.perDay);
  const { subjects, today, paperDay, runs } = input;
  const days = Math.max(0, paperDay - today);
  const open: { readonly id: string; readonly worth: number; readonly state: LookState }[] = [];
  for (const subject of subjects) {
    const next = nextLook(subject, paperDay);
    if (next && days > 0) open.push({ id: subject.id, worth: subject.worth, state: next.state });
  }
  const random = randomFrom(input.seed);
  const sums = new Float64Array(days);
  const mosts = new Float64Array(days);
  const shares: number[] = [];
  let unseen = 0;
  for (let run = 0; run < runs; run++) {
    const result = runOnce(input, open, days, random);
    result.looks.forEach((looks, d) => {
      sums[d]! += looks;
      mosts[d] = Math.max(mosts[d]!, looks);
    });
    unseen += result.unseen;
    shares.push(open.length === 0 ? 1 : result.settled / open.length);
    yield run + 1;
  }
  shares.sort((a, b) => a - b);
  const quantile = (q: number) => shares[Math.min(runs - 1, Math.floor(q * runs))]!;
  return {
    openMisses: open.length,
    settled: [quantile(0.05), quantile(0.5), quantile(0.95)],
    looksByDay: Array.from(sums, (sum, d) => ({
      day: (today + d) as LocalDay,
      mean: sum / runs,
      most: mosts[d]!,
    })),
    unseen: unseen / runs,
    runs,
  };
}

function runOnce(
  input: SimulationInput,
  open: readonly { readonly id: string; readonly worth: number; readonly state: LookState }[],
  days: number,
  random: Random,
): { readonly looks: Float64Array; readonly settled: number; readonly unseen: number } {
  const { today, paperDay, perDay, keptShares } = input;
  const holds = drawBeta(random, 3 + input.heldBefore, 1 + input.notHeldBefore);
  const lastDay = (paperDay - 1) as LocalDay;
  const comingBack = Array.from({ length: days }, (): Running[] => []);
  const held = new Uint8Array(open.length);
  const seen = new Uint8Array(open.length);
  const wait = (running: Running, state: LookState | undefined, from: number) => {
    if (!state) return;
    running.state = state;
    running.gapDays = state.gapDays;
    running.due = (state.from + state.gapDays) as LocalDay;
    const d = Math.max(from, running.due - today);
    if (d < days) comingBack[d]!.push(running);
  };
  const begin = (id: string, worth: number, index: number, state: LookState, from: number) =>
    wait({ id, worth, open: index, state, due: today, gapDays: 1 }, state, from);
  open.forEach(({ id, worth, state }, index) => {
    held[index] = state.outcome === 'had-it' ? 1 : 0;
    begin(id, worth, index, state, 0);
  });

  const looks = new Float64Array(days);
  let queue: Running[] = [];
  for (let d = 0; d < days; d++) {
    const day = (today + d) as LocalDay;
    const share =
      keptShares.length === 0 ? 1 : keptShares[Math.floor(random.uniform() * keptShares.length)]!;
    const levelled = levelDay([...queue, ...comingBack[d]!], day, perDay, lastDay);
    // Of what was planned for the day, the first part is made; the rest waits with the others.
    const made = Math.round(levelled.today.length * share);
    for (const look of levelled.today.slice(0, made)) {
      const outcome = random.uniform() < holds ? 'had-it' : 'not-yet';
      if (look.open >= 0) {
        held[look.open] = outcome === 'had-it' ? 1 : 0;
        seen[look.open] = 1;
      }
      const kept = Math.max(1, day - look.state.from);
      wait(look, stateAfter(outcome, day, kept, paperDay), d + 1);
    }
    looks[d] = made;
    queue = [...levelled.today.slice(made), ...levelled.waiting];
    for (const look of levelled.letGo) {
      wait(look, stateLetGo(look.state, day, paperDay), d + 1);
    }
    const fresh = input.newMissesPerDay > 0 ? drawPoisson(random, input.newMissesPerDay) : 0;
    for (let k = 0; k < fresh; k++) {
      const state = firstState(day, paperDay);
      if (state) begin(`new-${d}-${k}`, 1, -1, state, d + 1);
    }
  }
  const count = (flags: Uint8Array) => flags.reduce((sum, each) => sum + each, 0);
  return { looks, settled: count(held), unseen: open.length - count(seen) };
}
