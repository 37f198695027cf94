/**
 * Whether a gap has healed: it was one, and what has been answered lately shows it to be sound.
 *
 * Evidence fades by half in months; a gap read about two weeks ago would linger for as long, the more
 * so as its rate of old draws misses of today to itself. So the latest items are traced by themselves,
 * as if nothing were known from before, and the chance of a gap is carried forward to them:
 *
 *     odds of a gap now = odds of (a gap in all the log, and not healed since)
 *                         * odds of a gap in the latest items / prior odds of a gap
 *
 * (a hidden state that may change once, filtered: L. E. Baum & T. Petrie 1966, "Statistical inference
 * for probabilistic functions of finite state Markov chains", Ann. Math. Statist. 37:1554-1563). What is
 * older counts times the chance that the gap has not healed.
 */
import { createWorkspace } from '../numeric/workspace';
import { ageSpans, agesDays, type CompiledLog, type MissRows } from './compiled';
import { quickPass, type QuickState } from './quick-pass';

/** Chance that a gap has healed by the time the latest items begin; where it was read about. Common practice, no source. */
const healing = 0.2;
const healingWhenRead = 0.5;
/** With fewer misses lately there is nothing to trace by itself. */
const leastMisses = 5;
/** A chance below this is left alone: a few hundred concepts have some by luck. */
const leastChance = 0.1;
/** How firmly the latest items are held to the log's own slip rate, in slips. */
const slipsKnown = 5;
/** How firmly to its share of gaps, in times the prior's own weight: it is as good as given. */
const gapsKnown = 1e6;

/**
 * Older evidence keeps this power of the chance that the gap has not healed. A gap stands on old misses
 * however few of them are left, so that the plain chance would let it linger. Set on simulated candidates
 * whose seeds are not reported: at 1 healed gaps kept a chance of .25, at 4 lasting ones lost theirs.
 */
const firmness = 3;

const msPerDay = 86_400_000;
const workspace = createWorkspace();

/** Per concept, shape (concepts,): chance of having healed, and the first span that is older than that. */
export interface Healed {
  readonly chance: Float64Array;
  readonly olderFrom: Uint8Array;
}

/**
 * The healed concepts by what the quick pass settled on; undefined where there are none.
 *
 * @param compiled the log with nothing discounted for healing
 * @param state the passes over all of it
 */
export function findHealed(compiled: CompiledLog, state: QuickState): Healed | undefined {
  const { exposure, lastRead } = compiled;
  const conceptCount = exposure.length;
  const gapBefore = gapChances(state, conceptCount);
  workspace.begin();
  const touched = exposureByAge(compiled, workspace.floats(conceptCount * ageSpans));
  const chance = new Float64Array(conceptCount);
  const olderFrom = new Uint8Array(conceptCount);
  let found = false;
  for (let to = 1; to < ageSpans; to++) {
    const lately = latestOf(compiled, state, to, touched);
    if (!lately) continue;
    const latest = quickPass(lately, 100, 1e-3);
    const gapLately = gapChances(latest, conceptCount);
    const priorOdds = latest.gapShare / (1 - latest.gapShare);
    for (let c = 0; c < conceptCount; c++) {
      if (gapBefore[c]! < leastChance) continue;
      const prior = (lastRead[c]! > -Infinity ? healingWhenRead : healing) / agesDays.length;
      const still = gapBefore[c]! * (1 - prior);
      const odds = ((still / (1 - still)) * (gapLately[c]! / (1 - gapLately[c]!))) / priorOdds;
      const healed = gapBefore[c]! - odds / (1 + odds);
      if (healed < leastChance || healed <= chance[c]!) continue;
      chance[c] = healed;
      olderFrom[c] = to;
      found = true;
    }
  }
  return found ? { chance, olderFrom } : undefined;
}

function gapChances({ model, counts, gapShare }: QuickState, conceptCount: number): Float64Array {
  const chances = new Float64Array(conceptCount);
  model.priorOdds = gapShare / (1 - gapShare);
  for (let c = 0; c < conceptCount; c++) {
    model.evaluate(c, counts);
    // Kept from 0 and 1, where odds have no end.
    chances[c] = Math.max(1e-9, Math.min(1 - 1e-9, model.answer[2]!));
  }
  return chances;
}

/** The log of the spans of age below `to` alone; undefined where it is all of the log, or next to nothing. */
function latestOf(
  compiled: CompiledLog,
  { slipRate, gapShare }: QuickState,
  to: number,
  touched: Float64Array,
): CompiledLog | undefined {
  const { rows, parameters, slipByAge } = compiled;
  const chosen: number[] = [];
  let misses = 0;
  for (let r = 0; r < rows.count; r++) {
    if (rows.ageSpan[r]! >= to) continue;
    chosen.push(r);
    misses += rows.multiplicity[r]!;
  }
  if (chosen.length === rows.count || misses < leastMisses) return undefined;
  const exposure = new Float64Array(compiled.exposure.length);
  let slipExposure = 0;
  for (let span = 0; span < to; span++) {
    slipExposure += slipByAge[span]!;
    for (let c = 0; c < exposure.length; c++) exposure[c]! += touched[c * ageSpans + span]!;
  }
  const { gapShareFor, gapShareAgainst } = parameters;
  const weight = gapsKnown * (gapShareFor + gapShareAgainst);
  return {
    ...compiled,
    rows: someRows(rows, chosen),
    exposure,
    slipExposure,
    parameters: {
      ...parameters,
      slipShape: slipsKnown,
      slipRate: slipsKnown / slipRate,
      gapShareFor: weight * gapShare,
      gapShareAgainst: weight * (1 - gapShare),
    },
  };
}

