/** The jobs of the trace worker, and the log it remembers between them. */
import {
  chooseHalfLife,
  countNamedCauses,
  defaultHalfLifeDays,
  explainRoot,
  foretell,
  sampleRoots,
  SamplingCancelled,
  traceRoots,
  type Foretold,
  type HalfLifeChoice,
  type Root,
  type RootExplanation,
  type TraceLog,
  type TraceResult,
} from '../engine';
import { msPerDay } from '../model/time';
import { unpackItems, type PackedItems, type TraceItem } from './packed-items';
import type { JobContext, JobHandlers } from './serve-jobs';

export type { TraceItem } from './packed-items';
export type TraceConcept = TraceLog['concepts'][number];

/** What changed since the last message; only the first one carries everything. */
export interface TracePatch {
  readonly now: number;
  /** Days in which evidence loses half its weight; the method's default where none is chosen. */
  readonly halfLifeDays?: number;
  /** Forget all that was sent before; this patch carries everything. */
  readonly reset: boolean;
  /** Present when the map changed. */
  readonly concepts?: readonly TraceConcept[];
  readonly items: readonly TraceItem[];
  /** More items, as many at once travel. */
  readonly packed?: readonly PackedItems[];
  readonly removedItems: readonly string[];
  readonly unitemised: TraceLog['unitemised'];
  readonly readings: TraceLog['readings'];
}

/** A root without its evidence, which is asked for one concept at a time, and without what no screen shows. */
export type RankedRoot = Omit<Root, 'evidence' | 'faultInterval'>;

export interface CountedConcept {
  readonly conceptId: string;
  readonly count: number;
}

export interface Ranking {
  readonly roots: readonly RankedRoot[];
  /** Concepts by how often they were named as the cause, most first. */
  readonly counted: readonly CountedConcept[];
  /**
   * What the misses that can be traced weigh today: older ones, and those read about since,
   * count less.
   */
  readonly weighedMisses: number;
  /** Of these, the part traced to gaps. */
  readonly traced: number;
  /** Of these, the part that looks like slips; the rest has no one concept to blame. */
  readonly slip: number;
  /** Itemised misses that name neither a topic nor a cause: in none of the three above. */
  readonly unplacedMisses: number;
  /** The pass made at once, or the slower one that draws samples. */
  readonly method: 'quick' | 'sampled';
  /** False: the numbers are given, but the method did not settle. */
  readonly settled: boolean;
  readonly itemCount: number;
  readonly missCount: number;
}

export type Evidence = Root['evidence'];

// A type alias, not an interface: only an alias fits the open `Jobs` record.
export type TraceJobs = {
  trace: { input: TracePatch; output: Ranking };
  /** Samples the log of the last `trace`; undefined when a newer one came in between. */
  sample: { input: null; output: Ranking | undefined };
  /**
   * The quick pass over what was sat from one instant on, or before another, which is then taken for
   * now: what was read later does not count either.
   */
  period: {
    input: { readonly patch: TracePatch; readonly from?: number; readonly until?: number };
    output: Ranking;
  };
  evidence: { input: { readonly conceptId: string }; output: Evidence };
  /** Why a concept stands where it stands; undefined where it is not among the roots. */
  explain: { input: { readonly conceptId: string }; output: RootExplanation | undefined };
  /** Which half-life foretells the log best. Long: for a worker of its own. */
  halfLife: { input: TracePatch; output: HalfLifeChoice };
  /** The log foretold from its own past, under the patch's half-life. Long: for a worker of its own. */
  foretell: { input: TracePatch; output: Foretold };
};

/** Right items sent as examples of what speaks against a gap. */
const mostAgainst = 20;

/** Lets messages in, among them a newer log, between two batches of samples. */
const breathe = () => new Promise<void>((resolve) => setTimeout(resolve));

