/**
 * The quick pass together with what has to be learned beside it: where counted items lie, and which
 * gaps have healed.
 */
import type { CompiledLog } from './compiled';
import { placeCounted } from './counted';
import { discountHealed, findHealed } from './healing';
import { rightShares } from './popularity';
import { quickPass, type QuickStart, type QuickState } from './quick-pass';
import { startFrom } from './settled';
import type { TraceLog, TraceResult } from './tracing';

/** A log as compiled, and what the passes over it settled on. */
export interface SettledLog {
  readonly compiled: CompiledLog;
  readonly state: QuickState;
}

/** Rounds of placing counted items by the rates and settling the rates again. */
const rounds = 5;
export function settleQuickly(
  compiled: CompiledLog,
  mostPasses: number,
  tolerance: number,
  previous: TraceResult | undefined,
  log: TraceLog,
  heals = true,
): SettledLog {
  const settled = settleOnce(compiled, mostPasses, tolerance, startFrom(previous, compiled, log));
  const healed = heals ? findHealed(compiled, settled.state) : undefined;
  return healed
    ? settleOnce(discountHealed(compiled, healed), mostPasses, tolerance, settled.state)
    : settled;
}

function settleOnce(
  compiled: CompiledLog,
  mostPasses: number,
  tolerance: number,
  start: QuickStart | undefined,
): SettledLog {
  let placed = compiled;
  if (!compiled.counted.some((system) => system.right > 0))
    return { compiled, state: quickPass(compiled, mostPasses, tolerance, start) };

  // The first placing takes every topic as alike: a rate of nothing but slips.
  let state: QuickState | undefined;
  for (let round = 0; round < rounds; round++) {
    const rate = state ? ratesOf(placed, state) : new Float64Array(compiled.exposure.length);
    const slipRate = state?.slipRate ?? 1;
    placed = placeCounted(placed, rightShares(placed, rate, slipRate));
    state = quickPass(placed, mostPasses, tolerance, state ?? start);
  }
  return { compiled: placed, state: state! };
}

function ratesOf(compiled: CompiledLog, state: QuickState): Float64Array {
  const { model, counts } = state;
  model.priorOdds = state.gapShare / (1 - state.gapShare);
  return compiled.exposure.map((_, c) => {
    model.evaluate(c, counts);
    return model.answer[0]!;
  });
}
