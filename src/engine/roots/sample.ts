/** Tracing by sampling: several chains, their agreement, and what they say of each root. */
import { requireCount, requireFinite } from '../numeric/check';
import { randomFrom, type Random } from '../numeric/random';
import { drawGamma } from '../numeric/sampling';
import { agreementOf, type Agreement } from './agreement';
import { reachedConcepts, startChain, type Chain, type ChainStart } from './chain';
import { compileLog } from './compile';
import type { CompiledLog } from './compiled';
import { defaultLabelShares } from './label';
import { drawLabelShares } from './label-draws';
import { defaultParameters } from './parameters';
import type { QuickState } from './quick-pass';
import { quickResult } from './quick-result';
import { sampledResult } from './sampled-result';
import { settleQuickly } from './settle';
import { rememberSettled } from './settled';
import { startTally } from './tally';
import type { SampleOptions, TraceLog, TraceResult } from './tracing';

/** Why a sampling run ended without a result. */
export class SamplingCancelled extends Error {
  constructor() {
    super('sampleRoots: cancelled');
    this.name = 'SamplingCancelled';
  }
}

/** Sweeps between two looks at `cancelled`. */
const batchSize = 25;
/** Whole states kept for what is not linear in the rates. */
const snapshotsMost = 60;

/**
 * The roots of a log by Gibbs sampling.
 *
 * The same log and seed give the same result in whatever order concepts and items come.
 * The chains run on, twice as long and twice again, until they agree. Where they still do not `diagnostics.converged` is false and the result is given all the same.
 *
 * @throws {RangeError} (as a rejection) as `traceRoots`, or naming an option
 * @throws {SamplingCancelled} (as a rejection) once `options.cancelled` says so
 *
 * @example
 * const result = await sampleRoots(log, { seed: 7, onProgress: ({ sweepsDone }) => show(sweepsDone) });
 */
export async function sampleRoots(
  log: TraceLog,
  options: SampleOptions = {},
): Promise<TraceResult> {
  const { seed = 1, sweeps = 1_000, warmUp = 400, chains = 4, mostDoublings = 2 } = options;
  requireFinite('sampleRoots', 'seed', seed);
  requireCount('sampleRoots', 'sweeps', sweeps, 4);
  requireCount('sampleRoots', 'warmUp', warmUp);
  requireCount('sampleRoots', 'chains', chains, 1);
  requireCount('sampleRoots', 'mostDoublings', mostDoublings);
  const sorted = sortedLog(log);
  const { compiled, state: quick } = settleQuickly(
    compileLog(sorted, options, defaultParameters),
    200,
    1e-3,
    options.previous,
    sorted,
    options.heals,
  );
  const learn = options.learn ?? mostlyItemised(compiled);

  const reached = reachedConcepts(compiled);
  const tally = startTally(compiled, reached, chains, sweeps, snapshotsMost);
  const seeds = randomFrom(seed);
  const running = Array.from({ length: chains }, () => {
    const random = randomFrom(seeds.word());
    return startChain(
      compiled,
      random,
      scatteredStart(compiled, quick, random, learn, options.learn ?? true),
    );
  });
  const furtherDraws = Math.ceil(sweeps / 2);
  // 2 + 4 + ... apart.
  const furtherSweeps = furtherDraws * (2 ** (mostDoublings + 1) - 2);
  const sweepsTotal = chains * (warmUp + sweeps + furtherSweeps);
  let sweepsDone = 0;
  const sweepOnce = async (chain: Chain): Promise<void> => {
    chain.sweep();
    sweepsDone += 1;
    if (sweepsDone % batchSize !== 0 && sweepsDone !== sweepsTotal) return;
    options.onProgress?.({ sweepsDone, sweepsTotal });
    await options.pause?.();
    if (options.cancelled?.()) throw new SamplingCancelled();
  };

  for (const chain of running) for (let sweep = 0; sweep < warmUp; sweep++) await sweepOnce(chain);
  let agreement: Agreement | undefined;
  for (let doublings = 0; !agreement?.settled && doublings <= mostDoublings; doublings++) {
    // As many more draws, further apart: every second one of the old makes room.
    if (doublings > 0) tally.halve();
    const apart = 2 ** doublings;
    const more = doublings === 0 ? sweeps : furtherDraws;
    for (const [k, chain] of running.entries())
      for (let draw = 0; draw < more; draw++) {
        for (let sweep = 0; sweep < apart; sweep++) await sweepOnce(chain);
        tally.add(chain.state, k);
      }
    agreement = agreementOf(tally);
  }
  if (sweepsDone < sweepsTotal) options.onProgress?.({ sweepsDone: sweepsTotal, sweepsTotal });

  const atOnce = quickResult(sorted, compiled, quick);
  const result = sampledResult(sorted, compiled, reached, tally, agreement!, atOnce);
  rememberSettled(result, compiled, quick, sorted);
  return result;
}

/**
 * Whether most right items are itemised. Where they are not, the rates of sound concepts hang on
 * where the right items are taken to lie, and learning from the one what was assumed of the other
 * makes the chances surer than they are right.
 */
function mostlyItemised({ itemCount, missCount, counted }: CompiledLog): boolean {
  const counts = counted.reduce((sum, system) => sum + system.right, 0);
  return itemCount - missCount >= counts;
}

/** Concepts and items by id, so that draws meet them in the same order every time. */
function sortedLog(log: TraceLog): TraceLog {
  const byId = (a: { readonly id: string }, b: { readonly id: string }) =>
    a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
  return { ...log, concepts: [...log.concepts].sort(byId), items: [...log.items].sort(byId) };
}

/** A start about the quick pass, scattered wider than the posterior so that agreement means something. */
function scatteredStart(
  compiled: CompiledLog,
  quick: QuickState,
  random: Random,
  learnGammas: boolean,
  learnLabels: boolean,
): ChainStart {
  const { gapShare, slipRate, model, counts } = quick;
  model.priorOdds = gapShare / (1 - gapShare);
  const rate = new Float64Array(compiled.exposure.length);
  for (const c of reachedConcepts(compiled)) {
    model.evaluate(c, counts);
    // An exponential factor of mean 1: a spread of its own size about each rate.
    rate[c] = model.answer[0]! * drawGamma(random, 1);
  }
  const { gapShape, gapRate, soundRate } = compiled.parameters;
  const labels = defaultLabelShares(compiled.parameters);
  if (learnLabels) drawLabelShares(random, compiled.parameters, labels);
  return {
    rate,
    slipRate,
    gapShare,
    ...(learnGammas ? { gammas: { gapShape, gapRate, soundRate } } : {}),
    ...(learnLabels ? { labels } : {}),
  };
}
