/**
 * The long version of the sampler's proofs: ranks of the truth over 10,000 replications, and the
 * joint-distribution test over 400,000 sweeps. Timed like everything else here; what matters is
 * that a figure beyond its limit ends the run with an error.
 */
import {
  calibrationRanks,
  chiSquareOf,
  jointDistributionScores,
  quantities,
} from '../../oracles/engine/calibration';
import type { Bench } from '../bench';

/** 99.99 % point of chi-square with 19 degrees of freedom (from memory: 50.80). */
const chiSquareLimit = 50.8;
const scoreLimit = 5;

const ranks: Bench = {
  name: 'engine: calibration of the sampler, 10,000 replications',
  repeats: 1,
  warmups: 0,
  prepare: (seed) => ({
    data: `${quantities.length} quantities, 20 ranks; each chi-square below ${chiSquareLimit}`,
    ours: {
      label: 'simulation-based calibration',
      run: () => {
        const worst = calibrationRanks(10_000, 19, 8, seed).map((counts) =>
          chiSquareOf(counts, 20),
        );
        worst.forEach((chiSquare, q) => {
          if (chiSquare > chiSquareLimit)
            throw new Error(`${quantities[q]}: chi-square ${chiSquare.toFixed(1)}`);
        });
        return worst;
      },
    },
  }),
};

const joint: Bench = {
  name: 'engine: joint-distribution test of the sampler, 400,000 sweeps',
  repeats: 1,
  warmups: 0,
  prepare: (seed) => ({
    data: `21 test functions; each score below ${scoreLimit}`,
    ours: {
      label: 'sweeps with new data',
      run: () => {
        const scores = jointDistributionScores(400_000, seed);
        for (const score of scores)
          if (Math.abs(score) > scoreLimit) throw new Error(`a score of ${score.toFixed(2)}`);
        return scores;
      },
    },
  }),
};

export const benches: readonly Bench[] = [ranks, joint];
