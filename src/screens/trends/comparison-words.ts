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
import { texts } from './texts';

interface Names {
  readonly title: string;
  readonly one: string;
  readonly other: string;
  /** What else may lie behind a difference. */
  readonly beware: string;
}

export const comparisonNames: Readonly<Record<ComparisonId, Names>> = {
  timed: {
    title: texts.comparisonWords.timedAgainstUntimed,
    one: texts.comparisonWords.timedBlocks,
    other: texts.comparisonWords.untimedBlocks,
    beware: texts.comparisonWords.peopleGoOverToTimed,
  },
  mixed: {
    title: texts.comparisonWords.mixedAgainstOneSystem,
    one: texts.comparisonWords.mixedBlocks,
    other: texts.comparisonWords.blocksOnOneSystem,
    beware: texts.comparisonWords.blocksOnOneSystemTell,
  },
  minutes: {
    title: texts.comparisonWords.minutesGiven,
    one: texts.comparisonWords.blocksAtThePapersPace,
    other: texts.comparisonWords.blocksWithMoreTime,
    beware: texts.comparisonWords.blocksWithMoreTimeMay,
  },
  hour: {
    title: texts.comparisonWords.hourOfDay,
    one: texts.comparisonWords.blocksBegunBeforeNoon,
    other: texts.comparisonWords.blocksBegunLater,
    beware: texts.comparisonWords.workingDaysAndFreeDays,
  },
  sleep: {
    title: texts.comparisonWords.sleepOfTheNightBefore,
    one: texts.comparisonWords.blocksAfterHoursOrMore(sleepEnough),
    other: texts.comparisonWords.blocksAfterLessThanHours(sleepEnough),
    beware: texts.comparisonWords.aShortNightHasReasons,
  },
  review: {
    title: texts.comparisonWords.reviewOfTheBlockBefore,
    one: texts.comparisonWords.blocksAfterHoursOfReview(reviewEnough),
    other: texts.comparisonWords.blocksAfterLessReview,
    beware: texts.comparisonWords.longReviewsFollowBlocks,
  },
  'last-fifth': {
    title: texts.comparisonWords.theEndOfTheBlock,
    one: texts.comparisonWords.theLastFifthOfTimed,
    other: texts.comparisonWords.theRestOfThem,
    beware: texts.comparisonWords.theLastItems,
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
  if (chance >= 0.3) return texts.comparisonWords.luckAloneWouldOftenMake;
  if (chance >= 0.095) return texts.comparisonWords.luckAloneWouldMake(Math.round(1 / chance));
  if (chance >= 0.001) return texts.comparisonWords.luckAloneWouldMakeSo(Math.round(1 / chance));
  return texts.comparisonWords.luckAloneWouldMakeSoLarge;
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
  const more = texts.comparisonWords.notEnoughYet(
    plural(moreChanges, texts.comparisonWords.moreChange),
    moreBlocks === undefined
      ? ''
      : texts.comparisonWords.someAtYourRate(plural(moreBlocks, texts.comparisonWords.moreBlock)),
  );
  if (!found || adjusted === undefined)
    return [
      texts.comparisonWords.soFarInBlocks(plural(changes, texts.comparisonWords.change)),
      more,
      texts.comparisonWords.theBlocksHeader,
    ];
  const [low, high] = found.interval;
  const counted = texts.comparisonWords.changedFromWrongToRight(
    found.toRight,
    found.fromRight,
    shareText(found.share),
    shareText(low),
    shareText(high),
  );
  const luck = luckText(adjusted);
  if (standing === 'differs') return [counted, texts.comparisonWords.withAllComparisons(luck)];
  if (standing === 'close') return [counted, texts.comparisonWords.thereAreChangesEnough(luck)];
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
      ? texts.comparisonWords.noNumberOfBlocks
      : texts.comparisonWords.notEnoughYetAbout(
          plural(moreBlocks, texts.comparisonWords.moreBlock),
          differenceThatMatters * 100,
        );
  if (!found || adjusted === undefined) {
    const lacking = texts.comparisonWords.soFarOfEach(
      one.blocks,
      names.one,
      other.blocks,
      names.other,
    );
    return [lacking, more];
  }
  const counted = texts.comparisonWords.rightInInPoints95(
    shareText(one.share),
    names.one,
    one.blocks,
    shareText(other.share),
    names.other,
    other.blocks,
    pointsText(found.difference),
    pointsText(found.interval[0]),
    pointsText(found.interval[1]),
  );
  const sentences = [counted];
  if (standing === 'differs') {
    sentences.push(texts.comparisonWords.withAllComparisonsOn(luckText(adjusted), names.beware));
  } else if (standing === 'close') {
    sentences.push(
      texts.comparisonWords.thereAreBlocksEnough(luckText(adjusted), differenceThatMatters * 100),
    );
  } else {
    sentences.push(`${luckText(adjusted)}. ${more}`);
  }
  if (Math.min(one.blocks, other.blocks) < smallGroup)
    sentences.push(
      texts.comparisonWords.oneSideRests(
        plural(Math.min(one.blocks, other.blocks), texts.comparisonWords.block),
      ),
    );
  return sentences;
}
