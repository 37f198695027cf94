/**
 * How popular each topic is, where right items are known only by count.
 *
 * Spreading right items like the misses would credit a gap with right answers it never had:
 * the more it is missed, the sounder it would look. Here the items x_t of a topic set are a
 * gamma about the mean over leaves, and those itemised a thinned Poisson count of them,
 *
 *     itemised_t ~ Poisson(x_t seen_t),   seen_t = m_t * (share of misses itemised)
 *                                               + (1 - m_t) * (share of right ones itemised),
 *
 * m_t the chance of a miss there by the present rates. So x_t given the rates is gamma again;
 * the right ones among the unitemised lie where x_t (1 - m_t) is. A set that is no single leaf
 * is known only through being itemised: its x_t is the Horvitz-Thompson estimate
 * itemised_t / seen_t (D. G. Horvitz & D. J. Thompson 1952, JASA 47:663-685).
 */
import { drawGamma } from '../numeric/sampling';
import type { Random } from '../numeric/random';
import type { CompiledLog, CountedSystem } from './compiled';

/**
 * Shape of the gamma of a topic's popularity. Some topics are asked far more often than others,
 * yet few hardly ever: a shape below 1 makes a gap of every topic with a few misses, as it lets
 * such a topic be all but unasked. Set on simulated candidates whose seeds are not reported.
 */
export const popularityShape = 1.5;

/**
 * Shares of the right items known by count over each system's sets, given rates.
 *
 * @param random draws popularity and placing; left out, expected values are taken
 */
export function rightShares(
  compiled: CompiledLog,
  rate: Float64Array,
  slipRate: number,
  random?: Random,
): Float64Array[] {
  return compiled.counted.map((system) => sharesOf(compiled, system, rate, slipRate, random));
}

/** What a system's counts say of its sets before any rate is known. */
export interface SeenShares {
  /** Share of the right items, and of the missed ones, that are itemised. */
  readonly rightSeen: number;
  readonly missedSeen: number;
  /** Mean items of a leaf. */
  readonly leafMean: number;
}

export function seenIn(system: CountedSystem): SeenShares {
  const { sets, isLeaf, itemised, right, missed, itemisedRight, itemisedMissed } = system;
  let leaves = 0;
  let onLeaves = 0;
  let everywhere = 0;
  for (let k = 0; k < sets.length; k++) {
    everywhere += itemised[k]!;
    if (isLeaf[k] === 0) continue;
    leaves += 1;
    onLeaves += itemised[k]!;
  }
  const leafShare = everywhere === 0 ? 1 : onLeaves / everywhere;
  const answered = right + missed + itemisedRight + itemisedMissed;
  return {
    rightSeen: right === 0 ? 1 : itemisedRight / (itemisedRight + right),
    missedSeen: itemisedMissed + missed === 0 ? 0 : itemisedMissed / (itemisedMissed + missed),
    leafMean: leaves === 0 ? 0 : (answered * leafShare) / leaves,
  };
}

function sharesOf(
  { topicSets }: CompiledLog,
  system: CountedSystem,
  rate: Float64Array,
  slipRate: number,
  random: Random | undefined,
): Float64Array {
  const { sets, isLeaf, itemised, right } = system;
  const shares = new Float64Array(sets.length);
  if (right === 0) return system.share;
  const { rightSeen, missedSeen, leafMean } = seenIn(system);

  let total = 0;
  for (let k = 0; k < sets.length; k++) {
    const set = sets[k]!;
    let mass = slipRate;
    for (let e = topicSets.start[set]!; e < topicSets.start[set + 1]!; e++)
      mass += topicSets.weight[e]! * rate[topicSets.concept[e]!]!;
    const rightChance = Math.exp(-mass);
    const seen = (1 - rightChance) * missedSeen + rightChance * rightSeen;
    let items: number;
    if (isLeaf[k] === 1 && leafMean > 0) {
      const shape = popularityShape + itemised[k]!;
      const divisor = popularityShape / leafMean + seen;
      items = (random ? drawGamma(random, shape) : shape) / divisor;
    } else if (itemised[k] === 0 || seen === 0) items = 0;
    else items = (random ? drawGamma(random, itemised[k]!) : itemised[k]!) / seen;
    // A Poisson count of right items, drawn as the gamma of the same mean and variance.
    const expected = items * rightChance;
    shares[k] = random && expected > 0 ? drawGamma(random, expected) : expected;
    total += shares[k]!;
  }
  if (!(total > 0)) return system.share;
  for (let k = 0; k < shares.length; k++) shares[k]! /= total;
  return shares;
}
