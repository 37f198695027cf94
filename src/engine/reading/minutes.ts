/** How long a reading takes, from its pages or words, at the general or the candidate's own pace. */

/** Silent reading of English non-fiction by adults, words a minute (M. Brysbaert, 2019, J. Memory and Language 109:104047). */
export const generalWordsAMinute = 238;

/** Words on a page of a printed text (common practice, no source). */
export const wordsOnAPage = 400;

/** Own minutes before they outweigh the general pace; fewer say little. */
const leastMeasuredMinutes = 30;

export interface ReadingLength {
  /** 0 or undefined: not given. */
  readonly minutes?: number;
  readonly pages?: number;
  readonly words?: number;
}

/** The pace at which readings are reckoned. */
export interface ReadingPace {
  readonly wordsAMinute: number;
  readonly minutesAPage: number;
  /** Whether each is the candidate's own, measured pace. */
  readonly ownWords: boolean;
  readonly ownPages: boolean;
}

export const generalPace: ReadingPace = {
  wordsAMinute: generalWordsAMinute,
  minutesAPage: wordsOnAPage / generalWordsAMinute,
  ownWords: false,
  ownPages: false,
};

/**
 * The candidate's pace from readings that were timed; the general one until half an hour of the kind
 * (pages, words) was.
 *
 * @param timed readings read whole, with the minutes they took; those without a length count for nothing
 */
export function measurePace(
  timed: readonly (ReadingLength & { readonly tookMinutes: number })[],
): ReadingPace {
  let [words, wordMinutes, pages, pageMinutes] = [0, 0, 0, 0];
  for (const reading of timed) {
    if (!(reading.tookMinutes > 0)) continue;
    if (reading.words) {
      words += reading.words;
      wordMinutes += reading.tookMinutes;
    } else if (reading.pages) {
      pages += reading.pages;
      pageMinutes += reading.tookMinutes;
    }
  }
  const ownWords = wordMinutes >= leastMeasuredMinutes;
  const ownPages = pageMinutes >= leastMeasuredMinutes;
  const wordsAMinute = ownWords ? words / wordMinutes : generalWordsAMinute;
  return {
    wordsAMinute,
    minutesAPage: ownPages ? pageMinutes / pages : wordsOnAPage / wordsAMinute,
    ownWords,
    ownPages,
  };
}

/**
 * Minutes a reading takes: as given, else by its words, else by its pages; undefined where none is known.
 *
 * @example
 * readingMinutes({ words: 1_000 }); // 4.2017: 1,000 words at 238 a minute
 */
export function readingMinutes(
  length: ReadingLength,
  pace: ReadingPace = generalPace,
): number | undefined {
  if (length.minutes) return length.minutes;
  if (length.words) return length.words / pace.wordsAMinute;
  if (length.pages) return length.pages * pace.minutesAPage;
  return undefined;
}
