/** Whether a concept is missed more or less than a window of time ago. */
import { zOf95 } from './interval';
import { windowBefore, windowNow, type CompiledLog } from './compiled';

/** Exposures a window must hold before its rate is worth a comparison. Common practice, no source. */
const leastExposure = 3;

/** Half a count more in each window's variance (H. Jeffreys' prior), so that none missed is not certainty. */
const jeffreys = 0.5;

/** A change in traced misses in 100 exposures, and its 90 % interval. */
export interface Trend {
  readonly change: number;
  readonly interval: readonly [number, number];
}

/**
 * Per concept, traced misses in 100 exposures in the window now less the same before,
 * neither weighted for time; undefined where a window holds too few exposures. The interval takes
 * the two counts as Poisson and their difference as normal.
 *
 * @param traced shape (entries,): the part of each miss traced to the entry's concept as a gap
 */
export function trendOf(compiled: CompiledLog, traced: Float64Array): (Trend | undefined)[] {
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
  return Array.from(seenNow, (now, c) => {
    const before = seenBefore[c]!;
    if (now < leastExposure || before < leastExposure) return undefined;
    const change = 100 * (missedNow[c]! / now - missedBefore[c]! / before);
    const variance =
      (missedNow[c]! + jeffreys) / (now * now) + (missedBefore[c]! + jeffreys) / (before * before);
    const half = 100 * zOf95 * Math.sqrt(variance);
    return { change, interval: [change - half, change + half] };
  });
}
