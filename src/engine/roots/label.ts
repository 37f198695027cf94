/**
 * How likely what the candidate wrote is under each possible source of a miss.
 *
 * Label noise after A. P. Dawid & A. M. Skene (1979), Applied Statistics 28:20-28: a named
 * concept is the true source, or the item's own topic, or anything.
 */
import type { MissReason } from '../../model/log';
import type { TraceParameters } from './parameters';

/** Likelihood of a label for a source that was not named, was named, and for a slip. */
export interface LabelLikelihood {
  readonly unnamed: number;
  readonly named: number;
  readonly slip: number;
}

/**
 * The likelihoods of one miss's named causes and reason. Of several causes each is taken
 * as equally likely to be the one that is meant, so naming many says less about each.
 *
 * @param causeCount distinct causes named
 * @param topicCauseCount how many of them are topics of the item
 *
 * @example
 * // one cause, not a topic: acc 0.4, lazy 0.35, bg 0.1
 * labelLikelihood(defaultParameters, 1, 0, undefined); // unnamed 0.025, named 0.425, slip 0.025
 */
export function labelLikelihood(
  parameters: TraceParameters,
  causeCount: number,
  topicCauseCount: number,
  reason: MissReason | undefined,
): LabelLikelihood {
  const slipRatio = reasonSlipRatio(parameters, reason);
  if (causeCount === 0) return { unnamed: 1, named: 1, slip: slipRatio };
  const { labelTrue, labelTopic, labelAny } = parameters;
  const unnamed =
    (labelTopic * topicCauseCount) / causeCount + (1 - labelTrue - labelTopic) * labelAny;
  return { unnamed, named: unnamed + labelTrue / causeCount, slip: unnamed * slipRatio };
}

/** Likelihood of the reason under a slip over that under any concept. */
function reasonSlipRatio(parameters: TraceParameters, reason: MissReason | undefined): number {
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
