/**
 * How long a line takes to write by hand.
 *
 * A word is five characters with its space (the convention of text entry). Where nothing was
 * measured: 22 words a minute copying to 31 from memory, C. M. Brown (1988), "Human-Computer
 * Interface Design Guidelines", as quoted by others.
 */
import { requireNonNegative, requirePositive } from '../numeric/check';

/** Between copying (22) and writing from memory (31): a sheet is recalled, and not all of it is prose. */
export const startingWordsPerMinute = 26;
export const charactersPerWord = 5;
/** Rehearsals that tell today's speed; older ones are another hand. */
const latestCounted = 5;

/**
 * Characters that have to be put on paper: of TeX one for each command and none for braces or
 * dollar signs; runs of blanks count as one; row ends count as the move of the hand, one.
 *
 * @example
 * writtenCharacters('$\\frac{a}{b}$'); // 3: the bar, a and b
 */
export function writtenCharacters(text: string): number {
  const hand = text
    .trim()
    // Dollar signs, \( and \[ frame TeX: only between them is a backslash a command.
    .replace(/\$\$?([^$]+)\$\$?|\\\(([\s\S]+?)\\\)|\\\[([\s\S]+?)\\\]/g, (_whole, a, b, c) =>
      handOfTeX(String(a ?? b ?? c)),
    )
    // Rules of a table stand for strokes, not for every dash.
    .replace(/[-=_]{3,}/g, '-')
    .replace(/\s+/g, ' ');
  return Array.from(hand).length;
}

function handOfTeX(source: string): string {
  return source
    .replace(/\\(?:text|mathrm|operatorname|mathbf|mathit)\s*\{([^{}]*)\}/g, '$1')
    .replace(/\\(?:left|right|displaystyle|quad|qquad|,|;|!|:)\s*/g, '')
    .replace(/\\[a-zA-Z]+\s*/g, '*')
    .replace(/[{}^_&]/g, '')
    .replace(/\s+/g, '');
}

/**
 * Seconds to write a text by hand.
 *
 * @param wordsPerMinute above 0
 * @throws {RangeError} for a speed of 0, below, or NaN
 *
 * @example
 * writingSeconds('x'.repeat(130), 26); // 60
 */
export function writingSeconds(text: string, wordsPerMinute: number): number {
  requirePositive('writingSeconds', 'wordsPerMinute', wordsPerMinute);
  return (writtenCharacters(text) / charactersPerWord / wordsPerMinute) * 60;
}

/** One writing of the sheet: what was put down, in characters, and how long it took. */
export interface TimedWriting {
  readonly at: number;
  readonly manner: 'typed' | 'paper';
  readonly characters: number;
  readonly seconds: number;
}

/**
 * Words a minute over the latest five rehearsals on paper: all words over all minutes. Undefined
 * without any: typing says nothing about the hand.
 *
 * @example
 * measuredSpeed([{ at: 1, manner: 'paper', characters: 500, seconds: 300 }]); // 20
 */
export function measuredSpeed(writings: readonly TimedWriting[]): number | undefined {
  let characters = 0;
  let seconds = 0;
  const byHand = writings
    .filter(({ manner }) => manner === 'paper')
    .sort((a, b) => b.at - a.at)
    .slice(0, latestCounted);
  byHand.forEach((writing, i) => {
    requireNonNegative('measuredSpeed', `writings[${i}].characters`, writing.characters);
    requireNonNegative('measuredSpeed', `writings[${i}].seconds`, writing.seconds);
    characters += writing.characters;
    seconds += writing.seconds;
  });
  if (seconds === 0 || characters === 0) return undefined;
  return characters / charactersPerWord / (seconds / 60);
}
