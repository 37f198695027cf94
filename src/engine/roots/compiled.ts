/**
 * The log as flat arrays: what the quick pass and the sampler run on.
 *
 * Right items enter only through exposure, so rows exist for misses alone. Items that share
 * a set of topics share a row of weights, kept once in `topicSets`.
 */
import type { Closures } from '../graph/closure';
import type { ConceptGraph } from '../graph/concept-graph';
import type { TraceParameters } from './parameters';
import type { TraceTotals } from './tracing';

/** Windows of time that `trend` compares, as marked on rows. */
export const windowOlder = 0;
export const windowBefore = 1;
export const windowNow = 2;

/** Ages between which evidence is told apart, to see whether a gap has healed since. */
export const agesDays = [14, 28] as const;
/** Spans of age: younger than the first, between two, older than the last. */
export const ageSpans = agesDays.length + 1;

/** Distinct sets of topics: set s needs `concept[start[s] .. start[s + 1])`, each by `weight`. */
export interface TopicSets {
  readonly count: number;
  readonly start: Int32Array;
  readonly concept: Int32Array;
  readonly weight: Float64Array;
  /** Shape (count,): items of the mix with this set, unweighted; those known by count only included. */
  readonly mix: Float64Array;
  /** Shape (count,): items in the window now, and in the one before. */
  readonly now: Float64Array;
  readonly before: Float64Array;
  /** Shape (count, ageSpans): itemised items by their age, weighted for time. */
  readonly byAge: Float64Array;
  /** The set of one concept alone, by concept index; -1 where no item has it. */
  readonly ofConcept: Int32Array;
}

/**
 * Misses, one row each: row r could come from `concept[start[r] .. start[r + 1])` or be a slip.
 * A row of misses known only by count stands for `multiplicity` of them.
 */
export interface MissRows {
  readonly count: number;
  readonly start: Int32Array;
  readonly concept: Int32Array;
  /** Closeness w of the concept to the item. */
  readonly weight: Float64Array;
  /** Likelihood of label and reason were this concept the source, over that of one not named. */
  readonly label: Float64Array;
  /** 1 where the concept was named as a cause. */
  readonly named: Uint8Array;
  /** What the link's evidence still counts after time and reading. */
  readonly time: Float64Array;
  /** Shape (count,): the same for a slip. */
  readonly slipLabel: Float64Array;
  readonly slipTime: Float64Array;
  /** Shape (rows,): what the labels come from, as `LabelTerms`; the likelihood ratio of the reason. */
  readonly causeCount: Int32Array;
  readonly labelTopic: Float64Array;
  readonly labelNear: Float64Array;
  readonly labelStray: Float64Array;
  readonly slipRatio: Float64Array;
  readonly multiplicity: Int32Array;
  /** Index into `systems`, or -1. */
  readonly system: Int32Array;
  readonly window: Uint8Array;
  /** Which span of age the miss falls in. */
  readonly ageSpan: Uint8Array;
  /** Index into the log's items, or -1 for misses known by count. */
  readonly item: Int32Array;
}

/**
 * Items of one system (or of none) known only by count, and how they are spread over topic
 * sets. The spread of the right ones may be learned; that of the missed ones is fixed, as
 * their rows are.
 */
export interface CountedSystem {
  readonly system: string | undefined;
  /** Sets they may lie on, and the share of each as the method gives it, summing to 1. */
  readonly sets: Int32Array;
  readonly share: Float64Array;
  /** Per set: 1 where it is a single leaf of the map. */
  readonly isLeaf: Uint8Array;
  /** Per set, itemised items of the same system that have it. */
  readonly itemised: Float64Array;
  readonly right: number;
  readonly missed: number;
  readonly itemisedRight: number;
  readonly itemisedMissed: number;
  readonly answeredWeighted: number;
  /** Right ones weighted for time; those in the windows now and before, unweighted. */
  readonly rightWeighted: number;
  /** Shape (ageSpans,): the same by age. */
  readonly rightByAge: Float64Array;
  /** The same of all answered. */
  readonly answeredByAge: Float64Array;
  readonly rightNow: number;
  readonly rightBefore: number;
  /** Shape (concepts,): what readings and healing took from `rightWeighted`; undefined without any. */
  readonly rightLost: Float64Array | undefined;
  readonly totals: readonly TraceTotals[];
}

export interface CompiledLog {
  readonly graph: ConceptGraph;
  readonly closures: Closures;
  readonly parameters: TraceParameters;
  readonly topicSets: TopicSets;
  readonly rows: MissRows;
  /** Shape (concepts,): weighted items that touched each concept. */
  readonly exposure: Float64Array;
  readonly slipExposure: number;
  /** Shape (ageSpans,): the same by age. */
  readonly slipByAge: Float64Array;
  readonly systems: readonly string[];
  /** Items of the mix, with or without topics. */
  readonly mixTotal: number;
  readonly itemCount: number;
  readonly missCount: number;
  readonly unitemisedMissCount: number;
  /** Shape (concepts,): when each was last read; -Infinity for never. */
  readonly lastRead: Float64Array;
  readonly now: number;
  readonly counted: readonly CountedSystem[];
  /** The same without the right items known by count, where there are any. */
  readonly placedOn: CompiledLog | undefined;
}
