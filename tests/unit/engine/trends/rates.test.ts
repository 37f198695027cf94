import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { randomFrom } from '../../../../src/engine/numeric/random';
import { drawBeta } from '../../../../src/engine/numeric/sampling';
import { adjustedChances } from '../../../../src/engine/trends/benjamini-hochberg';
import { changedAnswers, changesToFind } from '../../../../src/engine/trends/changed-answers';
import {
  compareRates,
  moreBlocksFor,
  newcombeDifference,
} from '../../../../src/engine/trends/compare-rates';
import { fitBetaBinomial } from '../../../../src/engine/trends/beta-binomial';
import { incompleteBeta } from '../../../../src/engine/numeric/incomplete-beta';
import { shrinkRates } from '../../../../src/engine/trends/shrink';
import { tWithin, twoSidedChance } from '../../../../src/engine/trends/student';

describe('adjustedChances', () => {
  it('reproduces the worked example of Benjamini & Hochberg 1995', () => {
    // Fifteen comparisons of Neuhaus et al. 1992 as printed there; adjusted values as R's p.adjust gives them.
    const p = [
      0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719,
      0.6528, 0.759, 1,
    ];
    const adjusted = [
      0.0015, 0.003, 0.0095, 0.035625, 0.0603, 0.0638571428571, 0.0638571428571, 0.0645, 0.0765,
      0.486, 0.581181818182, 0.714875, 0.753230769231, 0.813214285714, 1,
    ];
    adjustedChances(p).forEach((value, i) => expect(value).toBeCloseTo(adjusted[i]!, 9));
    expect(adjustedChances(p).filter((value) => value <= 0.05)).toHaveLength(4);
  });

  it('steps up: the first is rescued by the second', () => {
    expect(adjustedChances([0.04, 0.03])).toEqual([0.04, 0.04]);
    expect(adjustedChances([])).toEqual([]);
    expect(() => adjustedChances([0.5, 1.5])).toThrow(/chances\[1\]/);
  });

  it('does not depend on the order', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 12 }), (p) => {
        expect(adjustedChances(p.toReversed()).toReversed()).toEqual(adjustedChances(p));
      }),
      { seed: 2 },
    );
  });
});

describe('Student', () => {
  it('agrees with the printed table', () => {
    // Two-sided 5 % points, from memory of any table of t: 10 and 30 degrees.
    expect(tWithin(0.95, 10)).toBeCloseTo(2.228, 3);
    expect(tWithin(0.95, 30)).toBeCloseTo(2.042, 3);
    // One degree is Cauchy's: P(|t| > 1) is exactly a half.
    expect(twoSidedChance(1, 1)).toBeCloseTo(0.5, 12);
    expect(twoSidedChance(-tWithin(0.9, 7), 7)).toBeCloseTo(0.1, 9);
  });
});

describe('newcombeDifference', () => {
  it('agrees with the published example', () => {
    // Newcombe 1998, Table II, 56/70 against 48/80, method 10; from memory.
    const [low, high] = newcombeDifference(56, 70, 48, 80);
    expect(low).toBeCloseTo(0.0524, 4);
    expect(high).toBeCloseTo(0.3339, 4);
  });
});

const blocks = (count: number, items: number, right: number) =>
  Array.from({ length: count }, () => ({ items, right }));

