import { describe, expect, it } from 'vitest';
import {
  drawBelow,
  drawBeta,
  shuffledIndices,
  uniformStream,
  weightedDraw,
} from '../../../../bench/roots/generator/random';

describe('the random streams', () => {
  it('repeat for the same seed and purpose, and differ for another', () => {
    const first = (seed: number, purpose: string) => {
      const uniform = uniformStream(seed, purpose);
      return [uniform(), uniform(), uniform()];
    };
    expect(first(3, 'gaps')).toEqual(first(3, 'gaps'));
    expect(first(3, 'gaps')).not.toEqual(first(3, 'mix'));
    expect(first(3, 'gaps')).not.toEqual(first(4, 'gaps'));
  });

  it('spread evenly over [0, 1) and do not follow one another', () => {
    const uniform = uniformStream(1, 'even');
    const draws = Array.from({ length: 20_000 }, uniform);
    const bins = Array<number>(20).fill(0);
    for (const draw of draws) bins[Math.floor(draw * 20)]!++;
    // Chi-square with 19 degrees of freedom: 43.8 is passed once in a thousand.
    const chiSquare = bins.reduce((sum, count) => sum + (count - 1_000) ** 2 / 1_000, 0);
    expect(chiSquare).toBeLessThan(43.8);
    const products = draws.slice(1).map((draw, index) => (draw - 0.5) * (draws[index]! - 0.5));
    const mean = products.reduce((a, b) => a + b, 0) / products.length;
    // Standard error of the mean product: (1/12) / sqrt(20,000) = .0006.
    expect(Math.abs(mean)).toBeLessThan(0.0024);
  });

  it('do not agree between neighbouring seeds', () => {
    const starts = Array.from({ length: 200 }, (_, seed) => uniformStream(seed, 'map')());
    expect(new Set(starts).size).toBe(200);
    const mean = starts.reduce((a, b) => a + b, 0) / 200;
    // Standard error sqrt(1/12/200) = .02.
    expect(Math.abs(mean - 0.5)).toBeLessThan(0.08);
  });
});

describe('draws', () => {
  it('shuffle without losing or doubling any, each order as likely', () => {
    const uniform = uniformStream(2, 'shuffle');
    const counts = new Map<string, number>();
    for (let draw = 0; draw < 6_000; draw++) {
      const order = shuffledIndices(uniform, 3);
      expect(order.toSorted((a, b) => a - b)).toEqual([0, 1, 2]);
      counts.set(order.join(''), (counts.get(order.join('')) ?? 0) + 1);
    }
    expect(counts.size).toBe(6);
    // Binomial(6,000, 1/6): standard deviation 29.
    for (const count of counts.values()) expect(Math.abs(count - 1_000)).toBeLessThan(120);
  });

  it('follow weights, and never take what weighs nothing', () => {
    const uniform = uniformStream(4, 'weights');
    const draw = weightedDraw([0, 3, 0, 1, 0]);
    const counts = Array<number>(5).fill(0);
    for (let n = 0; n < 8_000; n++) counts[draw(uniform)]!++;
    expect(counts.filter((_, index) => index % 2 === 0)).toEqual([0, 0, 0]);
    // Binomial(8,000, 3/4): standard deviation 39.
    expect(Math.abs(counts[1]! - 6_000)).toBeLessThan(160);
    expect(() => weightedDraw([0, 0])).toThrow(RangeError);
  });

  it('of a Beta have its mean and variance', () => {
    const uniform = uniformStream(6, 'beta');
    const draws = Array.from({ length: 8_000 }, () => drawBeta(uniform, 2, 5));
    const mean = draws.reduce((a, b) => a + b, 0) / draws.length;
    const variance = draws.reduce((sum, draw) => sum + (draw - mean) ** 2, 0) / draws.length;
    // Beta(2, 5): mean 2/7, variance 10 / (49 * 8) = .0255; standard errors .0018 and .0004.
    expect(Math.abs(mean - 2 / 7)).toBeLessThan(0.007);
    expect(Math.abs(variance - 10 / 392)).toBeLessThan(0.002);
  });

  it('below a count reach every number and never the count', () => {
    const uniform = uniformStream(8, 'below');
    const seen = new Set(Array.from({ length: 300 }, () => drawBelow(uniform, 4)));
    expect([...seen].toSorted((a, b) => a - b)).toEqual([0, 1, 2, 3]);
  });
});
