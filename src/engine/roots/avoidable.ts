/** What mending a concept would save, and how often it is asked. */
import type { CompiledLog } from './compiled';

/**
 * Per concept, misses fewer in 100 items of the same mix, had it the rate of a sound concept:
 * the mean over the mix of exp(-Lambda) (exp(w (lambda - sound)) - 1), times 100; 0 where the
 * rate is no higher than a sound one, or nothing was answered.
 */
export function avoidableMisses(
  compiled: CompiledLog,
  faultRate: Float64Array,
  slipRate: number,
  soundMean: number,
): Float64Array {
  const { topicSets, mixTotal } = compiled;
  const avoidable = new Float64Array(faultRate.length);
  for (let set = 0; set < topicSets.count; set++) {
    const items = topicSets.mix[set]!;
    if (items === 0) continue;
    let total = slipRate;
    for (let k = topicSets.start[set]!; k < topicSets.start[set + 1]!; k++)
      total += topicSets.weight[k]! * faultRate[topicSets.concept[k]!]!;
    const right = items * Math.exp(-total);
    for (let k = topicSets.start[set]!; k < topicSets.start[set + 1]!; k++) {
      const concept = topicSets.concept[k]!;
      const excess = faultRate[concept]! - soundMean;
      if (excess > 0) avoidable[concept]! += right * Math.expm1(topicSets.weight[k]! * excess);
    }
  }
  if (mixTotal > 0) for (let c = 0; c < avoidable.length; c++) avoidable[c]! *= 100 / mixTotal;
  return avoidable;
}

/** Per concept, its exposure in 100 items of the mix, unweighted for time; 0 where nothing was answered. */
export function mixExposure(compiled: CompiledLog): Float64Array {
  const { topicSets, mixTotal, exposure } = compiled;
  const yields = new Float64Array(exposure.length);
  if (mixTotal === 0) return yields;
  for (let set = 0; set < topicSets.count; set++) {
    const items = (topicSets.mix[set]! * 100) / mixTotal;
    if (items === 0) continue;
    for (let k = topicSets.start[set]!; k < topicSets.start[set + 1]!; k++)
      yields[topicSets.concept[k]!]! += items * topicSets.weight[k]!;
  }
  return yields;
}
