/**
 * Published instances: J. Burkardt, KNAPSACK_01, Florida State University (data and optima; P06's
 * optimum is 1735, which a later copy of the data gives wrongly as 1652). And a mixed-integer
 * solver, HiGHS (the package highs), on instances of our own making.
 */
import loadHighs from 'highs';
import { describe, expect, it } from 'vitest';
import { randomFrom } from '../../../src/engine/numeric/random';
import { fitSheet } from '../../../src/engine/sheet/fit';
import { solveKnapsack } from '../../../src/engine/sheet/knapsack';

const numbers = (text: string) => text.split(' ').map(Number);

interface Instance {
  name: string;
  capacity: number;
  weights: number[];
  profits: number[];
  optimum: number;
  weight?: number;
  taken: string;
}

const published: Instance[] = [
  {
    name: 'P01',
    capacity: 165,
    weights: numbers('23 31 29 44 53 38 63 85 89 82'),
    profits: numbers('92 57 49 68 60 43 67 84 87 72'),
    optimum: 309,
    weight: 165,
    taken: '1111010000',
  },
  {
    name: 'P02',
    capacity: 26,
    weights: numbers('12 7 11 8 9'),
    profits: numbers('24 13 23 15 16'),
    optimum: 51,
    weight: 26,
    taken: '01110',
  },
  {
    name: 'P03',
    capacity: 190,
    weights: numbers('56 59 80 64 75 17'),
    profits: numbers('50 50 64 46 50 5'),
    optimum: 150,
    weight: 190,
    taken: '110010',
  },
  {
    name: 'P04',
    capacity: 50,
    weights: numbers('31 10 20 19 4 3 6'),
    profits: numbers('70 20 39 37 7 5 10'),
    optimum: 107,
    weight: 50,
    taken: '1001000',
  },
  {
    name: 'P05',
    capacity: 104,
    weights: numbers('25 35 45 5 25 3 2 2'),
    profits: numbers('350 400 450 20 70 8 5 5'),
    optimum: 900,
    weight: 104,
    taken: '10111011',
  },
  {
    name: 'P06',
    capacity: 170,
    weights: numbers('41 50 49 59 55 57 60'),
    profits: numbers('442 525 511 593 546 564 617'),
    optimum: 1735,
    weight: 169,
    taken: '0101001',
  },
  {
    name: 'P07',
    capacity: 750,
    weights: numbers('70 73 77 80 82 87 90 94 98 106 110 113 115 118 120'),
    profits: numbers('135 139 149 150 156 163 173 184 192 201 210 214 221 229 240'),
    optimum: 1458,
    weight: 749,
    taken: '101010111000011',
  },
  {
    name: 'P08',
    capacity: 6404180,
    weights: numbers(
      '382745 799601 909247 729069 467902 44328 34610 698150 823460 903959 853665 551830 610856 670702 488960 951111 323046 446298 931161 31385 496951 264724 224916 169684',
    ),
    profits: numbers(
      '825594 1677009 1676628 1523970 943972 97426 69666 1296457 1679693 1902996 1844992 1049289 1252836 1319836 953277 2067538 675367 853655 1826027 65731 901489 577243 466257 369261',
    ),
    optimum: 13549094,
    weight: 6402560,
    taken: '110111000110100100000111',
  },
  // Two more of the same collection; their optima by complete search.
  {
    name: 'capacity 67',
    capacity: 67,
    weights: numbers('23 26 20 18 32 27 29 26 30 27'),
    profits: numbers('505 352 458 220 354 414 498 545 473 543'),
    optimum: 1270,
    taken: '1001000100',
  },
  {
    name: 'capacity 20',
    capacity: 20,
    weights: numbers('10 9 4 2 1 20'),
    profits: numbers('175 90 20 50 10 200'),
    optimum: 275,
    taken: '110010',
  },
];

describe('solveKnapsack against published instances', () => {
  it.each(published)(
    'finds the optimum of $name',
    ({ capacity, weights, profits, optimum, weight, taken }) => {
      const choice = solveKnapsack(
        weights.map((each, i) => ({ weight: each, value: profits[i]! })),
        capacity,
      );
      expect(choice.value).toBe(optimum);
      if (weight !== undefined) expect(choice.weight).toBe(weight);
      expect(choice.taken.map(Number).join('')).toBe(taken);
    },
  );
});

describe('fitSheet against a mixed-integer solver', () => {
  it('is worth what HiGHS finds, with lines pinned and banned', async () => {
    const highs = await loadHighs();
    const random = randomFrom(90);
    for (let round = 0; round < 6; round++) {
      const lines = Array.from({ length: 40 }, (_, i) => ({
        id: `x${i}`,
        seconds: 3 + Math.floor(random.uniform() * 60),
        worth: Math.round(random.uniform() * 1000) / 100,
        pinned: random.uniform() < 0.05,
        banned: random.uniform() < 0.1,
      }));
      const budget = 250 + 80 * round;
      const sum = (part: (line: (typeof lines)[number]) => string) => lines.map(part).join(' + ');
      const bounds = lines.map(({ id, pinned, banned }) =>
        banned ? `${id} = 0` : pinned ? `${id} = 1` : `0 <= ${id} <= 1`,
      );
      const solution = highs.solve(
        `Maximize\n obj: ${sum(({ id, worth }) => `${worth} ${id}`)}\nSubject To\n c: ${sum(({ id, seconds }) => `${seconds} ${id}`)} <= ${budget}\n` +
          `Bounds\n ${bounds.join('\n ')}\nGeneral\n ${lines.map(({ id }) => id).join(' ')}\nEnd\n`,
        { mip_rel_gap: 0, mip_abs_gap: 0 },
      );
      expect(solution.Status).toBe('Optimal');
      // Both are sums of hundredths; the solver's tolerance on whole numbers is 1e-6.
      expect(fitSheet(lines, budget).worth).toBeCloseTo(solution.ObjectiveValue, 4);
    }
  });
});
