/** What goes into tracing and what comes out: the shapes of the engine's door. */
import type { MissReason } from '../../model/log';

/** One concept as tracing sees it. `strength` of a link is in (0, 1]; left out, the method's default. */
export interface TraceConcept {
  readonly id: string;
  readonly systems: readonly string[];
  readonly restsOn: readonly { readonly id: string; readonly strength?: number }[];
}

/** One answered item. */
export interface TraceItem {
  readonly id: string;
  /** Milliseconds since 1970-01-01 UTC. */
  readonly at: number;
  readonly missed: boolean;
  readonly system?: string;
  /** Concepts the item is about. */
  readonly topics: readonly string[];
  /** Concepts the candidate named as missing. */
  readonly causes: readonly string[];
  readonly reason?: MissReason;
}

/** Items of which only the counts are known. */
export interface TraceTotals {
  readonly at: number;
  readonly system?: string;
  readonly right: number;
  readonly missed: number;
}

/** One reading done and the concepts it covered. */
export interface TraceReading {
  readonly at: number;
  readonly concepts: readonly string[];
}

/** Everything tracing works from. All times are milliseconds since 1970-01-01 UTC. */
export interface TraceLog {
  readonly now: number;
  readonly concepts: readonly TraceConcept[];
  readonly items: readonly TraceItem[];
  readonly unitemised: readonly TraceTotals[];
  readonly readings: readonly TraceReading[];
}

/** One miss in the evidence of a root. */
export interface EvidenceShare {
  readonly itemId: string;
  /** Chance that this concept was the source of the miss, in [0, 1]. */
  readonly share: number;
  /** What the miss still counts after time and reading, in (0, 1]. */
  readonly weight: number;
}

/** One concept's result. */
export interface Root {
  readonly conceptId: string;
  /** Expected misses, weighted for time, whose source is this concept while it is a gap. */
  readonly traced: number;
  /** 90 % interval of `traced`. */
  readonly tracedInterval: readonly [number, number];
  /** Chance that the concept is a gap, in [0, 1]. */
  readonly gapChance: number;
  /** Expected failures of this concept for each item that needs it in full (the rate lambda). */
  readonly faultRate: number;
  /** 90 % interval of `faultRate`, whether the concept is a gap or not. */
  readonly faultInterval: readonly [number, number];
  /** 90 % interval of the rate, were the concept a gap. */
  readonly gapFaultInterval: readonly [number, number];
  /** `traced` split by the system of the item; items of no system are left out. */
  readonly bySystem: Readonly<Record<string, number>>;
  /** Effective number of systems the traced misses spread over (Hill number of order 1); 0 without any. */
  readonly reach: number;
  /** Items that touched the concept, weighted for closeness, time and reading. */
  readonly exposure: number;
  /** Exposure in 100 items of the mix: the concept's yield. */
  readonly exposurePer100: number;
  /** Traced misses in 100 exposures, lately less before; undefined where either window saw too little. */
  readonly trend: number | undefined;
  /** 90 % interval of `trend`. */
  readonly trendInterval: readonly [number, number] | undefined;
  /** Misses fewer in 100 items of the same mix, were the concept sound. */
  readonly avoidable: number;
  /** Misses that count towards it, largest share first. */
  readonly evidence: readonly EvidenceShare[];
  /** How many they are; to know it the list need not be made. */
  readonly evidenceCount: number;
  /** Chance of being among the first ten by traced misses; the sampler alone knows it. */
  readonly firstTenChance?: number;
}

/** How a result came about. */
export interface TraceDiagnostics {
  readonly method: 'quick' | 'sampled';
  /** False: the answer is given, but did not settle. */
  readonly converged: boolean;
  /** Passes of the quick method, or sweeps of all chains kept. */
  readonly iterations: number;
  /** Largest relative change of the last pass; of the sampler, the worst R-hat less 1. */
  readonly residual: number;
  /** Itemised misses read, and items read. */
  readonly missCount: number;
  readonly itemCount: number;
  /** Misses known by count only. */
  readonly unitemisedMissCount: number;
  /** Estimated share of concepts that are gaps. */
  readonly gapShare: number;
  /** Agreement of the chains on the slip rate, the share of gaps and the first roots. */
  readonly sampling?: {
    readonly chains: number;
    readonly worstRHat: number;
    /** Least numbers of independent draws they are worth, in the bulk and in the tails. */
    readonly leastEssBulk: number;
    readonly leastEssTail: number;
  };
}

/** The result of tracing. */
export interface TraceResult {
  /** Every concept once, largest `traced` first; ties by id. */
  readonly roots: readonly Root[];
  /** Expected misses, weighted for time, that were slips. */
  readonly slip: number;
  /** What the itemised misses weigh today, after time and reading. */
  readonly weighed: number;
  /** Expected slips an item (the rate sigma). */
  readonly slipRate: number;
  /** The part of each miss put down to a slip, largest first. */
  readonly slipEvidence: readonly EvidenceShare[];
  /** Chance of missing an item on these topics, in [0, 1]. */
  missChance(item: { readonly topics: readonly string[] }): number;
  readonly diagnostics: TraceDiagnostics;
}

/** How to trace. Everything has a default. */
export interface TraceOptions {
  /** Days in which evidence loses half its weight; Infinity for never. Default 90. */
  readonly halfLifeDays?: number;
  /** A result for nearly the same log: passes start from it. */
  readonly previous?: TraceResult;
  /** Most passes before giving up on settling. Default 400. */
  readonly mostPasses?: number;
  /** Settled when no expected count changes by more than this share in a pass. Default 1e-3, below 2,000 items 2e-5. */
  readonly tolerance?: number;
  /** Whether gaps that have healed are looked for, and what is older discounted. Default true. */
  readonly heals?: boolean;
  /** Days in each of the two windows `trend` compares. Default 28. */
  readonly trendWindowDays?: number;
}

/** How far a sampling run is. */
export interface SampleProgress {
  readonly sweepsDone: number;
  /** The most it will take; chains that agree sooner end sooner. */
  readonly sweepsTotal: number;
}

/** How to sample. */
export interface SampleOptions extends TraceOptions {
  /** Whole number that fixes every draw. Default 1. */
  readonly seed?: number;
  /** Sweeps kept in each chain. Default 1,000. */
  readonly sweeps?: number;
  /** Sweeps thrown away first in each chain. Default 400. */
  readonly warmUp?: number;
  /** Default 4. */
  readonly chains?: number;
  /** How often the sweeps may be doubled where the chains do not agree yet. Default 2. */
  readonly mostDoublings?: number;
  /**
   * Whether the spread of gaps' and sound concepts' rates and the reliability of labels are learned
   * from the log. Default: labels always, rates where at least half of the right items are itemised.
   */
  readonly learn?: boolean;
  readonly onProgress?: (progress: SampleProgress) => void;
  /** Asked between batches; true ends the run with a `SamplingCancelled` rejection. */
  readonly cancelled?: () => boolean;
  /** Awaited between batches, so that a worker can hear a cancellation. */
  readonly pause?: () => Promise<void>;
}
