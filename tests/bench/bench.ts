/** What a file of benchmarks exports: see run.ts for how they are found. */
import type { Subject } from './measure';

export interface Bench {
  /** 'roots: quick pass over a year' */
  readonly name: string;
  /** makes the data, from this seed only, and what is to be timed on it */
  readonly prepare: (seed: number) => Prepared | Promise<Prepared>;
  /** timed runs of each subject; 15 unless one run takes long */
  readonly repeats?: number;
  /** untimed runs of each subject first; 3 unless one run takes long */
  readonly warmups?: number;
}

export interface Prepared {
  /** size and shape of the data, for the report: '15,000 items, 5,000 misses, 2,000 concepts' */
  readonly data: string;
  readonly ours: Subject;
  /** what it is held against: the naive version, a peer, the bare platform */
  readonly others?: readonly Subject[];
  /**
   * Throws unless the subjects did the same work; called once with what each returned, ours first.
   * A comparison of things that do not agree is worth nothing.
   */
  readonly requireAgreement?: (results: readonly unknown[]) => void;
  readonly tidyUp?: () => void | Promise<void>;
}
