/**
 * The engine's own predictions: each stretch of the log foretold from what lay before it, and how
 * it came out (A. P. Dawid 1984, "Statistical theory: the prequential approach", JRSS A 147:278-292).
 */
import { traceRoots } from './trace';
import { leastItemsForHalfLife } from './half-life';
import { logBefore, stretchesOf } from './stretches';
import type { TraceLog, TraceResult } from './tracing';

/** Items of one time, as foretold at an earlier one. */
export interface ForetoldItems {
  readonly madeAt: number;
  readonly at: number;
  readonly items: number;
  readonly right: number;
  readonly expectedRight: number;
}

export interface Foretold {
  /** `few-items` and `misses-only`: nothing to foretell from, as in `chooseHalfLife`. */
  readonly kind: 'foretold' | 'few-items' | 'misses-only';
  /** Chance that an item of the log's own mix is right, as things stand now. */
  readonly now: number;
  /** Every later time foretold from each stretch's beginning: all reaches. */
  readonly blocks: readonly ForetoldItems[];
  /** Items of the stretch right after each prediction. */
  readonly items: readonly { readonly chance: number; readonly right: boolean }[];
}

/**
 * Foretells the log from its own past at up to ten points. Costs up to eleven quick passes.
 *
 * @throws {RangeError} as `traceRoots`
 */
export function foretell(
  log: TraceLog,
  options: { readonly halfLifeDays?: number } = {},
): Foretold {
  const items = [...log.items].sort(
    (a, b) => a.at - b.at || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0),
  );
  const none = { now: 0, blocks: [], items: [] };
  if (items.length < leastItemsForHalfLife) return { kind: 'few-items', ...none };
  const right = items.filter((item) => !item.missed).length;
  if (right < items.length / 4) return { kind: 'misses-only', ...none };

  const blocks: ForetoldItems[] = [];
  const single: { chance: number; right: boolean }[] = [];
  let previous: TraceResult | undefined;
  for (const { before, stretch, at } of stretchesOf(items)) {
    const result: TraceResult = traceRoots(logBefore(log, before, at), {
      ...options,
      ...(previous ? { previous } : {}),
    });
    previous = result;
    for (const item of stretch)
      single.push({ chance: 1 - result.missChance(item), right: !item.missed });
    const later = items.slice(before.length);
    for (let start = 0; start < later.length;) {
      let end = start;
      const sum = { items: 0, right: 0, expectedRight: 0 };
      for (; end < later.length && later[end]!.at === later[start]!.at; end++) {
        sum.items += 1;
        sum.right += later[end]!.missed ? 0 : 1;
        sum.expectedRight += 1 - result.missChance(later[end]!);
      }
      blocks.push({ madeAt: at, at: later[start]!.at, ...sum });
      start = end;
    }
  }
  const today = traceRoots(log, { ...options, ...(previous ? { previous } : {}) });
  const now = items.reduce((sum, item) => sum + 1 - today.missChance(item), 0) / items.length;
  return { kind: 'foretold', now, blocks, items: single };
}