describe('compareRates', () => {
  it('needs three blocks in each group', () => {
    expect(compareRates(blocks(2, 40, 30), blocks(9, 40, 30))).toBeUndefined();
    expect(
      compareRates([...blocks(2, 40, 30), { items: 0, right: 0 }], blocks(9, 40, 30)),
    ).toBeUndefined();
  });

  it('with blocks as alike as can be is the plain comparison of two shares', () => {
    const found = compareRates(blocks(5, 40, 30), blocks(10, 40, 26))!;
    expect(found.dispersion).toBe(1);
    expect(found.difference).toBeCloseTo(0.1, 12);
    expect(found.interval).toEqual(newcombeDifference(150, 200, 260, 400));
    // By hand: common share 410/600, error sqrt(.683 x .317 x (1/200 + 1/400)), 13 degrees.
    const error = Math.sqrt((410 / 600) * (190 / 600) * (1 / 200 + 1 / 400));
    expect(found.chance).toBeCloseTo(twoSidedChance(0.1 / error, 13), 12);
  });

  it('turns round with the groups', () => {
    const [one, other] = [blocks(4, 30, 20), [...blocks(3, 40, 20), { items: 40, right: 35 }]];
    const [there, back] = [compareRates(one, other)!, compareRates(other, one)!];
    expect(back.difference).toBeCloseTo(-there.difference, 12);
    expect(back.interval[0]).toBeCloseTo(-there.interval[1], 12);
    expect(back.chance).toBeCloseTo(there.chance, 12);
  });

  it('finds nothing between equal groups about as often as it says, though blocks differ', () => {
    // Blocks of one rate each, drawn about 70 %: standard deviation 10 points, on top of chance.
    const random = randomFrom(17);
    const draw = () => {
      const rate = drawBeta(random, 14, 6);
      let right = 0;
      for (let i = 0; i < 40; i++) if (random.uniform() < rate) right += 1;
      return { items: 40, right };
    };
    let found = 0;
    let plain = 0;
    const rounds = 600;
    for (let round = 0; round < rounds; round++) {
      const [one, other] = [Array.from({ length: 12 }, draw), Array.from({ length: 8 }, draw)];
      const { chance, dispersion, difference, one: a, other: b } = compareRates(one, other)!;
      if (chance < 0.05) found += 1;
      const share = (a.share * 480 + b.share * 320) / 800;
      if (Math.abs(difference) > 1.96 * Math.sqrt(share * (1 - share) * (1 / 480 + 1 / 320)))
        plain += 1;
      expect(dispersion).toBeGreaterThanOrEqual(1);
    }
    // 5 % of 600 is 30, standard deviation 5.3: three of them either way.
    expect(found).toBeGreaterThan(13);
    expect(found).toBeLessThan(47);
    // Without the dispersion it would be wrong several times as often.
    expect(plain).toBeGreaterThan(2 * found);
  });

  it('is content where all was right', () => {
    expect(compareRates(blocks(3, 10, 10), blocks(3, 10, 10))).toMatchObject({
      difference: 0,
      chance: 1,
    });
  });
});

describe('moreBlocksFor', () => {
  it('is what the formula gives by hand', () => {
    // Two groups of 1,000 items in blocks of 40, share 1/2, 5 points: 2 x .25 x 2.8016^2 / .0025 = 1,570
    // items each. With 14 blocks in one and 15 in the other 1/1600 + 1/1560 is first small enough.
    const group = { blocks: 25, items: 1000, share: 0.5 };
    expect(moreBlocksFor(group, group, 0.5, 1)).toBe(29);
    expect(
      moreBlocksFor(
        { ...group, items: 1600, blocks: 40 },
        { ...group, items: 1600, blocks: 40 },
        0.5,
        1,
      ),
    ).toBe(0);
  });

  it('asks for more where blocks differ more, and gives up where it is out of reach', () => {
    const group = { blocks: 25, items: 1000, share: 0.5 };
    expect(moreBlocksFor(group, group, 0.5, 2)!).toBeGreaterThan(2 * 29);
    expect(moreBlocksFor(group, group, 0.5, 1, 0.001)).toBeUndefined();
    const nothing = { blocks: 0, items: 0, share: 0 };
    expect(moreBlocksFor(nothing, nothing, 0.5, 1)).toBeUndefined();
  });
});

describe('changedAnswers', () => {
  it('is the exact sign test', () => {
    // 2 x (45 + 10 + 1) / 1024, by hand.
    expect(changedAnswers(8, 2)?.chance).toBeCloseTo(0.109375, 12);
    expect(changedAnswers(2, 8)?.chance).toBeCloseTo(0.109375, 12);
    expect(changedAnswers(5, 5)?.chance).toBe(1);
  });

  it('says nothing below ten changes', () => {
    expect(changedAnswers(9, 0)).toBeUndefined();
    expect(() => changedAnswers(-1, 20)).toThrow(/toRight/);
  });
});

describe('changesToFind', () => {
  /** P(X = k) of n coins, by factors: shares no code with the incomplete beta function. */
  const chanceOf = (n: number, k: number, p: number): number => {
    let chance = 1;
    for (let i = 1; i <= k; i++) chance *= ((n - k + i) / i) * p;
    return chance * (1 - p) ** (n - k);
  };
  const found = (n: number, p: number): number => {
    const extreme = (k: number) =>
      Array.from({ length: n + 1 }, (_, j) => j)
        .filter((j) => Math.abs(j - n / 2) >= Math.abs(k - n / 2))
        .reduce((sum, j) => sum + chanceOf(n, j, 0.5), 0);
    let power = 0;
    for (let k = 0; k <= n; k++) if (extreme(k) <= 0.05 + 1e-12) power += chanceOf(n, k, p);
    return power;
  };

  it.each([0.75, 0.9])('is the number from which all powers summed by hand are enough: %f', (p) => {
    const enough = changesToFind(p)!;
    expect(found(enough - 1, p)).toBeLessThan(0.8);
    for (let n = enough; n < 2 * enough; n++) expect(found(n, p)).toBeGreaterThanOrEqual(0.8);
  });

  it('lies a little above what the normal approximation gives', () => {
    // ((1.96 x 0.5 + 0.8416 x sqrt(2/9)) / (1/6))^2 = 68.2, by hand (J. L. Fleiss, one proportion).
    expect(changesToFind(2 / 3)).toBeGreaterThan(68);
    expect(changesToFind(2 / 3)).toBeLessThan(82);
  });

  it('gives up near a half and refuses what is no share above it', () => {
    expect(changesToFind(0.52)).toBeUndefined();
    expect(() => changesToFind(0.5)).toThrow(/above 0.5/);
  });
});

