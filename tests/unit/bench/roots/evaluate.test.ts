import { describe, expect, it } from 'vitest';
import { evaluate } from '../../../bench/roots/evaluate';
import { drawCandidate } from '../../../bench/roots/generator/candidate';
import { caseOf } from '../../../bench/roots/generator/log';
import { baseRecipe } from '../../../bench/roots/generator/recipe';
import { methods, type MethodResult } from '../../../bench/roots/methods';
import { certaintyText, groupText, overviewText, tableText } from '../../../bench/roots/print';
import { summarise } from '../../../bench/roots/summary';

const candidate = drawCandidate(baseRecipe, 31);
const given = caseOf(candidate, 400, 'itemised');
const { truth } = given;
const surfaceCount = candidate.map.surfaceCount;

const evaluated = (result: MethodResult) =>
  evaluate({ name: 'made up', title: 'made up', run: () => result }, given, candidate);

describe('the score of a method', () => {
  it('is perfect for the truth itself', async () => {
    const score = await evaluated({ scores: truth.avoidable });
    expect(score.gain).toBe(1);
    expect(score.precision).toBe(1);
    expect(score.averagePrecision).toBe(1);
  });

  it('is next to nothing for the truth upside down', async () => {
    const score = await evaluated({ scores: truth.avoidable.map((value) => -value) });
    expect(score.gain).toBe(0);
    expect(score.precision).toBe(0);
    expect(score.averagePrecision).toBeLessThan(0.1);
  });

  it('takes coverage over planted gaps and over the surface', async () => {
    const score = await evaluated({
      scores: truth.avoidable,
      // Right for every gap, wrong for every sound concept.
      faultIntervals: Array.from(truth.faultRate, (rate, concept) =>
        truth.isGap[concept]! ? ([0.9 * rate, 1.1 * rate] as const) : ([5, 6] as const),
      ),
    });
    expect(score.gapCoverage).toBeUndefined();
    expect(score.surfaceGapCoverage).toEqual({ inside: 14, above: 0, below: 0 });
    expect(score.deepGapCoverage).toEqual({ inside: 8, above: 0, below: 0 });
    expect(score.surfaceCoverage).toEqual({ inside: 14, above: 0, below: surfaceCount - 14 });
  });

  it('counts what is called a gap, by chance or by name, and what of it is false', async () => {
    const half = truth.isGap.map((gap, concept) => (gap || concept === 0 ? 0.5 : 0.49));
    const falseOnes = truth.isGap[0] ? 0 : 1;
    const byChance = await evaluated({
      scores: truth.avoidable,
      gapChances: Float64Array.from(half),
    });
    expect(byChance.called).toBe(22 + falseOnes);
    expect(byChance.falselyCalled).toBe(falseOnes);
    const byName = await evaluated({
      scores: truth.avoidable,
      calledGaps: truth.isGap.map((gap) => !gap),
    });
    expect(byName.falselyCalled).toBe(260 - 22);
  });

  it('is no number where no gap was planted', async () => {
    const sound = drawCandidate({ ...baseRecipe, deepGapCount: 0, surfaceGapCount: 0 }, 31);
    const without = caseOf(sound, 100, 'itemised');
    const [counting] = methods;
    const score = await evaluate(counting!, without, sound);
    expect(score.gain).toBeNaN();
    expect(score.precision).toBeNaN();
    expect(score.averagePrecision).toBeNaN();
  });
});

describe('every method', () => {
  const misses = caseOf(candidate, 400, 'misses-only');

  it.each(methods.map((method) => [method.name, method] as const))(
    '%s ranks every concept, from full and from partial logs',
    { timeout: 60_000 },
    async (_, method) => {
      for (const from of [given, misses]) {
        const result = await method.run(from);
        expect(result.scores.length).toBe(260);
        expect([...result.scores].every((value) => Number.isFinite(value))).toBe(true);
        expect(new Set(result.scores).size).toBeGreaterThan(5);
        for (const chance of result.gapChances ?? []) {
          expect(chance).toBeGreaterThanOrEqual(0);
          expect(chance).toBeLessThanOrEqual(1 + 1e-9);
        }
      }
    },
  );
});

describe('the printed table', () => {
  it('lines its columns up and names what does not apply', () => {
    expect(
      tableText([
        ['', 'one', 'seven'],
        ['score', '1', '–'],
      ]),
    ).toBe(
      ['|       | one | seven |', '| ----- | --: | ----: |', '| score |   1 |     – |'].join('\n'),
    );
  });

  it('shows a column for each method and leaves out rows that apply to none', async () => {
    const [counting] = methods;
    const scores = [await evaluate(counting!, given, candidate)];
    const group = {
      variant: 'base',
      title: 'every item logged',
      itemCount: 400,
      candidateCount: 1,
      missCount: 120,
      columns: [
        {
          name: 'count',
          title: 'count',
          candidateCount: 1,
          summary: summarise(scores, scores, undefined),
        },
      ],
    };
    const text = groupText(group);
    expect(text).toContain('400 items, 30 % missed, 1 candidates');
    expect(text).toMatch(/precision@10 +\| +0\.\d{3}/);
    expect(text).not.toContain('Brier');
    expect(text).not.toContain('share of the way');
    expect(overviewText([group])).toMatch(/base, 400 +\| \.\d\d \/ \.\d\d \/ \.\d\d \|/);
    expect(overviewText([])).toContain('candidates, items');
  });

  it('has one line for each method that states intervals', async () => {
    const exact: MethodResult = {
      scores: truth.avoidable,
      faultIntervals: Array.from(truth.faultRate, (rate) => [rate, rate] as const),
      gapFaultIntervals: Array.from(truth.faultRate, (rate) => [rate, rate] as const),
    };
    const scores = [await evaluated(exact)];
    const text = certaintyText([
      {
        variant: 'healed',
        title: '',
        itemCount: 400,
        candidateCount: 1,
        missCount: 120,
        columns: [
          {
            name: 'exact',
            title: 'exact',
            candidateCount: 1,
            summary: summarise(scores, scores, undefined),
          },
          {
            name: 'plain',
            title: 'plain',
            candidateCount: 1,
            summary: summarise([await evaluated({ scores: truth.avoidable })], scores, undefined),
          },
        ],
      },
    ]);
    expect(text).toMatch(/healed, 400 +\| +exact \| +100 % \| +100 %/);
    expect(text).not.toContain('plain');
  });
});