/** The handlers of one trace worker, sharing the log that patches build up. */
export function traceJobs(): JobHandlers<TraceJobs> {
  const items = new Map<string, TraceItem>();
  let concepts: readonly TraceConcept[] = [];
  let log: TraceLog | undefined;
  let halfLifeDays: number | undefined;
  let quick: TraceResult | undefined;
  /** The result last handed out: evidence is asked of this one. */
  let shown: TraceResult | undefined;

  function applyPatch(patch: TracePatch): TraceLog {
    if (patch.reset) items.clear();
    if (patch.concepts) concepts = patch.concepts;
    for (const item of patch.items) items.set(item.id, item);
    for (const packed of patch.packed ?? []) {
      for (const item of unpackItems(packed)) items.set(item.id, item);
    }
    for (const id of patch.removedItems) items.delete(id);
    return {
      now: patch.now,
      concepts,
      items: [...items.values()],
      unitemised: patch.unitemised,
      readings: patch.readings,
    };
  }

  return {
    trace(patch) {
      log = applyPatch(patch);
      // A result under another half-life is no place to start from.
      if (patch.halfLifeDays !== halfLifeDays) quick = undefined;
      halfLifeDays = patch.halfLifeDays;
      quick = traceRoots(log, { previous: quick, halfLifeDays });
      shown = quick;
      return rankingOf(log, quick, halfLifeDays);
    },

    async sample(_input, job) {
      const sampled = log;
      if (!sampled) throw new Error('sample: no log was traced; need `trace` before it');
      const overtaken = () => job.stopped() || sampled !== log;
      const result = await sampleUnless(overtaken, sampled, halfLifeDays, job);
      if (!result || overtaken()) return undefined;
      shown = result;
      return rankingOf(sampled, result, halfLifeDays);
    },

    period({ patch, from = -Infinity, until = Infinity }) {
      const whole = applyPatch(patch);
      const within = ({ at }: { readonly at: number }) => at >= from && at < until;
      const part = {
        ...whole,
        now: Math.min(whole.now, until),
        items: whole.items.filter(within),
        unitemised: whole.unitemised.filter(within),
        readings: whole.readings.filter(({ at }) => at < until),
      };
      const { halfLifeDays: days } = patch;
      return rankingOf(part, traceRoots(part, { halfLifeDays: days }), days);
    },

    evidence({ conceptId }) {
      const root = shown?.roots.find((candidate) => candidate.conceptId === conceptId);
      return root?.evidence ?? [];
    },

    explain({ conceptId }) {
      const known = shown?.roots.some((root) => root.conceptId === conceptId);
      if (!log || !shown || !known) return undefined;
      // The screen counts these lists, so none may be cut short; right items have a count of their own.
      const all = explainRoot(log, shown, conceptId, Infinity);
      return { ...all, against: all.against.slice(0, mostAgainst) };
    },

    halfLife(patch) {
      return chooseHalfLife(applyPatch(patch));
    },

    foretell(patch) {
      return foretell(applyPatch(patch), { halfLifeDays: patch.halfLifeDays });
    },
  };
}

/** The sampled result, or undefined when it was cancelled. */
async function sampleUnless(
  cancelled: () => boolean,
  log: TraceLog,
  halfLifeDays: number | undefined,
  job: JobContext,
): Promise<TraceResult | undefined> {
  try {
    return await sampleRoots(log, {
      halfLifeDays,
      cancelled,
      pause: breathe,
      onProgress: ({ sweepsDone, sweepsTotal }) => job.progress(sweepsDone, sweepsTotal),
    });
  } catch (error) {
    if (error instanceof SamplingCancelled) return undefined;
    throw error;
  }
}

function rankingOf(log: TraceLog, result: TraceResult, halfLifeDays: number | undefined): Ranking {
  const unplaced = new Set<string>();
  for (const item of log.items) {
    if (item.missed && item.topics.length === 0 && item.causes.length === 0) unplaced.add(item.id);
  }
  // To the method they are slips, there being no other source; to the candidate, not reviewed yet.
  const unplacedWeight = weightOf(result.slipEvidence.filter(({ itemId }) => unplaced.has(itemId)));
  return {
    roots: result.roots.map(withoutEvidence),
    counted: countNamedCauses(log),
    weighedMisses: result.weighed - unplacedWeight + unitemisedWeight(log, halfLifeDays),
    traced: result.roots.reduce((sum, root) => sum + root.traced, 0),
    slip: result.slip - unplacedWeight,
    unplacedMisses: unplaced.size,
    method: result.diagnostics.method,
    settled: result.diagnostics.converged,
    itemCount: log.items.length + countUnitemised(log.unitemised),
    missCount:
      log.items.filter((item) => item.missed).length +
      log.unitemised.reduce((sum, block) => sum + block.missed, 0),
  };
}

/** Evidence lists are made when they are first read, and most of them never are. */
function withoutEvidence(root: Root): RankedRoot {
  return {
    conceptId: root.conceptId,
    traced: root.traced,
    tracedInterval: root.tracedInterval,
    gapChance: root.gapChance,
    faultRate: root.faultRate,
    gapFaultInterval: root.gapFaultInterval,
    bySystem: root.bySystem,
    reach: root.reach,
    exposure: root.exposure,
    exposurePer100: root.exposurePer100,
    trend: root.trend,
    trendInterval: root.trendInterval,
    avoidable: root.avoidable,
    evidenceCount: root.evidenceCount,
    firstTenChance: root.firstTenChance,
  };
}

const weightOf = (shares: Evidence) =>
  shares.reduce((sum, { share, weight }) => sum + share * weight, 0);

/**
 * What misses known by count alone weigh today. They are in no evidence list; what readings took
 * from them is left in, so that the parts never come to more than the whole.
 */
function unitemisedWeight(log: TraceLog, halfLifeDays = defaultHalfLifeDays): number {
  return log.unitemised.reduce((sum, { at, missed }) => {
    const ageDays = Math.max(0, log.now - at) / msPerDay;
    return sum + missed * 2 ** (-ageDays / halfLifeDays);
  }, 0);
}

function countUnitemised(unitemised: TraceLog['unitemised']): number {
  return unitemised.reduce((sum, block) => sum + block.right + block.missed, 0);
}
