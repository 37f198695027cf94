/**
 * What is known of a gap's rate where right items are known only by count: how often its topics were
 * asked is itself in doubt, so that no gamma of a known exposure holds.
 *
 * The other rates being as they were found, the rate of one concept has, of the misses r that it may be
 * the source of and the topic sets k that reach it (`popularity.ts` has their model),
 *
 *     prior of a gap's rate
 *       * product over r of (1 - exp(-Lambda_r)) * labelled mass_r / Lambda_r
 *       * product over k of the items of k integrated out: (a / mean + seen_k) ^ -(a + itemised_k)
 *
 * both products raised to what old evidence still counts. It is looked at on a grid, when asked for.
 */
import type { CompiledLog } from './compiled';
import { zOf95 } from './interval';
import { linkDoubt } from './link-doubt';
import { popularityShape, seenIn, type SeenShares } from './popularity';

/** Rates that are looked at: evenly spaced in their logarithm. A gap's rate lies between with all but certainty. */
const points = 48;
const lowest = 0.01;
const highest = 10;
const grid = Float64Array.from(
  { length: points },
  (_, i) => lowest * (highest / lowest) ** (i / (points - 1)),
);

/** Gives the 90 % interval of each concept's rate, were it a gap. */
export type GapRateIntervals = (concept: number) => readonly [number, number];

/**
 * @param rate shape (concepts,): the rates that were found
 * @param linked shape (concepts,): share of the exposure that comes through links
 * @returns undefined where no right item is known by count alone
 */
export function countedGapRates(
  compiled: CompiledLog,
  rate: Float64Array,
  slipRate: number,
  linked: Float64Array,
): GapRateIntervals | undefined {
  if (!compiled.counted.some(({ right }) => right > 0)) return undefined;
  let places: Places | undefined;
  return (c) => {
    places ??= placesOf(compiled);
    const logDensity = grid.map((each) => logPrior(compiled, each));
    addMisses(logDensity, compiled, places, c, rate, slipRate);
    addSets(logDensity, compiled, places, c, rate, slipRate);
    return intervalOf(logDensity, linkDoubt * linked[c]!);
  };
}

/** Where each concept stands: entries of rows `entry[rowStart[c] ..]`, and sets of counted systems. */
interface Places {
  readonly entryStart: Int32Array;
  readonly entries: Int32Array;
  readonly rowOf: Int32Array;
  readonly sets: readonly (readonly (readonly [system: number, k: number])[])[];
  /** By system. */
  readonly seen: readonly SeenShares[];
  /** What an itemised miss still counts, on average. */
  readonly meanTime: number;
}

function placesOf({ rows, exposure, counted, topicSets }: CompiledLog): Places {
  const entryCount = rows.concept.length;
  const entryStart = new Int32Array(exposure.length + 1);
  for (let e = 0; e < entryCount; e++) entryStart[rows.concept[e]! + 1]! += 1;
  for (let c = 0; c < exposure.length; c++) entryStart[c + 1]! += entryStart[c]!;
  const filled = entryStart.slice();
  const entries = new Int32Array(entryCount);
  const rowOf = new Int32Array(entryCount);
  let time = 0;
  for (let r = 0; r < rows.count; r++) {
    time += rows.slipTime[r]!;
    for (let e = rows.start[r]!; e < rows.start[r + 1]!; e++) {
      rowOf[e] = r;
      entries[filled[rows.concept[e]!]!++] = e;
    }
  }
  const sets: [number, number][][] = Array.from(exposure, () => []);
  counted.forEach((system, s) => {
    system.sets.forEach((set, k) => {
      for (let e = topicSets.start[set]!; e < topicSets.start[set + 1]!; e++)
        sets[topicSets.concept[e]!]!.push([s, k]);
    });
  });
  const seen = counted.map(seenIn);
  return {
    entryStart,
    entries,
    rowOf,
    sets,
    seen,
    meanTime: rows.count > 0 ? time / rows.count : 1,
  };
}

