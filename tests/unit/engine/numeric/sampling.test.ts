import { describe, expect, test } from 'vitest';
import { convergenceOf } from '../../../../src/engine/numeric/convergence';
import { incompleteBeta } from '../../../../src/engine/numeric/incomplete-beta';
import { lowerGamma } from '../../../../src/engine/numeric/incomplete-gamma';
import { normalCdf } from '../../../../src/engine/numeric/normal';
import { randomFrom, type Random } from '../../../../src/engine/numeric/random';
import {
  drawBeta,
  drawGamma,
  drawNormal,
  drawPoisson,
  drawZeroTruncatedPoisson,
} from '../../../../src/engine/numeric/sampling';

/** 99.9 % points of chi-square (from memory: 43.82 for 19 degrees of freedom, 27.88 for 9). */
const limit = { 9: 27.88, 19: 43.82 } as const;

/** Chi-square of 20 equal bins of the distribution function's values. */
function evenness(
  draw: (random: Random) => number,
  cdf: (x: number) => number,
  seed: number,
): number {
  const random = randomFrom(seed);
  const n = 40_000;
  const bins = new Array<number>(20).fill(0);
  for (let i = 0; i < n; i++) bins[Math.min(19, Math.floor(20 * cdf(draw(random))))]! += 1;
  return bins.reduce((sum, count) => sum + (count - n / 20) ** 2 / (n / 20), 0);
}

describe('draws follow their distribution functions', () => {
  test('normal', () => {
    expect(evenness(drawNormal, normalCdf, 51)).toBeLessThan(limit[19]);
  });
  test.each([0.3, 1, 2, 7.5, 140])('gamma of shape %d', (shape) => {
    const chiSquare = evenness(
      (random) => drawGamma(random, shape),
      (x) => lowerGamma(shape, x),
      52,
    );
    expect(chiSquare).toBeLessThan(limit[19]);
  });
  test('a gamma of another shape would be noticed', () => {
    const chiSquare = evenness(
      (random) => drawGamma(random, 2.1),
      (x) => lowerGamma(2, x),
      52,
    );
    expect(chiSquare).toBeGreaterThan(limit[19]);
  });
  test('beta', () => {
    const chiSquare = evenness(
      (random) => drawBeta(random, 2, 20),
      (x) => incompleteBeta(x, 2, 20),
      53,
    );
    expect(chiSquare).toBeLessThan(limit[19]);
  });
});

/** Chi-square of counts 0..8 and above against Poisson chances, from `least` up. */
function countFit(draw: (random: Random) => number, rate: number, least: number): number {
  const random = randomFrom(54);
  const n = 40_000;
  const chances: number[] = [];
  let chance = Math.exp(-rate);
  for (let k = 0; k < 9; k++) {
    chances.push(k < least ? 0 : chance / (least === 1 ? 1 - Math.exp(-rate) : 1));
    chance *= rate / (k + 1);
  }
  chances.push(1 - chances.reduce((sum, each) => sum + each, 0));
  const counts = new Array<number>(10).fill(0);
  for (let i = 0; i < n; i++) counts[Math.min(9, draw(random))]! += 1;
  let chiSquare = 0;
  counts.forEach((count, k) => {
    if (chances[k]! * n < 5) {
      // Bins too thin for chi-square must at least be all but empty.
      expect(count).toBeLessThan(25);
      return;
    }
    chiSquare += (count - n * chances[k]!) ** 2 / (n * chances[k]!);
  });
  return chiSquare;
}

describe('counts', () => {
  test.each([0.05, 0.7, 3.2])('Poisson at rate %d', (rate) => {
    expect(countFit((random) => drawPoisson(random, rate), rate, 0)).toBeLessThan(limit[9]);
  });
  test.each([0.05, 0.7, 1.9, 3.2])('zero-truncated Poisson at rate %d', (rate) => {
    expect(countFit((random) => drawZeroTruncatedPoisson(random, rate), rate, 1)).toBeLessThan(
      limit[9],
    );
  });
  test('large rates have the right mean and spread', () => {
    const random = randomFrom(55);
    const n = 4_000;
    for (const draw of [drawPoisson, drawZeroTruncatedPoisson]) {
      let sum = 0;
      let square = 0;
      for (let i = 0; i < n; i++) {
        const count = draw(random, 250);
        sum += count;
        square += count * count;
      }
      const mean = sum / n;
      // Four standard errors: sqrt(250 / 4000) and, of the variance, 250 * sqrt(2 / 4000).
      expect(Math.abs(mean - 250)).toBeLessThan(1);
      expect(Math.abs(square / n - mean * mean - 250)).toBeLessThan(22.4);
    }
  });
});

describe('convergenceOf', () => {
  test('independent draws are worth about their number, and agree', () => {
    const random = randomFrom(56);
    const chains = Array.from({ length: 4 }, () =>
      Array.from({ length: 500 }, () => drawNormal(random)),
    );
    const { rHat, essBulk, essTail } = convergenceOf(chains);
    expect(rHat).toBeLessThan(1.01);
    expect(essBulk).toBeGreaterThan(1_500);
    expect(essTail).toBeGreaterThan(1_200);
  });
  test('a chain elsewhere, or of another spread, shows', () => {
    const random = randomFrom(57);
    const chains = (change: (k: number, x: number) => number) =>
      Array.from({ length: 4 }, (_, k) =>
        Array.from({ length: 300 }, () => change(k, drawNormal(random))),
      );
    expect(convergenceOf(chains((k, x) => (k === 2 ? x + 2 : x))).rHat).toBeGreaterThan(1.1);
    // Same centre: only the folded form sees it.
    expect(convergenceOf(chains((k, x) => (k === 2 ? 5 * x : x))).rHat).toBeGreaterThan(1.05);
  });
  test('does not change under a rising transformation', () => {
    const random = randomFrom(58);
    const chains = Array.from({ length: 2 }, () =>
      Array.from({ length: 100 }, () => drawNormal(random)),
    );
    const bent = chains.map((chain) => chain.map((x) => Math.exp(3 * x)));
    expect(convergenceOf(bent).essBulk).toBeCloseTo(convergenceOf(chains).essBulk, 8);
  });
  test('has nothing to say of draws that never move', () => {
    expect(
      convergenceOf([
        [3, 3, 3, 3],
        [3, 3, 3, 3],
      ]).rHat,
    ).toBeNaN();
  });
});
