/** Adds up what kept sweeps show. */
import type { ChainState } from './chain';
import type { CompiledLog } from './compiled';

/** Places of the ranking that "in the first ten" means. */
const firstPlaces = 10;

/** Sums over sweeps, and the draws of the concepts some miss reaches. */
export interface Tally {
  /** Draws added up, of all chains. */
  readonly drawCount: number;
  readonly chains: number;
  /** Draws of each chain that are kept one by one. */
  readonly drawsPerChain: number;
  /** Shape (concepts,): sum of gap chances and of conditional mean rates. */
  readonly gapChance: Float64Array;
  readonly meanRate: Float64Array;
  /** Shape (concepts,): sum of exposures. */
  readonly exposure: Float64Array;
  /** Shape (entries,): first events, and those of a concept that was a gap. */
  readonly first: Float64Array;
  readonly firstAsGap: Float64Array;
  /** Shape (rows,): slips, in misses. */
  readonly slips: Float64Array;
  /** Shape (concepts,): sweeps in which the concept was among the first ten by traced misses. */
  readonly inFirst: Float64Array;
  /** Shape (reached, chains, drawsPerChain), flat. */
  readonly rateDraws: Float32Array;
  readonly tracedDraws: Float32Array;
  /** Shape (chains, drawsPerChain), flat. */
  readonly slipRateDraws: Float64Array;
  readonly gapShareDraws: Float64Array;
  /** Sums of the gammas' shape and rates. */
  readonly gammas: { gapShape: number; gapRate: number; soundRate: number };
  /** A few whole states, evenly spaced, for what is not linear in the rates. */
  readonly snapshots: { readonly rate: Float64Array; readonly slipRate: number }[];
  add(state: ChainState, chain: number): void;
  /** Keeps every second draw of each chain, to make room for as many more. Sums stay. */
  halve(): void;
}

export function startTally(
  compiled: CompiledLog,
  reached: Int32Array,
  chains: number,
  drawsPerChain: number,
  snapshotsMost: number,
): Tally {
  const { rows, exposure } = compiled;
  const conceptCount = exposure.length;
  const exposed = Int32Array.from(exposure.keys()).filter((c) => exposure[c]! > 0);
  const traced = new Float64Array(conceptCount);
  const drawsMost = chains * drawsPerChain;
  const every = Math.max(1, Math.floor(drawsMost / snapshotsMost));
  const kept = new Int32Array(chains);
  const tally = {
    drawCount: 0,
    gapChance: new Float64Array(conceptCount),
    meanRate: new Float64Array(conceptCount),
    exposure: new Float64Array(conceptCount),
    first: new Float64Array(rows.concept.length),
    firstAsGap: new Float64Array(rows.concept.length),
    slips: new Float64Array(rows.count),
    inFirst: new Float64Array(conceptCount),
    rateDraws: new Float32Array(reached.length * drawsMost),
    tracedDraws: new Float32Array(reached.length * drawsMost),
    chains,
    drawsPerChain,
    slipRateDraws: new Float64Array(drawsMost),
    gapShareDraws: new Float64Array(drawsMost),
    gammas: { gapShape: 0, gapRate: 0, soundRate: 0 },
    snapshots: [] as { rate: Float64Array; slipRate: number }[],
    add(state: ChainState, chain: number) {
      const { gap, firstEntry, firstCount, firstSlips } = state;
      const draw = chain * drawsPerChain + kept[chain]!;
      kept[chain]! += 1;
      for (const c of reached) traced[c] = 0;
      for (let r = 0; r < rows.count; r++) {
        if (rows.multiplicity[r] === 1) {
          const e = firstEntry[r]!;
          if (e < 0) {
            tally.slips[r]! += 1;
            continue;
          }
          tally.first[e]! += 1;
          const c = rows.concept[e]!;
          if (gap[c] === 1) {
            tally.firstAsGap[e]! += 1;
            traced[c]! += rows.time[e]!;
          }
          continue;
        }
        tally.slips[r]! += firstSlips[r]!;
        for (let e = rows.start[r]!; e < rows.start[r + 1]!; e++) {
          const count = firstCount[e]!;
          tally.first[e]! += count;
          const c = rows.concept[e]!;
          if (gap[c] === 1) {
            tally.firstAsGap[e]! += count;
            traced[c]! += count * rows.time[e]!;
          }
        }
      }

      for (const c of exposed) {
        const chance = state.gapChance[c]!;
        tally.gapChance[c]! += chance;
        tally.meanRate[c]! +=
          (chance * (state.gammas.gapShape + state.events[c]!)) /
            (state.gammas.gapRate + state.exposure[c]!) +
          ((1 - chance) * (state.gammas.soundShape + state.events[c]!)) /
            (state.gammas.soundRate + state.exposure[c]!);
        tally.exposure[c]! += state.exposure[c]!;
      }
      reached.forEach((c, k) => {
        tally.rateDraws[k * drawsMost + draw] = state.rate[c]!;
        tally.tracedDraws[k * drawsMost + draw] = traced[c]!;
      });
      markFirst(traced, reached, tally.inFirst);
      tally.slipRateDraws[draw] = state.slipRate;
      tally.gapShareDraws[draw] = state.gapShare;
      if (tally.drawCount % every === 0 && tally.snapshots.length < snapshotsMost) {
        const rate = state.rate.slice();
        for (const c of exposed)
          if (state.events[c] === 0 && rate[c] === 0) rate[c] = quietRate(state, gap[c] === 1, c);
        tally.snapshots.push({ rate, slipRate: state.slipRate });
      }
      tally.gammas.gapShape += state.gammas.gapShape;
      tally.gammas.gapRate += state.gammas.gapRate;
      tally.gammas.soundRate += state.gammas.soundRate;
      tally.drawCount += 1;
    },
    halve() {
      const half = Math.floor(drawsPerChain / 2);
      const all = [tally.rateDraws, tally.tracedDraws, tally.slipRateDraws, tally.gapShareDraws];
      for (const values of all)
        for (let start = 0; start < values.length; start += drawsPerChain)
          for (let k = 0; k < half; k++) values[start + k] = values[start + 2 * k + 1]!;
      kept.fill(half);
    },
  };
  return tally;
}

/** Mean rate of a concept in no miss, given its state. */
function quietRate({ exposure, gammas }: ChainState, gap: boolean, c: number): number {
  return gap
    ? gammas.gapShape / (gammas.gapRate + exposure[c]!)
    : gammas.soundShape / (gammas.soundRate + exposure[c]!);
}

/** Marks the concepts among the first ten; those tied for the last places share them. */
function markFirst(traced: Float64Array, reached: Int32Array, marks: Float64Array): void {
  // The largest few in falling order, put in one by one: most values are below the last of them.
  const largest: number[] = [];
  for (const c of reached) {
    const value = traced[c]!;
    if (value <= 0) continue;
    if (largest.length === firstPlaces) {
      if (value <= largest[firstPlaces - 1]!) continue;
      largest.pop();
    }
    let place = largest.length;
    while (place > 0 && largest[place - 1]! < value) place--;
    largest.splice(place, 0, value);
  }
  const last = largest.length < firstPlaces ? 0 : largest[firstPlaces - 1]!;
  const above = largest.filter((value) => value > last).length;
  let tied = 0;
  for (const c of reached) {
    if (traced[c]! > last) marks[c]! += 1;
    else if (traced[c]! === last) tied += 1;
  }
  if (last === 0) return;
  const share = (firstPlaces - above) / tied;
  for (const c of reached) if (traced[c]! === last) marks[c]! += share;
}
