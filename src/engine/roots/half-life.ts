/**
 * How fast evidence should age, by how well the past foretold what came next.
 *
 * Prequential log loss: A. P. Dawid (1984), "Statistical theory: the prequential approach",
 * JRSS A 147:278-292. Each stretch of items is foretold from what lies before it, for each
 * half-life; the one whose foretelling was best is taken.
 */
import { defaultHalfLifeDays } from './parameters';
import { logBefore, stretchesOf } from './stretches';
import { traceRoots } from './trace';
import type { TraceLog, TraceResult } from './tracing';

/** Half-lives that are tried, in days. */
export const halfLives: readonly number[] = [30, 60, 90, 180, Infinity];
/** With fewer items the default stands. */
export const leastItemsForHalfLife = 400;

/** How one half-life did: mean of -ln of the chance given to what happened, in nats an item. */
export interface HalfLifeLoss {
  readonly halfLifeDays: number;
  readonly logLoss: number;
}

export interface HalfLifeChoice {
  readonly halfLifeDays: number;
  /**
   * Why: `best` foretold best, by more than chance; `close` no other did better than the default
   * by more than chance; `few-items` too few items yet; `misses-only` nothing to foretell, as items
   * answered right are not itemised.
   */
  readonly kind: 'best' | 'close' | 'few-items' | 'misses-only';
  /** In the order of `halfLives`; empty unless items were foretold. */
  readonly losses: readonly HalfLifeLoss[];
  /** Items that were foretold. */
  readonly itemCount: number;
}

/**
 * The half-life under which the log foretells itself best. The default of 90 days stands unless
 * another beats it by more than one standard error of their paired difference (the
 * one-standard-error rule of L. Breiman et al. 1984, "Classification and Regression Trees", ch. 3):
 * on a steady log the losses differ by hundredths of a nat, and a choice by chance would forget for nothing.
 *
 * Takes up to 50 quick passes over at most the whole log.
 *
 * @throws {RangeError} as `traceRoots`
 *
 * @example
 * chooseHalfLife(emptyLog); // { halfLifeDays: 90, kind: 'few-items', losses: [], itemCount: 0 }
 */
export function chooseHalfLife(log: TraceLog): HalfLifeChoice {
  const none = { halfLifeDays: defaultHalfLifeDays, losses: [], itemCount: 0 };
  const items = [...log.items].sort(
    (a, b) => a.at - b.at || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0),
  );
  if (items.length < leastItemsForHalfLife) return { ...none, kind: 'few-items' };
  // Where right items are itemised only by accident, a foretold miss always comes true.
  const right = items.filter((item) => !item.missed).length;
  if (right < items.length / 4) return { ...none, kind: 'misses-only' };

  const stretches = stretchesOf(items);
  const losses = halfLives.map((halfLifeDays) => {
    const loss: number[] = [];
    let previous: TraceResult | undefined;
    for (const { before, stretch, at } of stretches) {
      const result: TraceResult = traceRoots(logBefore(log, before, at), {
        halfLifeDays,
        // How fast to forget is asked of forgetting alone, and asked fifty times.
        heals: false,
        tolerance: 1e-3,
        ...(previous ? { previous } : {}),
      });
      for (const item of stretch) {
        const chance = result.missChance(item);
        // Chances of exactly 0 cannot come of a slip rate above 0; 1 can, by rounding.
        loss.push(-Math.log(item.missed ? chance : Math.max(1e-12, 1 - chance)));
      }
      previous = result;
    }
    return { halfLifeDays, loss, total: loss.reduce((sum, each) => sum + each, 0) };
  });
  const itemCount = stretches.reduce((sum, { stretch }) => sum + stretch.length, 0);
  const standing = losses.find(({ halfLifeDays }) => halfLifeDays === defaultHalfLifeDays)!;
  const best = losses.reduce((least, each) => (each.total < least.total ? each : least), standing);
  const clear = standing.total - best.total > errorOfDifference(standing.loss, best.loss);
  return {
    halfLifeDays: clear ? best.halfLifeDays : defaultHalfLifeDays,
    kind: clear ? 'best' : 'close',
    losses: losses.map(({ halfLifeDays, total }) => ({ halfLifeDays, logLoss: total / itemCount })),
    itemCount,
  };
}

/** Standard error of the sum of paired differences. */
function errorOfDifference(one: readonly number[], other: readonly number[]): number {
  const differences = one.map((each, i) => each - other[i]!);
  const mean = differences.reduce((sum, each) => sum + each, 0) / differences.length;
  const squares = differences.reduce((sum, each) => sum + (each - mean) ** 2, 0);
  return Math.sqrt(squares);
}