function logPrior({ parameters: { gapShape, gapRate } }: CompiledLog, rate: number): number {
  return (gapShape - 1) * Math.log(rate) - gapRate * rate;
}

function addMisses(
  logDensity: Float64Array,
  { rows }: CompiledLog,
  { entryStart, entries, rowOf }: Places,
  c: number,
  rate: Float64Array,
  slipRate: number,
): void {
  for (let at = entryStart[c]!; at < entryStart[c + 1]!; at++) {
    const own = entries[at]!;
    const r = rowOf[own]!;
    let others = slipRate;
    let labelled = slipRate * rows.slipLabel[r]!;
    for (let e = rows.start[r]!; e < rows.start[r + 1]!; e++) {
      if (e === own) continue;
      const mass = rows.weight[e]! * rate[rows.concept[e]!]!;
      others += mass;
      labelled += mass * rows.label[e]!;
    }
    const times = rows.time[own]! * rows.multiplicity[r]!;
    for (let i = 0; i < points; i++) {
      const mass = rows.weight[own]! * grid[i]!;
      const total = others + mass;
      logDensity[i]! +=
        times * Math.log((-Math.expm1(-total) * (labelled + mass * rows.label[own]!)) / total);
    }
  }
}

function addSets(
  logDensity: Float64Array,
  { topicSets, counted }: CompiledLog,
  { sets, seen: seenOf, meanTime }: Places,
  c: number,
  rate: Float64Array,
  slipRate: number,
): void {
  for (const [s, k] of sets[c]!) {
    const system = counted[s]!;
    const { rightSeen, missedSeen, leafMean } = seenOf[s]!;
    const set = system.sets[k]!;
    let others = slipRate;
    let weight = 0;
    for (let e = topicSets.start[set]!; e < topicSets.start[set + 1]!; e++) {
      if (topicSets.concept[e] === c) weight = topicSets.weight[e]!;
      else others += topicSets.weight[e]! * rate[topicSets.concept[e]!]!;
    }
    const isLeaf = system.isLeaf[k] === 1 && leafMean > 0;
    const shape = isLeaf ? popularityShape : 0;
    const known = isLeaf ? popularityShape / leafMean : 0;
    const itemised = system.itemised[k]! * meanTime;
    const itemisedAll = system.itemisedRight + system.itemisedMissed;
    const itemisedRight = itemisedAll > 0 ? (itemised * system.itemisedRight) / itemisedAll : 0;
    for (let i = 0; i < points; i++) {
      const total = others + weight * grid[i]!;
      const right = Math.exp(-total);
      const seen = (1 - right) * missedSeen + right * rightSeen;
      logDensity[i]! -= (shape + itemised) * Math.log(known + seen) + itemisedRight * total;
    }
  }
}

/**
 * The 5 % and 95 % points of a density over the logarithm of the rate, each moved from the middle as far
 * as `doubt`, a standard deviation of that logarithm, adds to the spread.
 */
function intervalOf(logDensity: Float64Array, doubt: number): readonly [number, number] {
  // Over ln(rate): times the rate.
  const onLog = logDensity.map((each, i) => each + Math.log(grid[i]!));
  const top = onLog.reduce((most, each) => Math.max(most, each), -Infinity);
  const density = onLog.map((each) => Math.exp(each - top));
  const sums = new Float64Array(points);
  for (let i = 1; i < points; i++) sums[i] = sums[i - 1]! + (density[i]! + density[i - 1]!) / 2;
  const at = (share: number): number => {
    const wanted = share * sums[points - 1]!;
    let i = 1;
    while (i < points - 1 && sums[i]! < wanted) i++;
    const step = sums[i]! - sums[i - 1]!;
    const part = step > 0 ? (wanted - sums[i - 1]!) / step : 0;
    return grid[i - 1]! * (grid[i]! / grid[i - 1]!) ** part;
  };
  const middle = at(0.5);
  const moved = (point: number): number =>
    Math.exp(Math.sqrt(Math.log(point / middle) ** 2 + (zOf95 * doubt) ** 2));
  return [middle / moved(at(0.05)), middle * moved(at(0.95))];
}
