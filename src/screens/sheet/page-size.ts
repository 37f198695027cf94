/** Papers and letters of the printed sheet. */

import { texts } from './texts';

export const papers = {
  a4: { name: 'A4', widthMm: 210, heightMm: 297 },
  letter: { name: texts.pageSize.letter, widthMm: 215.9, heightMm: 279.4 },
} as const;
export type Paper = keyof typeof papers;

/** Blank rim on every side. */
export const marginMm = 12;

/** Smaller print cannot be read at a desk, nor written: common practice, no source. */
export const smallestPt = 9;
export const largestPt = 12;
/** Large print begins at 16 points: common practice of societies for the blind, no source. */
export const largePrintPt = 18;

/** CSS pixels in a millimetre. */
export const pxPerMm = 96 / 25.4;

/**
 * The largest size, in half points from largest to smallest, at which the page fits; undefined
 * when not even the smallest does.
 *
 * @param fits whether the page fits at a size, in points
 */
export function findFittingSize(
  fits: (sizePt: number) => boolean,
  largest = largestPt,
  smallest = smallestPt,
): number | undefined {
  for (let sizePt = largest; sizePt >= smallest; sizePt -= 0.5) if (fits(sizePt)) return sizePt;
  return undefined;
}
