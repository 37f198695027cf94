/**
 * DINA, DINO and NIDA on hand-sized cases: item 1 needs a, item 2 needs b, item 3 needs both;
 * g = .2, .2, .1 and s = .1, .1, .2. Expected values worked out by exact enumeration in another
 * language; a few are followed by hand below.
 */
import { describe, expect, it } from 'vitest';
import { nidaRightChance } from '../../../bench/roots/peers/nida';
import { fitGates } from '../../../oracles/diagnosis/fit';
import { classPosterior, skillClasses, type GateKind } from '../../../oracles/diagnosis/gate';

const needs = [
  [true, false],
  [false, true],
  [true, true],
];
const gates = [
  { guess: 0.2, slip: 0.1 },
  { guess: 0.2, slip: 0.1 },
  { guess: 0.1, slip: 0.2 },
];
const evenly = [0.25, 0.25, 0.25, 0.25];
const answersOf = (digits: string) => Array.from(digits, (digit) => digit === '1');

type Row = readonly [answers: string, chance: number, posterior: readonly number[]];

const expected: Readonly<Record<GateKind, readonly Row[]>> = {
  all: [
    ['111', 0.172, [0.00581395, 0.02616279, 0.02616279, 0.94186047]],
    ['110', 0.1305, [0.06896552, 0.31034483, 0.31034483, 0.31034483]],
    ['100', 0.207, [0.17391304, 0.02173913, 0.7826087, 0.02173913]],
    ['001', 0.022, [0.72727273, 0.09090909, 0.09090909, 0.09090909]],
    ['000', 0.1805, [0.79778393, 0.09972299, 0.09972299, 0.00277008]],
  ],
  any: [
    ['111', 0.235, [0.00425532, 0.15319149, 0.15319149, 0.6893617]],
    ['110', 0.0675, [0.13333333, 0.13333333, 0.13333333, 0.6]],
    ['100', 0.0775, [0.46451613, 0.01290323, 0.46451613, 0.05806452]],
    ['001', 0.05, [0.32, 0.32, 0.32, 0.04]],
    ['000', 0.1525, [0.9442623, 0.02622951, 0.02622951, 0.00327869]],
  ],
};

describe('the classes of two skills', () => {
  it('are four, the first skill in front', () => {
    expect(skillClasses(2)).toEqual([
      [false, false],
      [false, true],
      [true, false],
      [true, true],
    ]);
  });
});

describe.each([
  ['DINA', 'all'],
  ['DINO', 'any'],
] as const)('%s', (_, kind) => {
  it.each(expected[kind])('sees %s with the right chance and tells the classes apart', (...row) => {
    const [answers, chance, posterior] = row;
    const found = classPosterior(kind, answersOf(answers), needs, gates, evenly);
    expect(found.chance).toBeCloseTo(chance, 8);
    found.posterior.forEach((part, c) => expect(part).toBeCloseTo(posterior[c]!, 7));
  });

  it('gives all eight answer rows chances that add to 1', () => {
    const rows = skillClasses(3);
    const chances = rows.map((row) => classPosterior(kind, row, needs, gates, evenly).chance);
    expect(chances.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
  });
});

describe('EM for DINA', () => {
  const answers = ['111', '100', '010', '000'].map(answersOf);
  const after = (mostIterations: number, mergeClasses = false) =>
    fitGates({
      kind: 'all',
      answers,
      needs,
      start: { guess: 0.2, slip: 0.2 },
      mostIterations,
      tolerance: 0,
      mergeClasses,
    });

  it('takes the same three first steps from g = s = .2 and even classes', () => {
    expect(after(0).logLikelihood).toBeCloseTo(-7.0385883451, 8);
    const steps = [
      { log: -6.3108205439, g: [0.14572626, 0.04079578], s: [0.13508257, 0.1035026] },
      { log: -5.9196320856, g: [0.086669, 0.00557398], s: [0.07760068, 0.02914635] },
      { log: undefined, g: [0.04946122, 0.00036048], s: [0.03889952, 0.00485035] },
    ];
    const shares = [
      [0.2592822, 0.24811756, 0.24448267],
      [0.2640686, 0.24135679, 0.25321783],
      [0.26253256, 0.24326014, 0.25094716],
    ];
    steps.forEach(({ log, g, s }, index) => {
      const fit = after(index + 1);
      if (log !== undefined) expect(fit.logLikelihood).toBeCloseTo(log, 8);
      expect(fit.gates.map((gate) => gate.guess)).toEqual([
        expect.closeTo(g[0]!, 7),
        expect.closeTo(g[0]!, 7),
        expect.closeTo(g[1]!, 7),
      ]);
      expect(fit.gates.map((gate) => gate.slip)).toEqual([
        expect.closeTo(s[0]!, 7),
        expect.closeTo(s[0]!, 7),
        expect.closeTo(s[1]!, 7),
      ]);
      const [none, one, both] = shares[index]!;
      expect(fit.classShares).toEqual([
        expect.closeTo(none!, 7),
        expect.closeTo(one!, 7),
        expect.closeTo(one!, 7),
        expect.closeTo(both!, 7),
      ]);
    });
  });

  it('never climbs down', () => {
    const heights = [0, 1, 2, 5, 10, 20].map((count) => after(count).logLikelihood);
    expect(heights).toEqual(heights.toSorted((a, b) => a - b));
  });

  it('follows the same path where classes that no item tells apart are taken as one', () => {
    // A third skill that no item needs doubles every class.
    const wide = needs.map((row) => [...row, false]);
    const setup = {
      kind: 'all' as const,
      answers,
      needs: wide,
      start: { guess: 0.2, slip: 0.2 },
      mostIterations: 3,
      tolerance: 0,
    };
    const merged = fitGates({ ...setup, mergeClasses: true });
    const apart = fitGates({ ...setup, mergeClasses: false });
    expect(merged.classShares.length).toBe(4);
    expect(apart.classShares.length).toBe(8);
    expect(merged.logLikelihood).toBeCloseTo(apart.logLikelihood, 12);
  });
});

describe('NIDA', () => {
  it('multiplies the chances of all needs, by hand', () => {
    // Skills a and b: g = .2, .3; s = .1, .15. A gap is a skill not held.
    const chance = (gapA: boolean, gapB: boolean) =>
      nidaRightChance([gapA, gapB], [0.2, 0.3], [0.1, 0.15]);
    expect(chance(true, true)).toBeCloseTo(0.06, 12);
    expect(chance(true, false)).toBeCloseTo(0.17, 12);
    expect(chance(false, true)).toBeCloseTo(0.27, 12);
    expect(chance(false, false)).toBeCloseTo(0.765, 12);
    expect(nidaRightChance([true], [0.2], [0.1])).toBeCloseTo(0.2, 12);
    expect(nidaRightChance([false], [0.2], [0.1])).toBeCloseTo(0.9, 12);
  });
});
