/** What each comparison is called and says: what was counted, how much could be luck, never a cause. */
import {
  differenceThatMatters,
  reviewEnough,
  sleepEnough,
  smallGroup,
  type Comparison,
  type ComparisonId,
  type Comparisons,
} from '../../engine';
import { oneDigitText, plural, shareText } from '../../components/locale';

interface Names {
  readonly title: string;
  readonly one: string;
  readonly other: string;
  /** What else may lie behind a difference. */
  readonly beware: string;
}

export const comparisonNames: Readonly<Record<ComparisonId, Names>> = {
  timed: {
    title: 'Timed against untimed',
    one: 'timed blocks',
    other: 'untimed blocks',
    beware: 'People go over to timed blocks as they get better, so weeks may lie behind it.',
  },
  mixed: {
    title: 'Mixed against one system',
    one: 'mixed blocks',
    other: 'blocks on one system',
    beware:
      'Blocks on one system tell you the topic beforehand, which the paper does not. Mixed practice often looks worse today and lasts longer.',
  },
  minutes: {
    title: 'Minutes given',
    one: 'blocks at the paper’s pace or faster',
    other: 'blocks with more time',
    beware: 'Blocks with more time may be the earlier ones.',
  },
  hour: {
    title: 'Hour of day',
    one: 'blocks begun before noon',
    other: 'blocks begun later',
    beware: 'Working days and free days differ in more than the hour.',
  },
  sleep: {
    title: 'Sleep of the night before',
    one: `blocks after ${sleepEnough} hours or more`,
    other: `blocks after less than ${sleepEnough} hours`,
    beware: 'A short night has reasons of its own, and they may tell on a block as well.',
  },
  review: {
    title: 'Review of the block before',
    one: `blocks after ${reviewEnough} hours of review an hour or more`,
    other: 'blocks after less review',
    beware: 'Long reviews follow blocks with many misses.',
  },
  'last-fifth': {
    title: 'The end of the block',
    one: 'the last fifth of timed blocks',
    other: 'the rest of them',
    beware: 'The last items are also those that time runs out on.',
  },
};

/** A difference of shares in points, with its sign: "+3.2". */
export function pointsText(share: number): string {
  const points = oneDigitText(Math.abs(share * 100));
  if (Math.abs(share) < 0.0005) return points;
  return share < 0 ? `−${points}` : `+${points}`;
}

/** How often luck alone would make so large a difference, in words. */
export function luckText(chance: number): string {
  if (chance >= 0.3) return 'Luck alone would often make so large a difference';
  if (chance >= 0.095)
    return `Luck alone would make so large a difference about once in ${Math.round(1 / chance)} times`;
  if (chance >= 0.001)
    return `Luck alone would make so large a difference only about once in ${Math.round(1 / chance)} times`;
  return 'Luck alone would make so large a difference less than once in a thousand times';
}

/** The sentences on changed answers: which way they went, and how much could be luck. */
export function changedSentences({
  standing,
  found,
  adjusted,
  changes,
  moreChanges,
  moreBlocks,
}: Comparisons['changed']): string[] {
  const more = `Not enough yet: about ${plural(moreChanges, 'more change')}${moreBlocks === undefined ? '' : `, some ${plural(moreBlocks, 'more block')} at your rate,`} to see two helpful ones in three.`;
  if (!found || adjusted === undefined)
    return [
      `So far ${plural(changes, 'change')} in blocks that say how many answers were changed to right.`,
      more,
      'The block’s header in the Log asks for the number; changes from right are the misses with that reason.',
    ];
  const [low, high] = found.interval;
  const counted = `${found.toRight} changed from wrong to right, ${found.fromRight} from right to wrong: ${shareText(found.share)} helped, 95% interval ${shareText(low)} to ${shareText(high)}.`;
  const luck = luckText(adjusted);
  if (standing === 'differs')
    return [
      counted,
      `${luck}, with all comparisons on this page allowed for. The log cannot say whether the next change will help.`,
    ];
  if (standing === 'close')
    return [
      counted,
      `${luck}. There are changes enough that two helpful ones in three would probably have shown.`,
    ];
  return [counted, `${luck}. ${more}`];
}

/** The sentences on one comparison. */
export function comparisonSentences({
  id,
  standing,
  one,
  other,
  found,
  adjusted,
  moreBlocks,
}: Comparison): string[] {
  const names = comparisonNames[id];
  const more =
    moreBlocks === undefined
      ? 'No number of blocks you are likely to do would settle it.'
      : `Not enough yet: about ${plural(moreBlocks, 'more block')} to see a difference of ${differenceThatMatters * 100} points.`;
  if (!found || adjusted === undefined) {
    const lacking = `So far ${one.blocks} ${names.one} and ${other.blocks} ${names.other}.`;
    return [lacking, more];
  }
  const counted = `${shareText(one.share)} right in ${names.one} (${one.blocks}), ${shareText(other.share)} in ${names.other} (${other.blocks}): ${pointsText(found.difference)} points, 95% interval ${pointsText(found.interval[0])} to ${pointsText(found.interval[1])}.`;
  const sentences = [counted];
  if (standing === 'differs') {
    sentences.push(
      `${luckText(adjusted)}, with all comparisons on this page allowed for. The log cannot say why. ${names.beware}`,
    );
  } else if (standing === 'close') {
    sentences.push(
      `${luckText(adjusted)}. There are blocks enough that a difference of ${differenceThatMatters * 100} points would probably have shown.`,
    );
  } else {
    sentences.push(`${luckText(adjusted)}. ${more}`);
  }
  if (Math.min(one.blocks, other.blocks) < smallGroup)
    sentences.push(
      `One side rests on ${plural(Math.min(one.blocks, other.blocks), 'block')} only: take it lightly.`,
    );
  return sentences;
}
