/** How well the chains agree, by the quantities that a screen shows. */
import { convergenceOf, type Convergence } from '../numeric/convergence';
import type { Tally } from './tally';

/** Roots whose figures are watched for convergence: more than a screen shows at once. */
const watchedRoots = 20;
/** Limits of Vehtari et al. (2021), section 4: R-hat below 1.01, effective draws above 100 a chain. */
const mostRHat = 1.01;
const leastDrawsPerChain = 100;

export interface Agreement {
  readonly settled: boolean;
  readonly worstRHat: number;
  readonly leastEssBulk: number;
  readonly leastEssTail: number;
}

/** Looks at the slip rate, the share of gaps, and rate and traced misses of the first roots. */
export function agreementOf(tally: Tally): Agreement {
  const { chains, drawsPerChain } = tally;
  const draws = chains * drawsPerChain;
  const ofConcept = (values: Float32Array, k: number): Float32Array =>
    values.subarray(k * draws, (k + 1) * draws);
  const reachedCount = tally.tracedDraws.length / draws;
  const means = Array.from({ length: reachedCount }, (_, k) => ({
    k,
    traced: ofConcept(tally.tracedDraws, k).reduce((sum, each) => sum + each, 0),
  }));
  const first = means.sort((a, b) => b.traced - a.traced || a.k - b.k).slice(0, watchedRoots);
  const watched = [
    tally.slipRateDraws,
    tally.gapShareDraws,
    ...first.flatMap(({ k }) => [ofConcept(tally.rateDraws, k), ofConcept(tally.tracedDraws, k)]),
  ];
  const checks: Convergence[] = watched.map((values) =>
    convergenceOf(
      Array.from({ length: chains }, (_, chain) =>
        values.subarray(chain * drawsPerChain, (chain + 1) * drawsPerChain),
      ),
    ),
  );
  // Draws that never moved have no figures; there is nothing in them to disagree.
  const known = checks.filter((check) => !Number.isNaN(check.rHat));
  const worstRHat = Math.max(1, ...known.map((check) => check.rHat));
  const leastEssBulk = Math.min(draws, ...known.map((check) => check.essBulk));
  const tails = known.map((check) => check.essTail).filter((size) => size > 0);
  const leastEssTail = Math.min(draws, ...tails);
  return {
    settled:
      worstRHat < mostRHat && Math.min(leastEssBulk, leastEssTail) > leastDrawsPerChain * chains,
    worstRHat,
    leastEssBulk,
    leastEssTail,
  };
}
