/** What a block's records say together: counts, what is still to do, contradictions. */
import { plural } from '../../components/locale';
import { isReviewed, type Block, type Item } from '../../model/log';
import { countedRight } from './exposure';
import { rangesText } from './item-ranges';
import { texts } from './texts';

/** More item numbers than these say no more in a sentence. */
const mostRanges = 12;

export interface BlockFacts {
  readonly missed: number;
  /** Misses by the block's own total, where it states one, else those marked. */
  readonly missedStated: number;
  readonly reviewed: number;
  readonly contradictions: readonly string[];
}

/** What is known of a block's kind: "mixed, timed"; empty where nothing is. */
export function kindText(block: Block, systemName: string | undefined): string {
  const system = block.mixed
    ? texts.blockFacts.mixed
    : (systemName ?? (block.mixed === false && texts.blockFacts.oneSystem));
  const timed =
    block.timed === undefined
      ? false
      : block.timed
        ? texts.blockFacts.timed
        : texts.blockFacts.notTimed;
  return [system, timed].filter((part) => part !== false).join(', ');
}

/** A block of which nothing was written down yet: nobody can say how it went. */
export function isUntouched(block: Block, items: readonly Item[]): boolean {
  return (
    items.length === 0 &&
    block.missedCount === undefined &&
    block.minutesUsed === undefined &&
    block.rightBySystem === undefined
  );
}

/**
 * The facts of one block.
 *
 * Contradictions are said, never mended unseen: which side is wrong only the
 * candidate knows.
 */
export function blockFacts(block: Block, items: readonly Item[]): BlockFacts {
  const misses = items.filter((item) => item.outcome === 'missed');
  const beyond = items.filter((item) => item.position > block.itemCount);
  const contradictions: string[] = [];
  if (beyond.length > 0) {
    const numbers = beyond.map((item) => item.position).sort((a, b) => a - b);
    contradictions.push(
      texts.blockFacts.theBlockSaysItems(
        block.itemCount,
        plural(beyond.length, texts.blockFacts.item),
        beyond.length === 1 ? texts.blockFacts.is : texts.blockFacts.are,
        rangesText(numbers, mostRanges),
      ),
    );
  }
  if (block.missedCount !== undefined && block.missedCount < misses.length) {
    contradictions.push(texts.blockFacts.theBlockSaysMissed(block.missedCount, misses.length));
  }
  if (block.missedCount !== undefined && block.missedCount > block.itemCount) {
    contradictions.push(texts.blockFacts.theBlockSaysMissedOf(block.missedCount, block.itemCount));
  }
  const unwritten = Math.max(0, block.itemCount - items.length);
  if (countedRight(block) > unwritten) {
    contradictions.push(
      texts.blockFacts.theCountsByOrganSystem(
        plural(countedRight(block), texts.blockFacts.rightItem),
        unwritten,
      ),
    );
  }
  const { minutesGiven: given, minutesUsed: used } = block;
  if (block.timed && given !== undefined && used !== undefined && used > given) {
    contradictions.push(
      texts.blockFacts.theBlockWasTimed(plural(given, texts.blockFacts.minute), used),
    );
  }
  if (block.mixed === false && block.system === undefined) {
    contradictions.push(texts.blockFacts.theBlockIsMarked);
  }
  return {
    missed: misses.length,
    missedStated: block.missedCount ?? misses.length,
    reviewed: misses.filter(isReviewed).length,
    contradictions,
  };
}
