/**
 * How reliable the candidate's labels are, learned from the log.
 *
 * Given the source of each miss the manner in which its label was written (label.ts) is drawn, and
 * given the manners the shares: Dirichlet, the prior being worth some twenty labels of a concept and
 * a dozen of slips, so that a small log stays near the method's own shares.
 */
import { drawGamma } from '../numeric/sampling';
import type { Random } from '../numeric/random';
import type { MissRows } from './compiled';
import { defaultLabelShares, type LabelShares } from './label';
import type { TraceParameters } from './parameters';

/** Weight of the prior, in labels. */
const labelWeight = 20;
const slipWeight = 12;

const manners = ['true', 'topic', 'near', 'stray'] as const;
const slipManners = ['slipTopic', 'slipNear', 'slipStray'] as const;

/** Labels by manner. */
export type LabelCounts = Readonly<LabelShares>;

const none: LabelCounts = {
  true: 0,
  topic: 0,
  near: 0,
  stray: 0,
  slipTopic: 0,
  slipNear: 0,
  slipStray: 0,
};

/** Draws the shares given how many labels were written in each manner; given none, from their prior. */
export function drawLabelShares(
  random: Random,
  parameters: TraceParameters,
  into: LabelShares,
  counts: LabelCounts = none,
): void {
  const prior = defaultLabelShares(parameters);
  const groups = [
    { keys: manners, weight: labelWeight },
    { keys: slipManners, weight: slipWeight },
  ];
  for (const { keys, weight } of groups) {
    let total = 0;
    for (const key of keys) {
      into[key] = drawGamma(random, weight * prior[key] + counts[key]);
      total += into[key];
    }
    for (const key of keys) into[key] /= total;
  }
}

/**
 * Draws the manner of each label given its source.
 *
 * @param labelled rows of one miss each that carry a label
 * @param firstEntry shape (rows,): entry of the source, -1 for a slip
 */
export function drawLabelManners(
  random: Random,
  rows: MissRows,
  labelled: Int32Array,
  firstEntry: Int32Array,
  shares: LabelShares,
): LabelCounts {
  const { named, causeCount, labelTopic, labelNear, labelStray } = rows;
  const seen = new Int32Array(7);
  const byTopic = shares.topic;
  const byNear = shares.near;
  const byStray = shares.stray;
  const { slipTopic, slipNear, slipStray } = shares;
  for (let k = 0; k < labelled.length; k++) {
    const r = labelled[k]!;
    const e = firstEntry[r]!;
    const slip = e < 0;
    const ofTrue = slip || named[e] === 0 ? 0 : shares.true / causeCount[r]!;
    const ofTopic = (slip ? slipTopic : byTopic) * labelTopic[r]!;
    const ofNear = (slip ? slipNear : byNear) * labelNear[r]!;
    const ofStray = (slip ? slipStray : byStray) * labelStray[r]!;
    const u = random.coarse() * (ofTrue + ofTopic + ofNear + ofStray);
    const first = slip ? 3 : 0;
    if (u < ofTrue) seen[0]! += 1;
    else if (u < ofTrue + ofTopic) seen[first + 1]! += 1;
    else if (u < ofTrue + ofTopic + ofNear) seen[first + 2]! += 1;
    else seen[first + 3]! += 1;
  }
  return {
    true: seen[0]!,
    topic: seen[1]!,
    near: seen[2]!,
    stray: seen[3]!,
    slipTopic: seen[4]!,
    slipNear: seen[5]!,
    slipStray: seen[6]!,
  };
}
