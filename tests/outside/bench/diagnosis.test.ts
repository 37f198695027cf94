/**
 * The cognitive-diagnosis oracle against published data.
 *
 * Data: K. K. Tatsuoka (1984, 1990); C. Tatsuoka (2002), JRSS C 51:337-350; Q-matrix of de la
 * Torre & Douglas (2004), Psychometrika 69:333-353. Expected values: DINA, saturated, maximum
 * likelihood, by two other programs that agree to all digits: an EM from eight random starts and
 * `din` of the R package CDM 8.2-6 with conv.crit 1e-9.
 */
import { describe, expect, it } from 'vitest';
import { fitGates, type GateFit } from '../../oracles/diagnosis/fit';
import { findFractionData, fractionDataMissing } from '../../oracles/diagnosis/fraction-data';

const data = findFractionData();

/** EM climbs slowly here (item 9 last), and machines are shared: not a check of speed. */
const patience = 60_000;

if (!data) process.stderr.write(`${fractionDataMissing}\n`);

/** Half a unit of the last printed digit, and a little for what EM leaves undone. */
const tolerance = 1e-4;

function fit(answers: readonly (readonly boolean[])[], needs: readonly (readonly boolean[])[]) {
  return fitGates({
    kind: 'all',
    answers,
    needs,
    start: { guess: 0.2, slip: 0.2 },
    mostIterations: 5_000,
    tolerance: 2e-7,
    mergeClasses: true,
  });
}

function expectGates(fitted: GateFit, guesses: readonly number[], slips: readonly number[]) {
  expect(fitted.converged).toBe(true);
  fitted.gates.forEach(({ guess, slip }, item) => {
    expect(Math.abs(guess - guesses[item]!), `g of item ${item + 1}`).toBeLessThan(tolerance);
    expect(Math.abs(slip - slips[item]!), `s of item ${item + 1}`).toBeLessThan(tolerance);
  });
}

/** Columns of the 20 items that a published subset uses, from 1. */
function subset(items: readonly number[]) {
  return data!.answers.map((row) => items.map((item) => row[item - 1]!));
}

const skillsOf = (rows: string) =>
  rows.split(' ').map((row) => Array.from(row, (digit) => digit === '1'));

describe.skipIf(!data)('the DINA oracle on the fraction-subtraction responses', () => {
  it('reads 536 students with 367 different answer rows and a mean of 10.677239 right', () => {
    const { answers } = data!;
    const right = answers.flat().filter(Boolean).length;
    expect(answers.length).toBe(536);
    expect(new Set(answers.map((row) => row.map(Number).join(''))).size).toBe(367);
    expect(right / answers.length).toBeCloseTo(10.677239, 6);
    expect(answers.filter((row) => row.every(Boolean)).length).toBe(30);
    expect(answers.filter((row) => !row.some(Boolean)).length).toBe(13);
  });

  it('finds the published g and s of all 20 items and 8 skills', { timeout: patience }, () => {
    const fitted = fit(data!.answers, data!.needs);
    expect(fitted.classShares.length).toBe(58);
    expect(Math.abs(fitted.logLikelihood - -4402.287671)).toBeLessThan(tolerance);
    expectGates(
      fitted,
      [
        0.0298, 0.0164, 0, 0.2236, 0.3005, 0.0994, 0.0251, 0.4445, 0.2973, 0.029, 0.0656, 0.1281,
        0.013, 0.0624, 0.0314, 0.1092, 0.0383, 0.1193, 0.0224, 0.0125,
      ],
      [
        0.0892, 0.0415, 0.1338, 0.1099, 0.172, 0.0436, 0.1964, 0.1813, 0.2474, 0.2136, 0.082,
        0.0406, 0.3348, 0.0603, 0.1051, 0.1105, 0.1379, 0.1379, 0.2404, 0.157,
      ],
    );
  });

  it('finds them on the 15 items and 5 skills of de la Torre (2009)', () => {
    const fitted = fit(
      subset([2, 4, 6, 7, 9, 10, 11, 12, 14, 15, 16, 17, 18, 19, 20]),
      skillsOf(
        '10000 11110 10000 11111 00100 11110 11110 11000 10100 10111 10100 10110 11110 11111 11110',
      ),
    );
    expect(Math.abs(fitted.logLikelihood - -3455.761465)).toBeLessThan(tolerance);
    expectGates(
      fitted,
      [
        0, 0.2107, 0.1354, 0.1248, 0.3092, 0.0321, 0.0724, 0.1552, 0.0795, 0.17, 0.1018, 0.0307,
        0.1337, 0.0218, 0.0104,
      ],
      [
        0.2776, 0.1178, 0.0383, 0.1309, 0.2474, 0.2264, 0.0779, 0.0483, 0.0627, 0.0697, 0.1051,
        0.1327, 0.1582, 0.1974, 0.1824,
      ],
    );
  });

  it('finds them on the 11 items and 3 skills of Henson, Templin & Willse (2009)', () => {
    const fitted = fit(
      subset([4, 7, 9, 10, 11, 12, 15, 16, 17, 18, 20]),
      skillsOf('110 101 101 100 110 110 101 101 100 100 110'),
    );
    expect(Math.abs(fitted.logLikelihood - -2737.58734)).toBeLessThan(tolerance);
    expectGates(
      fitted,
      [0.2158, 0.1065, 0.5087, 0.0319, 0.0677, 0.5304, 0.1329, 0.523, 0.0328, 0.1125, 0.0078],
      [0.1207, 0.1764, 0.1516, 0.2491, 0.069, 0.0465, 0.0867, 0.0535, 0.1466, 0.1577, 0.1761],
    );
  });
});
