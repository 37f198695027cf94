/**
 * How popular each topic is, where right items are known only by count.
 *
 * Spreading right items like the misses would credit a gap with right answers it never had:
 * the more it is missed, the sounder it would look. Here the items x_t of a leaf follow Zipf's law
 * (G. K. Zipf 1949, "Human Behavior and the Principle of Least Effort"): the r-th most popular of
 * L leaves has 1 / r of the first one's items, so that x_t has density x^-2 between its least and L
 * times that. Those itemised are a thinned Poisson count of them,
 *
 *     itemised_t ~ Poisson(x_t seen_t),   seen_t = m_t * (share of misses itemised)
 *                                               + (1 - m_t) * (share of right ones itemised),
 *
 * m_t the chance of a miss there by the present rates. Given the rates x_t is drawn, or its mean
 * taken, over a grid; the right ones among the unitemised lie where x_t (1 - m_t) is. A set that is
 * no single leaf is known only through being itemised: its x_t is the Horvitz-Thompson estimate
 * itemised_t / seen_t (D. G. Horvitz & D. J. Thompson 1952, JASA 47:663-685).
 *
 * The floor matters more than the tail: a law that lets most topics be all but unasked (a gamma of
 * shape below 1) makes a gap of every topic with a few misses.
 */
import { drawGamma } from '../numeric/sampling';
import type { Random } from '../numeric/random';
import type { CompiledLog, CountedSystem } from './compiled';

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

function sharesOf(
  { topicSets }: CompiledLog,
  system: CountedSystem,
  rate: Float64Array,
  slipRate: number,
  random: Random | undefined,
): Float64Array {
  const { sets, isLeaf, itemised, right, missed, itemisedRight, itemisedMissed } = system;
  const shares = new Float64Array(sets.length);
  if (right === 0) return system.share;
  const rightSeen = itemisedRight / (itemisedRight + right);
  const missedSeen = itemisedMissed + missed === 0 ? 0 : itemisedMissed / (itemisedMissed + missed);
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
  const leafMean =
    leaves === 0 ? 0 : ((right + missed + itemisedRight + itemisedMissed) * leafShare) / leaves;

  const grid = zipfGrid(leafMean, leaves);

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
      items = popularity(grid, itemised[k]!, seen, random);
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

/** Points of the grid, evenly spaced in the logarithm. */
const gridSize = 24;

/** Items of a leaf between the least and `leaves` times the least popular, with the given mean. */
function zipfGrid(mean: number, leaves: number): Float64Array {
  if (leaves < 2) return Float64Array.of(mean);
  // The mean of density x^-2 between m and m L is m ln(L) L / (L - 1).
  const least = (mean * (leaves - 1)) / (leaves * Math.log(leaves));
  return Float64Array.from(
    { length: gridSize },
    (_, k) => least * Math.pow(leaves, k / (gridSize - 1)),
  );
}

const gridMass = new Float64Array(gridSize);

/** The items of a leaf given how many were itemised: a draw, or without a generator the mean. */
function popularity(
  grid: Float64Array,
  itemised: number,
  seen: number,
  random: Random | undefined,
): number {
  // Density x^-2 times the spacing x, times the Poisson likelihood x^itemised exp(-x seen).
  let top = -Infinity;
  for (let k = 0; k < grid.length; k++) {
    const x = grid[k]!;
    gridMass[k] = (itemised - 1) * Math.log(x) - x * seen;
    if (gridMass[k]! > top) top = gridMass[k]!;
  }
  let sum = 0;
  let mean = 0;
  for (let k = 0; k < grid.length; k++) {
    const mass = Math.exp(gridMass[k]! - top);
    gridMass[k] = mass;
    sum += mass;
    mean += mass * grid[k]!;
  }
  if (!random) return mean / sum;
  let u = random.uniform() * sum;
  for (let k = 0; k < grid.length; k++) {
    u -= gridMass[k]!;
    if (u < 0) return grid[k]!;
  }
  return grid[grid.length - 1]!;
}