function someRows(rows: MissRows, chosen: readonly number[]): MissRows {
  const start = new Int32Array(chosen.length + 1);
  chosen.forEach((r, k) => {
    start[k + 1] = start[k]! + rows.start[r + 1]! - rows.start[r]!;
  });
  const entries = new Int32Array(start[chosen.length]!);
  chosen.forEach((r, k) => {
    for (let e = rows.start[r]!; e < rows.start[r + 1]!; e++)
      entries[start[k]! + e - rows.start[r]!] = e;
  });
  const ofRows = <T extends Float64Array | Int32Array | Uint8Array>(from: T, into: T): T => {
    chosen.forEach((r, k) => (into[k] = from[r]!));
    return into;
  };
  const ofEntries = <T extends Float64Array | Int32Array | Uint8Array>(from: T, into: T): T => {
    entries.forEach((e, k) => (into[k] = from[e]!));
    return into;
  };
  const floats = (from: Float64Array) => ofRows(from, new Float64Array(chosen.length));
  const ints = (from: Int32Array) => ofRows(from, new Int32Array(chosen.length));
  const bytes = (from: Uint8Array) => ofRows(from, new Uint8Array(chosen.length));
  return {
    count: chosen.length,
    start,
    concept: ofEntries(rows.concept, new Int32Array(entries.length)),
    weight: ofEntries(rows.weight, new Float64Array(entries.length)),
    label: ofEntries(rows.label, new Float64Array(entries.length)),
    named: ofEntries(rows.named, new Uint8Array(entries.length)),
    time: ofEntries(rows.time, new Float64Array(entries.length)),
    slipLabel: floats(rows.slipLabel),
    slipTime: floats(rows.slipTime),
    causeCount: ints(rows.causeCount),
    labelTopic: floats(rows.labelTopic),
    labelNear: floats(rows.labelNear),
    labelStray: floats(rows.labelStray),
    slipRatio: floats(rows.slipRatio),
    multiplicity: ints(rows.multiplicity),
    system: ints(rows.system),
    window: bytes(rows.window),
    ageSpan: bytes(rows.ageSpan),
    item: ints(rows.item),
  };
}

/**
 * Per concept and span of age, the weighted items that touched it; together its exposure. What readings
 * took is taken off by whole spans.
 */
function exposureByAge(compiled: CompiledLog, into: Float64Array): Float64Array {
  const { topicSets, counted, lastRead, now, parameters, exposure } = compiled;
  for (let set = 0; set < topicSets.count; set++)
    for (let k = topicSets.start[set]!; k < topicSets.start[set + 1]!; k++)
      for (let span = 0; span < ageSpans; span++)
        into[topicSets.concept[k]! * ageSpans + span]! +=
          topicSets.weight[k]! * topicSets.byAge[set * ageSpans + span]!;
  for (const { sets, share, answeredByAge } of counted)
    for (let k = 0; k < sets.length; k++)
      for (let e = topicSets.start[sets[k]!]!; e < topicSets.start[sets[k]! + 1]!; e++)
        for (let span = 0; span < ageSpans; span++)
          into[topicSets.concept[e]! * ageSpans + span]! +=
            topicSets.weight[e]! * share[k]! * answeredByAge[span]!;
  for (let c = 0; c < exposure.length; c++) {
    const at = c * ageSpans;
    if (lastRead[c]! > -Infinity) {
      const readDays = (now - lastRead[c]!) / msPerDay;
      for (let span = 1; span < ageSpans; span++)
        if (agesDays[span - 1]! >= readDays) into[at + span]! *= parameters.readingDiscount;
    }
    let total = 0;
    for (let span = 0; span < ageSpans; span++) total += into[at + span]!;
    const scale = total > 0 ? exposure[c]! / total : 0;
    for (let span = 0; span < ageSpans; span++) into[at + span]! *= scale;
  }
  return into;
}

/** What older evidence loses. */
function lossOf(chance: number): number {
  return 1 - (1 - chance) ** firmness;
}

/** The arrays with what is older than its healing discounted, for each concept by its chance. */
export function discountHealed(compiled: CompiledLog, healed: Healed): CompiledLog {
  const { rows, counted } = compiled;
  const { chance, olderFrom } = healed;
  const time = rows.time.slice();
  for (let r = 0; r < rows.count; r++)
    for (let e = rows.start[r]!; e < rows.start[r + 1]!; e++) {
      const c = rows.concept[e]!;
      if (chance[c]! > 0 && rows.ageSpan[r]! >= olderFrom[c]!) time[e]! *= 1 - lossOf(chance[c]!);
    }
  // Right items known only by count are placed anew, less what is lost; the rest is exposure itself.
  const base = compiled.placedOn ?? compiled;
  const conceptCount = base.exposure.length;
  workspace.begin();
  const touched = exposureByAge(base, workspace.floats(conceptCount * ageSpans));
  const kept = base.exposure.slice();
  for (let c = 0; c < conceptCount; c++)
    for (let span = olderFrom[c]!; chance[c]! > 0 && span < ageSpans; span++)
      kept[c]! -= lossOf(chance[c]!) * touched[c * ageSpans + span]!;
  const lessLost = counted.map((system) => {
    const rightLost = system.rightLost?.slice() ?? new Float64Array(conceptCount);
    for (let c = 0; c < conceptCount; c++) {
      if (chance[c] === 0) continue;
      let older = 0;
      for (let span = olderFrom[c]!; span < ageSpans; span++) older += system.rightByAge[span]!;
      rightLost[c]! += lossOf(chance[c]!) * Math.max(0, older - rightLost[c]!);
    }
    return { ...system, rightLost };
  });
  return { ...base, rows: { ...rows, time }, exposure: kept, counted: lessLost };
}
