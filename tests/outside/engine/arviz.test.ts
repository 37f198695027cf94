/**
 * R-hat and effective sample sizes against ArviZ 0.23.4 (Python 3.11, NumPy 2.4.6, SciPy 1.17.1):
 *
 *   def data(chains, n, rho, shift):
 *       out = []
 *       for k in range(chains):
 *           y, row = 0.0, []
 *           for i in range(n):
 *               v = math.sin(12.9898*(i+1) + 78.233*(k+1)) * 1000
 *               y = rho*y + (v - math.floor(v) - 0.5)
 *               row.append(y + shift*k)
 *           out.append(row)
 *       return np.array(out)
 *   az.rhat(d, method='rank'), az.ess(d, method='bulk'), az.ess(d, method='tail')
 */
import { expect, test } from 'vitest';
import { convergenceOf } from '../../../src/engine/numeric/convergence';

function data(chains: number, n: number, rho: number, shift: number): number[][] {
  return Array.from({ length: chains }, (_, k) => {
    let y = 0;
    return Array.from({ length: n }, (__, i) => {
      const v = Math.sin(12.9898 * (i + 1) + 78.233 * (k + 1)) * 1000;
      y = rho * y + (v - Math.floor(v) - 0.5);
      return y + shift * k;
    });
  });
}

test.each([
  [4, 200, 0.7, 0, 1.012923035651848, 202.6636350577421, 386.285415623736],
  [3, 151, 0.9, 0.2, 1.2605872871718384, 9.085549539818963, 24.531658147670957],
  [2, 100, -0.5, 0, 0.9970199008154377, 460.2059991327962, 224.05479381970738],
  [4, 250, 0.3, 0.3, 1.5506402772715144, 7.263576371222308, 43.53503171816858],
])('%d chains of %d, rho %d, shift %d', (chains, n, rho, shift, rHat, essBulk, essTail) => {
  const figures = convergenceOf(data(chains, n, rho, shift));
  expect(figures.rHat).toBeCloseTo(rHat, 9);
  // Their autocovariances come from a fast Fourier transform, ours from the sums themselves.
  expect(figures.essBulk / essBulk).toBeCloseTo(1, 7);
  expect(figures.essTail / essTail).toBeCloseTo(1, 7);
});
