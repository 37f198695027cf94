/** The reading plan: how quick it is beside plain greedy, and how near to the exact best. */
import { planReadings, type ReadingPlan } from '../../../src/engine/index';
import { plainGreedy } from '../../oracles/engine/best-readings';
import { exactPlanner } from '../../oracles/engine/exact-readings';
import { randomInstance } from '../../oracles/engine/random-readings';
import type { Bench } from '../bench';

const large: Bench = {
  name: 'plan: 2,000 readings over 2,000 concepts, against plain greedy',
  prepare: (seed) => {
    const instance = {
      ...randomInstance(seed, 2_000, 2_000, (uniform) => (uniform < 0.5 ? 0.6 : 0.3)),
      budgetMinutes: 120,
    };
    const { readings, worth, budgetMinutes } = instance;
    return {
      data: `${readings.length} readings, ${worth.size} concepts, ${budgetMinutes} minutes`,
      ours: { label: 'planReadings', run: () => planReadings(instance) },
      others: [
        {
          label: 'planReadings, no starts and no swaps',
          run: () => planReadings(instance, { mostEvaluations: 0 }),
        },
        { label: 'plain greedy', run: () => plainGreedy(readings, worth, budgetMinutes) },
      ],
      requireAgreement: (results) => {
        const [ours, lazy, plain] = results.map((result) => (result as ReadingPlan).gain);
        if (ours! < lazy! - 1e-9 || lazy! < plain! - 1e-9)
          throw new Error(`gains ${ours}, ${lazy}, ${plain}: need each at least the next`);
      },
    };
  },
};

/** Instances with something that fits. */
const instanceCount = 1_000;

const exact: Bench = {
  name: `plan: ${instanceCount} random instances, against the exact best by HiGHS`,
  repeats: 1,
  warmups: 0,
  prepare: async (seed) => {
    const exactBest = await exactPlanner();
    const instances = Array.from({ length: 2 * instanceCount }, (_, k) =>
      randomInstance(seed + k, 8 + (k % 13), 6 + (k % 11), () => (k % 2 === 0 ? 1 : 0.6)),
    )
      .filter(({ readings, budgetMinutes }) =>
        readings.some(({ minutes }) => minutes <= budgetMinutes),
      )
      .slice(0, instanceCount);
    return {
      data: `${instances.length} instances of 8 to 20 readings`,
      ours: {
        label: 'planReadings',
        run: () => instances.map((instance) => planReadings(instance).gain),
      },
      others: [{ label: 'HiGHS', run: () => instances.map(exactBest) }],
      requireAgreement: ([ours, best]) => {
        const shares = (ours as number[]).map((gain, k) => gain / (best as number[])[k]!);
        const worst = Math.min(...shares);
        const mean = shares.reduce((sum, share) => sum + share, 0) / shares.length;
        console.log(
          `\n  share of the exact best: worst ${worst.toFixed(5)}, mean ${mean.toFixed(6)}`,
        );
        if (!(worst >= 1 - 1 / Math.E && mean >= 0.98)) throw new Error('too far from the best');
        if (shares.some((share) => share > 1 + 1e-5)) throw new Error('better than the best');
      },
    };
  },
};

export const benches: readonly Bench[] = [large, exact];
