/** The reading plan: what to read in the minutes there are, in what order, and why. */
import { chooseReadings } from './choose';
import { compileCoverage, gainOf, takeInto, type Coverage, type CoverageReading } from './coverage';
import { LazyGreedy, roundingMinutes } from './lazy-greedy';
import { orderReadings } from './order';

export interface ReadingPlanInput {
  readonly readings: readonly CoverageReading[];
  /** Misses in 100 items that mending each concept would avoid. */
  readonly worth: ReadonlyMap<string, number>;
  readonly budgetMinutes: number;
  /** Readings that stand in the plan whatever they add, even over the budget. */
  readonly pinned?: readonly string[];
  /** Readings that are left out. */
  readonly refused?: readonly string[];
  /** Per concept, what it rests on directly: for the order. */
  readonly restsOn?: ReadonlyMap<string, readonly string[]>;
}

export interface PlanOptions {
  /** Gains that may be worked out while starts are tried, and again while swapping. */
  readonly mostEvaluations?: number;
}

export interface PlannedReading {
  readonly id: string;
  readonly minutes: number;
  readonly pinned: boolean;
  /** Misses in 100 items it avoids after those before it; over the plan these add up to its gain. */
  readonly gain: number;
  /** The same by concept, largest first. */
  readonly concepts: readonly { readonly concept: string; readonly gain: number }[];
  /** What the plan would lose without it. */
  readonly lossWithout: number;
  /** The best that could stand in its place, and what it would add there; undefined without any. */
  readonly nextBest: { readonly id: string; readonly gain: number } | undefined;
}

export interface ReadingPlan {
  readonly readings: readonly PlannedReading[];
  readonly minutes: number;
  /** Of the budget; negative when pinned readings exceed it. */
  readonly minutesLeft: number;
  /** Misses in 100 items that the plan avoids. */
  readonly gain: number;
  /** No plan with the same pins within the budget avoids more than this. */
  readonly bound: number;
  /** All starts of up to three readings were tried, or the plan is proved to be the best. */
  readonly enumerated: boolean;
  /** Gains worked out: the work done. */
  readonly evaluations: number;
}

/** Enough for every start of three among some 40 readings; with 2,000, for the most promising ones. */
const usualEvaluations = 60_000;

/**
 * The plan of most gain within the budget, as far as `chooseReadings` finds it.
 *
 * @throws {RangeError} for a budget that is negative or not finite, and for what `compileCoverage` refuses
 */
export function planReadings(input: ReadingPlanInput, options: PlanOptions = {}): ReadingPlan {
  const { readings, budgetMinutes } = input;
  if (!(budgetMinutes >= 0 && Number.isFinite(budgetMinutes)))
    throw new RangeError(`planReadings: got a budget of ${budgetMinutes} minutes; need 0 or more`);
  const coverage = compileCoverage(readings, input.worth);
  const pinnedIds = new Set(input.pinned);
  const refusedIds = new Set(input.refused);
  const pinned: number[] = [];
  const candidates: number[] = [];
  readings.forEach(({ id }, r) => {
    if (pinnedIds.has(id)) pinned.push(r);
    else if (!refusedIds.has(id)) candidates.push(r);
  });
  const pinnedMinutes = pinned.reduce((sum, r) => sum + coverage.minutes[r]!, 0);
  const greedy = new LazyGreedy(
    coverage,
    pinned,
    candidates,
    Math.max(0, budgetMinutes - pinnedMinutes),
  );
  const choice = chooseReadings(greedy, options.mostEvaluations ?? usualEvaluations);

  const set = [...pinned, ...choice.readings];
  const indexOf = new Map(readings.map(({ id }, r) => [id, r]));
  const ordered = orderReadings(
    set.map((r) => ({
      id: readings[r]!.id,
      main: mainConcepts(readings[r]!),
      weight: gainOf(coverage, coverage.worth, r) / coverage.minutes[r]!,
    })),
    input.restsOn ?? new Map(),
  ).map((id) => indexOf.get(id)!);

  const pinnedGain = setGain(coverage, pinned);
  const minutes = set.reduce((sum, r) => sum + coverage.minutes[r]!, 0);
  const room = budgetMinutes - minutes;
  const left = Float64Array.from(coverage.worth);
  const planned = ordered.map((r): PlannedReading => {
    const concepts = gainsByConcept(coverage, left, r);
    takeInto(coverage, left, r);
    return {
      id: readings[r]!.id,
      minutes: coverage.minutes[r]!,
      pinned: pinnedIds.has(readings[r]!.id),
      gain: concepts.reduce((sum, { gain }) => sum + gain, 0),
      concepts,
      ...besideOthers(r),
    };
  });
  return {
    readings: planned,
    minutes,
    minutesLeft: room,
    gain: pinnedGain + choice.gain,
    bound: pinnedGain + choice.bound,
    enumerated: choice.enumerated,
    evaluations: greedy.evaluations,
  };

  /** What a reading adds to all others of the plan, and what else could in its place. */
  function besideOthers(r: number): Pick<PlannedReading, 'lossWithout' | 'nextBest'> {
    const others = Float64Array.from(coverage.worth);
    for (const other of set) if (other !== r) takeInto(coverage, others, other);
    const mostMinutes = room + coverage.minutes[r]! + roundingMinutes;
    let nextBest: PlannedReading['nextBest'];
    for (const candidate of candidates) {
      if (set.includes(candidate) || coverage.minutes[candidate]! > mostMinutes) continue;
      const gain = gainOf(coverage, others, candidate);
      if (gain > 0 && gain > (nextBest?.gain ?? 0))
        nextBest = { id: readings[candidate]!.id, gain };
    }
    return { lossWithout: gainOf(coverage, others, r), nextBest };
  }
}

/** Concepts covered to the highest degree of the reading: what it is mainly about. */
function mainConcepts({ covers }: CoverageReading): string[] {
  const most = Math.max(0, ...covers.map(({ degree }) => degree));
  return covers.filter(({ degree }) => degree === most).map(({ concept }) => concept);
}

function setGain(coverage: Coverage, set: readonly number[]): number {
  const left = Float64Array.from(coverage.worth);
  let gain = 0;
  for (const r of set) {
    gain += gainOf(coverage, left, r);
    takeInto(coverage, left, r);
  }
  return gain;
}

function gainsByConcept(
  coverage: Coverage,
  left: Float64Array,
  r: number,
): { concept: string; gain: number }[] {
  const gains: { concept: string; gain: number }[] = [];
  for (let k = coverage.start[r]!; k < coverage.start[r + 1]!; k++) {
    const c = coverage.concept[k]!;
    gains.push({ concept: coverage.conceptIds[c]!, gain: left[c]! * coverage.degree[k]! });
  }
  return gains.sort((a, b) => b.gain - a.gain);
}
