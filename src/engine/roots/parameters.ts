/**
 * The constants of the model, with what each stands for. They were fixed on simulated
 * candidates before this code was written; where the data can bear it they are learned.
 */

export interface TraceParameters {
  /**
   * Closeness of all concepts together that an item's topics do not reach; each has an equal part,
   * and those that were named are looked at.
   */
  readonly outsideWeight: number;
  /** Chance that the candidate names the true source. */
  readonly labelTrue: number;
  /** Chance that the candidate names a topic of the item, whatever the source. */
  readonly labelTopic: number;
  /** Chance that they name some concept the item leans on; what is left is any concept of the map. */
  readonly labelNear: number;
  /** How much more likely a reason of haste is under a slip; the reverse for "not known". */
  readonly reasonRatio: number;
  /** What evidence older than a reading of its concept still counts. */
  readonly readingDiscount: number;
  /** Gamma of a gap's rate lambda: shape and rate. */
  readonly gapShape: number;
  readonly gapRate: number;
  /** Gamma of a sound concept's rate. */
  readonly soundShape: number;
  readonly soundRate: number;
  /** Beta of the share of gaps. */
  readonly gapShareFor: number;
  readonly gapShareAgainst: number;
  /** Gamma of the slip rate sigma. */
  readonly slipShape: number;
  readonly slipRate: number;
}

export const defaultParameters: TraceParameters = {
  outsideWeight: 0.15,
  labelTrue: 0.4,
  labelTopic: 0.35,
  labelNear: 0.05,
  reasonRatio: 4,
  readingDiscount: 0.5,
  gapShape: 2,
  gapRate: 2,
  soundShape: 1,
  soundRate: 25,
  gapShareFor: 2,
  gapShareAgainst: 20,
  slipShape: 2,
  slipRate: 20,
};

export const defaultHalfLifeDays = 90;
export const defaultTrendWindowDays = 28;
