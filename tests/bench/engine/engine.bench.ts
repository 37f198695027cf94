/**
 * How quick the engine is: against plain versions in the same run, and how cost grows with size.
 */
import { traceRoots, type TraceLog } from '../../../src/engine/index';
import { randomFrom } from '../../../src/engine/numeric/random';
import { startChain } from '../../../src/engine/roots/chain';
import { compileLog } from '../../../src/engine/roots/compile';
import { defaultLabelShares } from '../../../src/engine/roots/label';
import { defaultParameters } from '../../../src/engine/roots/parameters';
import { naiveQuick, type NaiveResult } from '../../oracles/engine/naive-quick';
import { naiveSampler } from '../../oracles/engine/naive-sampler';
import type { Bench } from '../bench';
import { benchLog } from './network';

const year = { items: 15_000, concepts: 2_000 };

function shapeOf(log: ReturnType<typeof benchLog>): string {
  const compiled = compileLog(log, {}, defaultParameters);
  const perMiss = compiled.rows.concept.length / compiled.rows.count;
  return `${log.items.length} items, ${compiled.missCount} misses, ${log.concepts.length} concepts, ${perMiss.toFixed(1)} sources a miss`;
}

/**
 * Two rounds of the plain version are work enough for the compiler to have done its best; two of ours
 * are over before it has begun.
 */
function compileHot(log: TraceLog): void {
  for (let k = 0; k < 20; k++) traceRoots(log);
}

type QuickAnswer = ReturnType<typeof traceRoots> | NaiveResult;

const quick: Bench = {
  name: 'engine: quick pass over a year, against objects and maps',
  repeats: 5,
  warmups: 2,
  prepare: (seed) => {
    const log = benchLog(seed, year.items, year.concepts);
    compileHot(log);
    return {
      data: shapeOf(log),
      // The plain version does not look for healed gaps: the same work is held against it.
      ours: { label: 'traceRoots', run: (): QuickAnswer => traceRoots(log, { heals: false }) },
      others: [
        { label: 'traceRoots, healed gaps too', run: (): QuickAnswer => traceRoots(log) },
        { label: 'objects and maps', run: (): QuickAnswer => naiveQuick(log, 90, 1e-3) },
      ],
      requireAgreement: (results) => {
        const ours = results[0] as ReturnType<typeof traceRoots>;
        const plain = results[2] as NaiveResult;
        // Both stop at a thousandth a pass, from different sides: a few that are slow to settle are still
        // on their way then.
        const apart = ours.roots.slice(0, 50).filter(({ conceptId, traced }) => {
          const other = plain.traced.get(conceptId) ?? 0;
          return Math.abs(traced - other) > 0.15 + 0.05 * other;
        });
        if (apart.length > 8)
          throw new Error(
            `${apart.length} of the first 50 roots differ by over 5 %; need at most 8`,
          );
      },
    };
  },
};

const warm: Bench = {
  name: 'engine: one more miss, from the last result',
  prepare: (seed) => {
    const log = benchLog(seed, year.items, year.concepts);
    const before = traceRoots({ ...log, items: log.items.slice(0, -1) });
    return {
      data: shapeOf(log),
      ours: {
        label: 'traceRoots, previous given',
        run: () => traceRoots(log, { previous: before }),
      },
      others: [{ label: 'traceRoots, from nothing', run: () => traceRoots(log) }],
    };
  },
};

const sweeps = 1_000;
/** Thrown away first: a chain that is far from its place draws many more events than later. */
const warmUpSweeps = 200;

const sampler: Bench = {
  name: `engine: ${sweeps.toLocaleString('en')} sweeps over a year, against objects and maps`,
  repeats: 3,
  warmups: 1,
  prepare: (seed) => {
    const log = benchLog(seed, year.items, year.concepts);
    const compiled = compileLog(log, {}, defaultParameters);
    const rate = new Float64Array(compiled.exposure.length).fill(0.1);
    const { gapShape, gapRate, soundRate } = defaultParameters;
    const start = { rate, slipRate: 0.1, gapShare: 0.1 };
    const chain = startChain(compiled, randomFrom(seed), start);
    const learning = startChain(compiled, randomFrom(seed), {
      ...start,
      gammas: { gapShape, gapRate, soundRate },
      labels: defaultLabelShares(defaultParameters),
    });
    const plain = naiveSampler(log, 90, randomFrom(seed));
    const times = (sweep: () => void) => {
      for (let k = 0; k < warmUpSweeps; k++) sweep();
      return () => {
        for (let k = 0; k < sweeps; k++) sweep();
      };
    };
    return {
      data: shapeOf(log),
      ours: { label: 'flat arrays', run: times(() => chain.sweep()) },
      others: [
        { label: 'flat arrays, learning gammas and labels', run: times(() => learning.sweep()) },
        { label: 'objects and maps', run: times(() => plain.sweep()) },
      ],
    };
  },
};

const growth: Bench[] = [1_000, 5_000, 15_000, 50_000, 150_000].map((items) => ({
  name: `engine: growth, quick pass over ${items} items`,
  repeats: 5,
  warmups: 2,
  prepare: (seed: number) => {
    const log = benchLog(seed, items, year.concepts);
    if (items <= 15_000) compileHot(log);
    return { data: shapeOf(log), ours: { label: 'traceRoots', run: () => traceRoots(log) } };
  },
}));

export const benches: readonly Bench[] = [quick, warm, sampler, ...growth];
