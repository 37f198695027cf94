/** Ranking metrics against published worked examples. */
import { describe, expect, it } from 'vitest';
import {
  averagePrecision,
  discountedGain,
  normalisedGain,
} from '../../bench/roots/metrics/ranking';

/** K. Jarvelin & J. Kekalainen (2002), ACM TOIS 20:422-446, section 2: gains by rank. */
const published = [3, 2, 3, 0, 0, 1, 2, 2, 3, 0];

/** Their discount of base 2: none at rank 1, and rank 2 divides by 1. */
const theirDivisor = (place: number) => Math.max(1, Math.log2(place));

/** Half a unit of the last printed digit. */
const printed = 5e-5;

describe('discounted gain', () => {
  it('is that of Jarvelin & Kekalainen at every rank', () => {
    const expected = [3, 5, 6.8928, 6.8928, 6.8928, 7.2796, 7.9921, 8.6587, 9.6051, 9.6051];
    expected.forEach((value, index) => {
      const found = discountedGain(published, index + 1, theirDivisor);
      expect(Math.abs(found - value), `rank ${index + 1}`).toBeLessThan(printed);
    });
  });

  it('divides by the logarithm of the place and one where nothing else is said', () => {
    // Computed from the same gains by another program (Python).
    expect(discountedGain(published, 10)).toBeCloseTo(8.3187531015, 9);
  });
});

describe('normalised gain', () => {
  it('measures against the best order of the same gains', () => {
    // Row "ideal = same ten sorted" of the same example, recomputed; rank 10 and rank 4.
    expect(Math.abs(normalisedGain(published, 10, theirDivisor) - 0.8825)).toBeLessThan(printed);
    expect(Math.abs(normalisedGain(published, 4, theirDivisor) - 0.7751)).toBeLessThan(printed);
    expect(normalisedGain(published, 10)).toBeCloseTo(0.916808879, 9);
  });

  it('agrees with the six-document example of the encyclopaedia', () => {
    expect(normalisedGain([3, 2, 3, 0, 1, 2], 6)).toBeCloseTo(0.9608081943, 9);
  });

  it('agrees with the example of the scikit-learn documentation', () => {
    // Relevance 10 0 0 1 5 in the order of scores .1 .2 .3 4 70, and of .05 1.1 1 .5 0.
    expect(normalisedGain([5, 1, 0, 0, 10], 5)).toBeCloseTo(0.6956940444, 9);
    expect(normalisedGain([0, 0, 1, 10, 5], 5)).toBeCloseTo(0.4936801914, 9);
  });
});

describe('average precision', () => {
  it('is that of the worked examples of Croft, Metzler & Strohman (2010), chapter 8', () => {
    const atPlaces = (places: readonly number[]) =>
      Array.from({ length: 10 }, (_, index) => places.includes(index + 1));
    expect(averagePrecision(atPlaces([1, 3, 6, 9, 10]))).toBeCloseTo(0.6222222222, 9);
    expect(averagePrecision(atPlaces([2, 5, 7]))).toBeCloseTo(0.4428571429, 9);
  });
});
