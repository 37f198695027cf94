/**
 * How likely what the candidate wrote is under each possible source of a miss.
 *
 * Label noise after A. P. Dawid & A. M. Skene (1979), Applied Statistics 28:20-28. A named cause l
 * was written down in one of four manners: it is the true source; a topic of the item, whatever the
 * source; one of the concepts the item leans on; any concept of the map. Given the source c
 *
 *     P(l | c) = true [l = c] + topic [l in T] / |T| + near [l in S] / |S| + stray / K
 *
 * with T the topics, S the concepts the item leans on, K the size of the map. A slip has no source
 * to name: the other three manners share what is left. Where T or S is empty any concept stands
 * for it, so that the chances of all labels add to 1 in every case.
 */
import type { MissReason } from '../../model/log';
import type { MissRows } from './compiled';
import type { TraceParameters } from './parameters';

/** Chances of the manners, for a concept and for a slip; each group adds to 1. */
export interface LabelShares {
  true: number;
  topic: number;
  near: number;
  stray: number;
  slipTopic: number;
  slipNear: number;
  slipStray: number;
}

/** What a label would be worth in each manner; of several causes the mean is taken. */
export interface LabelTerms {
  /** Distinct causes named; 0 for no label. */
  readonly causeCount: number;
  readonly topic: number;
  readonly near: number;
  readonly stray: number;
}

export const noLabel: LabelTerms = { causeCount: 0, topic: 0, near: 0, stray: 0 };

/**
 * The terms of one miss. Each of several causes is taken as equally likely to be the one that is
 * meant, so naming many says less about each.
 *
 * @param causeCount distinct causes named, of them `topicCauses` topics and `nearCauses` in S
 * @param topicCount, nearCount sizes of T and S
 *
 * @example
 * labelTerms({ causeCount: 1, topicCauses: 1, nearCauses: 1, topicCount: 2, nearCount: 5 }, 260);
 * // { causeCount: 1, topic: 1 / 2, near: 1 / 5, stray: 1 / 260 }
 */
export function labelTerms(
  counts: {
    readonly causeCount: number;
    readonly topicCauses: number;
    readonly nearCauses: number;
    readonly topicCount: number;
    readonly nearCount: number;
  },
  conceptCount: number,
): LabelTerms {
  const { causeCount, topicCauses, nearCauses, topicCount, nearCount } = counts;
  if (causeCount === 0) return noLabel;
  const stray = 1 / conceptCount;
  return {
    causeCount,
    topic: topicCount === 0 ? stray : topicCauses / (causeCount * topicCount),
    near: nearCount === 0 ? stray : nearCauses / (causeCount * nearCount),
    stray,
  };
}

/** The shares as the method has them before it has seen a log. */
export function defaultLabelShares(parameters: TraceParameters): LabelShares {
  const { labelTrue, labelTopic, labelNear } = parameters;
  const rest = 1 - labelTrue;
  const stray = rest - labelTopic - labelNear;
  return {
    true: labelTrue,
    topic: labelTopic,
    near: labelNear,
    stray,
    slipTopic: labelTopic / rest,
    slipNear: labelNear / rest,
    slipStray: stray / rest,
  };
}

/**
 * Likelihood of each miss's label and reason under its sources, relative to that of a source that
 * was not named.
 *
 * @param label shape (entries,), written to; @param slipLabel shape (rows,), written to
 */
export function setLabelLikelihoods(
  rows: Omit<MissRows, 'label' | 'slipLabel'>,
  shares: LabelShares,
  label: Float64Array,
  slipLabel: Float64Array,
): void {
  const { start, named, causeCount, labelTopic, labelNear, labelStray, slipRatio } = rows;
  for (let r = 0; r < rows.count; r++) {
    const causes = causeCount[r]!;
    if (causes === 0) {
      label.fill(1, start[r], start[r + 1]);
      slipLabel[r] = slipRatio[r]!;
      continue;
    }
    const topic = labelTopic[r]!;
    const near = labelNear[r]!;
    const stray = labelStray[r]!;
    const unnamed = shares.topic * topic + shares.near * near + shares.stray * stray;
    const ofNamed = 1 + shares.true / (causes * unnamed);
    for (let e = start[r]!; e < start[r + 1]!; e++) label[e] = named[e] === 1 ? ofNamed : 1;
    const slip = shares.slipTopic * topic + shares.slipNear * near + shares.slipStray * stray;
    slipLabel[r] = (slipRatio[r]! * slip) / unnamed;
  }
}

/** Likelihood of the reason under a slip over that under any concept. */
export function reasonSlipRatio(
  parameters: TraceParameters,
  reason: MissReason | undefined,
): number {
  switch (reason) {
    case 'misread':
    case 'out-of-time':
    case 'changed-from-right':
    case 'overthought':
      return parameters.reasonRatio;
    case 'not-known':
      return 1 / parameters.reasonRatio;
    case 'not-recalled':
    case 'two-left':
    case undefined:
      return 1;
  }
}
