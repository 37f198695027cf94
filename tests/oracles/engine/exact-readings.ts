/**
 * The exact best plan by HiGHS, a solver of mixed integer programmes.
 *
 * Where every reading covers a concept to the same degree rho, k readings cover it to
 * 1 - (1 - rho)^k: concave in k, so a linear programme over the increments is exact.
 */
import highsLoader from 'highs';
import type { PlanInstance } from './random-readings';

/** @returns the gain of the best plan of an instance with one degree for each concept */
export async function exactPlanner(): Promise<(instance: PlanInstance) => number> {
  const highs = await highsLoader();
  return exactBest;

  function exactBest({ readings, worth, budgetMinutes }: PlanInstance): number {
    const terms: string[] = [];
    const limits: string[] = [];
    const bounds: string[] = [];
    for (const [concept, value] of worth) {
      const by = readings.flatMap(({ covers }, r) =>
        covers.filter((cover) => cover.concept === concept).map(({ degree }) => ({ r, degree })),
      );
      if (by.length === 0) continue;
      const { degree } = by[0]!;
      if (by.some((cover) => cover.degree !== degree)) throw new Error('need one degree a concept');
      const parts = by.map((_, k) => `${concept}_${k}`);
      parts.forEach((part, k) => {
        terms.push(`${value * degree * (1 - degree) ** k} ${part}`);
        bounds.push(`0 <= ${part} <= 1`);
      });
      limits.push(`${parts.join(' + ')} - ${by.map(({ r }) => `x${r}`).join(' - ')} <= 0`);
    }
    const cost = readings.map(({ minutes }, r) => `${minutes} x${r}`).join(' + ');
    const names = readings.map((_, r) => `x${r}`).join(' ');
    const text = `Maximize\n obj: ${terms.join(' + ')}\nSubject To\n b: ${cost} <= ${budgetMinutes}\n ${limits
      .map((limit, i) => `l${i}: ${limit}`)
      .join('\n ')}\nBounds\n ${bounds.join('\n ')}\nBinary\n ${names}\nEnd`;
    const solved = highs.solve(text, { mip_rel_gap: 0 });
    if (solved.Status !== 'Optimal') throw new Error(`HiGHS: ${solved.Status}`);
    return solved.ObjectiveValue;
  }
}