describe('shrinkRates', () => {
  it('draws the rat tumours of Gelman et al. to the published means', () => {
    // Bayesian Data Analysis, 3rd ed., section 5.1 (data of Tarone 1982, recalled; totals agree with the book).
    const y = [
      ...Array<number>(14).fill(0),
      ...Array<number>(8).fill(1),
      ...Array<number>(9).fill(2),
      1,
      5,
      2,
      5,
      3,
      2,
      7,
      7,
      3,
      3,
      2,
      9,
      10,
      4,
      4,
      4,
      4,
      4,
      4,
      4,
      10,
      4,
      4,
      4,
      5,
      11,
      12,
      5,
      5,
      6,
      5,
      6,
      6,
      6,
      6,
      16,
      15,
      15,
      9,
      4,
    ];
    const n = [
      ...Array<number>(7).fill(20),
      19,
      19,
      19,
      19,
      18,
      18,
      17,
      20,
      20,
      20,
      20,
      19,
      19,
      18,
      18,
      25,
      24,
      23,
      ...Array<number>(6).fill(20),
      10,
      49,
      19,
      46,
      27,
      17,
      49,
      47,
      20,
      20,
      13,
      48,
      50,
      ...Array<number>(7).fill(20),
      48,
      19,
      19,
      19,
      22,
      46,
      49,
      20,
      20,
      23,
      19,
      22,
      20,
      20,
      20,
      52,
      46,
      47,
      24,
      14,
    ];
    const found = shrinkRates(y.map((right, i) => ({ id: String(i), right, items: n[i]! })))!;
    expect(found.differ).toBe(true);
    expect(found.whole).toBeCloseTo(0.142292, 4);
    const share = (right: number, items: number) =>
      found.rates.find((rate) => rate.right === right && rate.items === items)?.share;
    expect(share(0, 20)).toBeCloseTo(0.064231, 4);
    expect(share(4, 14)).toBeCloseTo(0.208219, 4);
    expect(share(16, 52)).toBeCloseTo(0.267931, 4);
  });

  it('says that groups do not differ where chance explains them: 18 batters of 1970', () => {
    // Efron & Morris 1975, Table 1: hits in 45 at bats; the likelihood has hardly a top.
    const hits = [18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7];
    const found = shrinkRates(hits.map((right, i) => ({ id: String(i), right, items: 45 })))!;
    // .400 counted, .2939 by James & Stein on the raw scale, .290 on the arcsine scale.
    expect(found.rates[0]!.share).toBeGreaterThan(0.265);
    expect(found.rates[0]!.share).toBeLessThan(0.2939);
  });

  it('leaves a twentieth of each rate’s chance on either side of its interval', () => {
    const found = shrinkRates([
      { id: 'a', items: 40, right: 36 },
      { id: 'b', items: 60, right: 20 },
      { id: 'c', items: 25, right: 15 },
    ])!;
    const { a, b } = fitBetaBinomial([
      { events: 36, tries: 40 },
      { events: 20, tries: 60 },
      { events: 15, tries: 25 },
    ]);
    const [low, high] = found.rates[1]!.interval;
    expect(incompleteBeta(low, a + 20, b + 40)).toBeCloseTo(0.05, 9);
    expect(incompleteBeta(high, a + 20, b + 40)).toBeCloseTo(0.95, 9);
  });

  it('says so where groups are as alike as can be', () => {
    const alike = ['a', 'b', 'c', 'd'].map((id) => ({ id, items: 40, right: 30 }));
    expect(shrinkRates(alike)).toMatchObject({ differ: false });
  });

  it('gives a group without items the whole, and nothing where all was right', () => {
    const groups = [
      { id: 'a', items: 40, right: 30 },
      { id: 'b', items: 40, right: 20 },
      { id: 'c', items: 0, right: 0 },
    ];
    const found = shrinkRates(groups)!;
    expect(found.rates[2]).toMatchObject({ raw: undefined });
    expect(found.rates[2]!.share).toBeCloseTo(found.whole, 9);
    expect(shrinkRates([{ id: 'a', items: 5, right: 5 }])).toBeUndefined();
  });
});
