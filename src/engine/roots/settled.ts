/** Remembers what a result settled on, for the next quick pass to start from. */
import type { CompiledLog } from './compiled';
import type { QuickStart, QuickState } from './quick-pass';
import type { TraceResult } from './types';

interface Settled {
  readonly compiled: CompiledLog;
  readonly state: QuickState;
}

// Kept beside the results, not in them: results stay plain, and go when nobody holds them.
const settledOf = new WeakMap<TraceResult, Settled>();

export function rememberSettled(
  result: TraceResult,
  compiled: CompiledLog,
  state: QuickState,
): void {
  settledOf.set(result, { compiled, state });
}

/** The moments an earlier result settled on, under the indices of another log; undefined without one. */
export function startFrom(
  previous: TraceResult | undefined,
  next: CompiledLog,
): QuickStart | undefined {
  const settled = previous && settledOf.get(previous);
  if (!settled) return undefined;
  const { compiled, state } = settled;
  const from = Int32Array.from(next.graph.ids, (id) => compiled.graph.indexOf.get(id) ?? -1);
  const moved = (values: Float64Array) =>
    Float64Array.from(from, (before) => (before < 0 ? 0 : values[before]!));
  return {
    events: moved(state.events),
    variance: moved(state.variance),
    third: moved(state.third),
    slipRate: state.slipRate,
    gapShare: state.gapShare,
  };
}
