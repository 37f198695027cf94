/** Tracing at once: compile, run the quick pass, read off the roots. */
import { requireCount, requirePositive } from '../numeric/check';
import { compileLog } from './compile';
import { defaultParameters } from './parameters';
import { settleQuickly } from './settle';
import { quickResult } from './quick-result';
import { rememberSettled } from './settled';
import type { TraceLog, TraceOptions, TraceResult } from './tracing';

/**
 * The roots of a log by the quick pass: deterministic, the same whatever the order of
 * concepts and items (up to rounding), and some frames for a year's log, half of them for healed gaps.
 *
 * @throws {RangeError} naming an unknown or repeated id, a loop in the map, a negative count,
 *   or a time or count that is no number
 *
 * @example
 * traceRoots({ now: 0, concepts: [], items: [], unitemised: [], readings: [] }).roots; // []
 */
export function traceRoots(log: TraceLog, options: TraceOptions = {}): TraceResult {
  // A short log is settled further, as its passes cost next to nothing.
  const fine = log.items.length < 2_000 ? 2e-5 : 1e-3;
  const { mostPasses = 400, tolerance = fine, previous } = options;
  requireCount('traceRoots', 'mostPasses', mostPasses, 1);
  requirePositive('traceRoots', 'tolerance', tolerance);
  const { compiled, state } = settleQuickly(
    compileLog(log, options, defaultParameters),
    mostPasses,
    tolerance,
    previous,
    log,
    options.heals,
  );
  const result = quickResult(log, compiled, state);
  rememberSettled(result, compiled, state, log);
  return result;
}
