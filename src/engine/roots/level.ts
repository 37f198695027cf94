/** Whether chances of a miss come to as many misses as there were. */
import { ageSpans, type CompiledLog } from './compiled';

/** Items that a level of 1 is worth, so that a short log stays near it. Common practice, no source. */
const priorItems = 40;

/**
 * The factor on all rates under which the log's own items, weighted for time, are missed as often as they
 * were. Rates of concepts that were asked about seldom stand where their prior has them, and with a
 * deep map many such rates meet in one item: together they may promise more misses than there are.
 *
 * 1 where right items are known by count alone, as it is not known what they were about.
 */
export function levelOf(compiled: CompiledLog, faultRate: Float64Array, slipRate: number): number {
  const { topicSets, rows, slipExposure, counted } = compiled;
  if (counted.length > 0 || slipExposure === 0) return 1;
  let missed = 0;
  for (let r = 0; r < rows.count; r++) missed += rows.slipTime[r]! * rows.multiplicity[r]!;
  const total = new Float64Array(topicSets.count).fill(slipRate);
  const weight = new Float64Array(topicSets.count);
  let placed = 0;
  for (let set = 0; set < topicSets.count; set++) {
    for (let k = topicSets.start[set]!; k < topicSets.start[set + 1]!; k++)
      total[set]! += topicSets.weight[k]! * faultRate[topicSets.concept[k]!]!;
    for (let span = 0; span < ageSpans; span++)
      weight[set]! += topicSets.byAge[set * ageSpans + span]!;
    placed += weight[set]!;
  }
  const expectedAt = (level: number): number => {
    let sum = (slipExposure - placed) * -Math.expm1(-level * slipRate);
    for (let set = 0; set < topicSets.count; set++)
      sum += weight[set]! * -Math.expm1(-level * total[set]!);
    return sum;
  };
  // As many items more, missed as often as a level of 1 has it.
  const share = expectedAt(1) / slipExposure;
  const wanted = missed + priorItems * share;
  const growth = 1 + priorItems / slipExposure;
  let low = 0.25;
  let high = 4;
  // 20 halvings: to a millionth.
  for (let i = 0; i < 20; i++) {
    const middle = Math.sqrt(low * high);
    if (growth * expectedAt(middle) < wanted) low = middle;
    else high = middle;
  }
  return Math.sqrt(low * high);
}
