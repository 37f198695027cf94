import { describe, expect, it } from 'vitest';
import type { GatedItem } from '../../../../bench/roots/peers/gated-items';
import { fitNida } from '../../../../bench/roots/peers/nida';

/** ln of the Beta function at whole a and b, as a plain product. */
function logBeta(a: number, b: number): number {
  let sum = -Math.log(a + b - 1);
  for (let j = 1; j < b; j++) sum += Math.log(j / (a - 1 + j));
  return sum;
}

/**
 * Gap chances by enumeration: every way the needs of the misses can have failed, with every set
 * of gaps; all rates integrated over their flat priors.
 */
function enumerated(items: readonly GatedItem[], conceptCount: number): number[] {
  const exposure = Array<number>(conceptCount).fill(0);
  for (const { needs } of items) for (const concept of needs) exposure[concept]!++;
  const misses = items.filter((item) => item.missed);
  const gapMass = Array<number>(conceptCount).fill(0);
  let mass = 0;
  const ways = (index: number, failures: readonly number[]): void => {
    const miss = misses[index];
    if (miss) {
      for (let code = 1; code < 2 ** miss.needs.length; code++) {
        const next = [...failures];
        miss.needs.forEach((concept, k) => (next[concept]! += (code >> k) & 1));
        ways(index + 1, next);
      }
      return;
    }
    for (let code = 0; code < 2 ** conceptCount; code++) {
      let logWeight = 0;
      let [gapCount, failed, held] = [0, 0, 0];
      for (let concept = 0; concept < conceptCount; concept++) {
        const misfires = failures[concept]!;
        if ((code >> concept) & 1) {
          gapCount++;
          logWeight += logBeta(misfires + 1, exposure[concept]! - misfires + 1);
        } else {
          failed += misfires;
          held += exposure[concept]! - misfires;
        }
      }
      logWeight += logBeta(failed + 1, held + 1);
      logWeight += logBeta(gapCount + 1, conceptCount - gapCount + 1);
      const weight = Math.exp(logWeight);
      mass += weight;
      for (let concept = 0; concept < conceptCount; concept++) {
        if ((code >> concept) & 1) gapMass[concept]! += weight;
      }
    }
  };
  ways(0, Array<number>(conceptCount).fill(0));
  return gapMass.map((part) => part / mass);
}

describe('NIDA for one candidate', () => {
  it('finds the same gap chances as enumeration of all failures and gaps', () => {
    const right = (needs: readonly number[], times: number) =>
      Array.from({ length: times }, () => ({ needs, missed: false }));
    const items = [
      { needs: [0, 1], missed: true },
      { needs: [0, 2], missed: true },
      { needs: [0], missed: true },
      { needs: [1, 2, 3], missed: true },
      ...right([1, 3], 5),
      ...right([0, 2], 1),
      ...right([3], 4),
      ...right([2], 2),
    ];
    const exact = enumerated(items, 4);
    const fitted = fitNida(items, 4, { sweeps: 40_000, warmUp: 500, seed: 2 });
    exact.forEach((chance, concept) => {
      // 40,000 sweeps, sticky in the shared rates: many times sqrt(.25 / 40,000) = .0025.
      expect(Math.abs(fitted.gapChances[concept]! - chance)).toBeLessThan(0.02);
    });
    // Concept 0 stands under most misses, 3 under most right answers.
    expect(exact[0]!).toBeGreaterThan(exact[3]!);
  });

  it('credits a gap with its failures above those of a sound concept', () => {
    const items = Array.from({ length: 400 }, (_, index) => ({
      needs: [index % 8],
      // Concept 2 fails in 30 of its 50 items, every other in one of 50.
      missed: index % 8 === 2 ? Math.floor(index / 8) < 30 : Math.floor(index / 8) === 7,
    }));
    const { gapChances, avoidable, slip } = fitNida(items, 8);
    expect(gapChances[2]).toBeGreaterThan(0.99);
    expect(Math.abs(avoidable[2]! - (30 - 50 * slip))).toBeLessThan(0.5);
    expect(Math.abs(slip - 8 / 352)).toBeLessThan(0.01);
  });
});
