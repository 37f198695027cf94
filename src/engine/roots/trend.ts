/** Whether a concept is missed more or less than a window of time ago. */
import { windowBefore, windowNow, type CompiledLog } from './compiled';

/** Exposures a window must hold before its rate is worth a comparison. Common practice, no source. */
const leastExposure = 3;

/**
 * Per concept, traced misses in 100 exposures in the window now less the same before,
 * neither weighted for time; undefined where a window holds too few exposures.
 *
 * @param traced shape (entries,): the part of each miss traced to the entry's concept as a gap
 */
export function trendOf(compiled: CompiledLog, traced: Float64Array): (number | undefined)[] {
  const { rows, topicSets, exposure } = compiled;
  const conceptCount = exposure.length;
  const seenNow = new Float64Array(conceptCount);
  const seenBefore = new Float64Array(conceptCount);
  for (let set = 0; set < topicSets.count; set++) {
    const now = topicSets.now[set]!;
    const before = topicSets.before[set]!;
    if (now === 0 && before === 0) continue;
    for (let k = topicSets.start[set]!; k < topicSets.start[set + 1]!; k++) {
      const weight = topicSets.weight[k]!;
      seenNow[topicSets.concept[k]!]! += now * weight;
      seenBefore[topicSets.concept[k]!]! += before * weight;
    }
  }
  const missedNow = new Float64Array(conceptCount);
  const missedBefore = new Float64Array(conceptCount);
  for (let r = 0; r < rows.count; r++) {
    const window = rows.window[r]!;
    const sum =
      window === windowNow ? missedNow : window === windowBefore ? missedBefore : undefined;
    if (!sum) continue;
    for (let e = rows.start[r]!; e < rows.start[r + 1]!; e++)
      sum[rows.concept[e]!]! += traced[e]! * rows.multiplicity[r]!;
  }
  const trend: (number | undefined)[] = [];
  for (let c = 0; c < conceptCount; c++) {
    const enough = seenNow[c]! >= leastExposure && seenBefore[c]! >= leastExposure;
    trend.push(
      enough
        ? (100 * missedNow[c]!) / seenNow[c]! - (100 * missedBefore[c]!) / seenBefore[c]!
        : undefined,
    );
  }
  return trend;
}
