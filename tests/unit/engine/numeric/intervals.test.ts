import { describe, expect, test } from 'vitest';
import { hillNumber } from '../../../../src/engine/numeric/hill';
import { wilsonInterval } from '../../../../src/engine/numeric/wilson';

describe('wilsonInterval', () => {
  // First four: R. G. Newcombe (1998), Statistics in Medicine 17:857-872, table I, with
  // further digits recomputed (R's prop.test agrees); the others recomputed the same way.
  test.each([
    [81, 263, 0.2552885199, 0.366209577],
    [15, 148, 0.0623863995, 0.1604872417],
    [0, 20, 0, 0.1611251581],
    [1, 29, 0.0061132143, 0.1717552188],
    [29, 29, 0.8830302015, 1],
    [20, 20, 0.8388748419, 1],
    [4, 19, 0.0850767663, 0.4333427844],
    [23, 60, 0.2708827237, 0.5098240418],
    [5, 10, 0.2365930905, 0.7634069095],
    [1, 1, 0.2065493144, 1],
    [0, 1, 0, 0.7934506856],
  ])('of %d in %d is as published', (successes, trials, low, high) => {
    const interval = wilsonInterval(successes, trials);
    expect(interval[0]).toBeCloseTo(low, 9);
    expect(interval[1]).toBeCloseTo(high, 9);
  });

  test('turns over when successes and failures change places', () => {
    const [low, high] = wilsonInterval(7, 31, 0.9);
    const turned = wilsonInterval(24, 31, 0.9);
    expect(low).toBeCloseTo(1 - turned[1], 14);
    expect(high).toBeCloseTo(1 - turned[0], 14);
  });

  test('says nothing where nothing was tried, and refuses what cannot be', () => {
    expect(wilsonInterval(0, 0)).toEqual([0, 1]);
    expect(() => wilsonInterval(3, 2)).toThrow('3 successes in 2 trials');
    expect(() => wilsonInterval(-1, 2)).toThrow('successes = -1');
    expect(() => wilsonInterval(NaN, 2)).toThrow(RangeError);
  });
});

const girdled = [46, 22, 17, 15, 15, 9, 8, 6, 6, 4, 2, 2, 2, 2, ...new Array<number>(12).fill(1)];
const logged = [
  ...[88, 22, 16, 15, 13, 10, 8, 8, 7, 7, 7, 5, 4, 4, 4, 3, 3, 3, 3, 2, 2, 2, 2],
  ...new Array<number>(14).fill(1),
];

describe('hillNumber', () => {
  // Orders 0, 1/2, 1, 2, 3 and Infinity. The spider counts are of Ellison et al. (2010), as in
  // Chao et al. (2014), Ecological Monographs 84:45-67 (26, 12.06 and 7.84 printed there).
  test.each([
    ['eight alike', new Array<number>(8).fill(3), [8, 8, 8, 8, 8, 8]],
    ['50, 30, 20', [50, 30, 20], [3, 2.89695015, 2.80009407, 2.63157895, 2.5, 2]],
    ['90, 10', [90, 10], [2, 1.6, 1.38414549, 1.2195122, 1.17041147, 1.11111111]],
    ['8, 4, 2, 1, 1', [8, 4, 2, 1, 1], [5, 4.24632034, 3.66801617, 2.97674419, 2.64381563, 2]],
    ['girdled', girdled, [26, 17.18149736, 12.0596505, 7.84, 6.24891334, 3.65217391]],
    ['logged', logged, [37, 23.60563237, 14.42100151, 6.76149915, 4.76332457, 2.86363636]],
  ])('of %s is as published at every order', (_name, abundances, expected) => {
    [0, 0.5, 1, 2, 3, Infinity].forEach((order, i) => {
      expect(hillNumber(abundances, order)).toBeCloseTo(expected[i]!, 7);
    });
  });

  test('is continuous at order 1, drops zeros and doubles with the community', () => {
    const one = hillNumber([5, 3, 1], 1);
    expect(hillNumber([5, 3, 1], 1 - 1e-6)).toBeCloseTo(one, 5);
    expect(hillNumber([5, 3, 1], 1 + 1e-6)).toBeCloseTo(one, 5);
    expect(hillNumber([5, 0, 3, 0, 1], 1)).toBeCloseTo(one, 14);
    expect(hillNumber([5, 3, 1, 5, 3, 1], 1)).toBeCloseTo(2 * one, 12);
  });

  test('is 0 for nothing and names the entry that is wrong', () => {
    expect(hillNumber([], 1)).toBe(0);
    expect(hillNumber([0, 0], 2)).toBe(0);
    expect(() => hillNumber([1, -2], 1)).toThrow('abundances[1] = -2');
  });
});
