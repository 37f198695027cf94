/** Special functions against the Cephes library (S. L. Moshier), package `cephes` 3.3.3. */
import cephes from 'cephes';
import { beforeAll, expect, test } from 'vitest';
import { betaQuantile, incompleteBeta } from '../../../src/engine/numeric/incomplete-beta';
import { lowerGamma, upperGamma } from '../../../src/engine/numeric/incomplete-gamma';
import { normalCdf, normalQuantile } from '../../../src/engine/numeric/normal';
import { randomFrom } from '../../../src/engine/numeric/random';
import { digamma, logGamma } from '../../../src/engine/numeric/special';

beforeAll(async () => {
  await cephes.compiled;
});

/** Cephes states peak relative errors up to some 1e-13 in these ranges. */
function near(actual: number, expected: number, what: string): void {
  expect(Math.abs(actual - expected), what).toBeLessThan(
    1e-11 * Math.max(1e-3, Math.abs(expected)),
  );
}

test('agree with Cephes at 2,000 random arguments', () => {
  const random = randomFrom(20);
  const log = (low: number, high: number) =>
    Math.exp(Math.log(low) + random.uniform() * Math.log(high / low));
  for (let i = 0; i < 2_000; i++) {
    const x = log(0.01, 400);
    near(logGamma(x), cephes.lgam(x), `lgam ${x}`);
    near(digamma(x), cephes.psi(x), `psi ${x}`);
    const shape = log(0.05, 300);
    const at = shape * log(0.1, 5);
    near(lowerGamma(shape, at), cephes.igam(shape, at), `igam ${shape} ${at}`);
    near(upperGamma(shape, at), cephes.igamc(shape, at), `igamc ${shape} ${at}`);
    const a = log(0.05, 200);
    const b = log(0.05, 200);
    const u = random.uniform();
    near(incompleteBeta(u, a, b), cephes.incbet(a, b, u), `incbet ${a} ${b} ${u}`);
    near(normalCdf(6 * u - 3), cephes.ndtr(6 * u - 3), `ndtr ${u}`);
    near(normalQuantile(u), cephes.ndtri(u), `ndtri ${u}`);
  }
});

test('beta quantiles agree with Cephes where its own inverse converges', () => {
  const random = randomFrom(21);
  for (let i = 0; i < 200; i++) {
    const a = 0.5 + 20 * random.uniform();
    const b = 0.5 + 20 * random.uniform();
    const p = 0.01 + 0.98 * random.uniform();
    expect(betaQuantile(p, a, b)).toBeCloseTo(cephes.incbi(a, b, p), 9);
  }
});
