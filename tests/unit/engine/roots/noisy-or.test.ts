/** The chance of a miss against published noisy-OR tables. */
import { expect, test } from 'vitest';
import { compileLog } from '../../../../src/engine/roots/compile';
import { missChanceOf } from '../../../../src/engine/roots/miss-chance';
import { defaultParameters } from '../../../../src/engine/roots/parameters';

function chances(failing: readonly number[], leak: number) {
  const ids = failing.map((_, c) => `c${c}`);
  const log = {
    now: 0,
    concepts: ids.map((id) => ({ id, systems: [], restsOn: [] })),
    items: [],
    unitemised: [],
    readings: [],
  };
  // A cause that is passed over with chance q has rate -ln q.
  const rates = Float64Array.from(failing, (q) => -Math.log(q));
  const compiled = compileLog(log, {}, defaultParameters);
  const missChance = missChanceOf(compiled, rates, -Math.log(1 - leak));
  return (...present: number[]) => missChance({ topics: present.map((c) => `c${c}`) });
}

test('is the fever table of Russell & Norvig', () => {
  // Artificial Intelligence: A Modern Approach, section on noisy-OR: q cold 0.6, flu 0.2, malaria 0.1.
  const fever = chances([0.6, 0.2, 0.1], 0);
  const [cold, flu, malaria] = [0, 1, 2];
  expect(fever()).toBeCloseTo(0, 15);
  expect(fever(malaria)).toBeCloseTo(0.9, 12);
  expect(fever(flu)).toBeCloseTo(0.8, 12);
  expect(fever(flu, malaria)).toBeCloseTo(0.98, 12);
  expect(fever(cold)).toBeCloseTo(0.4, 12);
  expect(fever(cold, malaria)).toBeCloseTo(0.94, 12);
  expect(fever(cold, flu)).toBeCloseTo(0.88, 12);
  expect(fever(cold, flu, malaria)).toBeCloseTo(0.988, 12);
});

test('has the evidence of small two-cause networks once the causes are summed out', () => {
  // Priors 0.1 and 0.1, strengths 0.8 and 0.8, one miss: 0.1536 without a leak, 0.23824 with 0.1
  // (exact enumeration by other means).
  for (const [leak, expected] of [
    [0, 0.1536],
    [0.1, 0.23824],
  ] as const) {
    const miss = chances([0.2, 0.2], leak);
    const sum = 0.81 * miss() + 0.09 * miss(0) + 0.09 * miss(1) + 0.01 * miss(0, 1);
    expect(sum).toBeCloseTo(expected, 9);
  }
});
