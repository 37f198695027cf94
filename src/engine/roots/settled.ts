/** Remembers what a result settled on, for the next quick pass to start from. */
import type { CompiledLog } from './compiled';
import type { QuickStart, QuickState } from './quick-pass';
import type { TraceLog, TraceResult } from './tracing';

interface Settled {
  readonly compiled: CompiledLog;
  readonly state: QuickState;
  readonly itemIds: readonly string[];
}

// Kept beside the results, not in them: results stay plain, and go when nobody holds them.
const settledOf = new WeakMap<TraceResult, Settled>();

export function rememberSettled(
  result: TraceResult,
  compiled: CompiledLog,
  state: QuickState,
  log: TraceLog,
): void {
  settledOf.set(result, { compiled, state, itemIds: rowIds(log, compiled) });
}

/** The moments an earlier result settled on, under the indices of another log; undefined without one. */
export function startFrom(
  previous: TraceResult | undefined,
  next: CompiledLog,
  log: TraceLog,
): QuickStart | undefined {
  const settled = previous && settledOf.get(previous);
  if (!settled) return undefined;
  const { compiled, state, itemIds } = settled;
  const from = Int32Array.from(next.graph.ids, (id) => compiled.graph.indexOf.get(id) ?? -1);
  const counts = new Float64Array(3 * from.length);
  from.forEach((before, c) => {
    if (before >= 0) counts.set(state.counts.subarray(3 * before, 3 * before + 3), 3 * c);
  });
  return {
    contribution: movedRows(compiled, state.contribution, itemIds, next, rowIds(log, next)),
    counts,
    slipRate: state.slipRate,
    gapShare: state.gapShare,
  };
}

function rowIds(log: TraceLog, { rows }: CompiledLog): readonly string[] {
  return Array.from(rows.item, (item) => (item < 0 ? '' : log.items[item]!.id));
}

/** Contributions of the rows that both logs have, under the next one's entries; 0 elsewhere. */
function movedRows(
  before: CompiledLog,
  contribution: Float64Array,
  beforeIds: readonly string[],
  next: CompiledLog,
  nextIds: readonly string[],
): Float64Array {
  const moved = new Float64Array(next.rows.concept.length);
  let rowOf: Map<string, number> | undefined;
  for (let r = 0; r < next.rows.count; r++) {
    const id = nextIds[r]!;
    // Mostly nothing has moved.
    let from: number | undefined = r;
    if (beforeIds[r] !== id) {
      rowOf ??= new Map(beforeIds.map((each, k) => [each, k]));
      from = rowOf.get(id);
    }
    if (from === undefined || id === '') continue;
    const first = before.rows.start[from]!;
    const length = before.rows.start[from + 1]! - first;
    const start = next.rows.start[r]!;
    if (next.rows.start[r + 1]! - start !== length) continue;
    for (let k = 0; k < length; k++) {
      const same =
        before.graph.ids[before.rows.concept[first + k]!] ===
        next.graph.ids[next.rows.concept[start + k]!];
      if (same) moved[start + k] = contribution[first + k]!;
    }
  }
  return moved;
}
