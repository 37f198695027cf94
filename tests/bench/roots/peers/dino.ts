/**
 * DINO (Templin & Henson 2006), fitted to one candidate: an item is missed with chance 1 - s if
 * at least one concept under it is a gap, with chance g otherwise. (DINO was made for diagnosing
 * disorders; here the disorder is the gap, and an item that shows it is a miss.)
 *
 * Fitted by Gibbs sampling with flat priors on g, s and the share of gaps, and g < 1 - s
 * (Culpepper 2015 for the same sampler of DINA). Each item is answered once, so g and s are
 * shared by all items. The model reads right and missed only: named causes are no part of it.
 * Where a candidate has no gap, g and 1 - s run together and the gap chances mean nothing: the
 * flat priors of the published sampler do not prevent it.
 */
import { drawBeta, uniformStream, type Uniform } from '../generator/random';
import { itemsByConcept, type DiagnosisFit, type FitOptions, type GatedItem } from './gated-items';

export interface DinoRates {
  /** Chance of a miss without a gap. */
  guess: number;
  /** Chance of a right answer in spite of a gap. */
  slip: number;
  /** Prior chance of a gap. */
  gapShare: number;
}

/**
 * Fits one candidate's items; time grows with sweeps times needs over all items.
 *
 * @param options `fixed` holds the rates still, for checks against enumeration
 */
export function fitDino(
  items: readonly GatedItem[],
  conceptCount: number,
  options: FitOptions & { readonly fixed?: DinoRates } = {},
): DiagnosisFit & { readonly rates: Readonly<DinoRates> } {
  const { seed = 1, sweeps = 400, warmUp = 200, fixed } = options;
  const uniform = uniformStream(seed, 'DINO');
  const itemsOf = itemsByConcept(items, conceptCount);
  const gaps = new Uint8Array(conceptCount);
  const gapCounts = new Uint16Array(items.length);
  const rates = { ...(fixed ?? { guess: 0.2, slip: 0.2, gapShare: 0.1 }) };
  const gapChances = new Float64Array(conceptCount);
  const avoidable = new Float64Array(conceptCount);
  const sums = { guess: 0, slip: 0, gapShare: 0 };

  for (let sweep = 0; sweep < warmUp + sweeps; sweep++) {
    sweepGaps(items, itemsOf, gaps, gapCounts, rates, uniform);
    if (!fixed) drawRates(items, gaps, gapCounts, rates, uniform);
    if (sweep < warmUp) continue;
    sums.guess += rates.guess;
    sums.slip += rates.slip;
    sums.gapShare += rates.gapShare;
    gaps.forEach((gap, concept) => {
      if (gap === 0) return;
      gapChances[concept]! += 1 / sweeps;
      // Mending one gap helps only where it is the only one.
      const alone = itemsOf[concept]!.filter((item) => gapCounts[item] === 1).length;
      avoidable[concept]! += (alone * (1 - rates.slip - rates.guess)) / sweeps;
    });
  }
  return {
    gapChances,
    avoidable,
    rates: {
      guess: sums.guess / sweeps,
      slip: sums.slip / sweeps,
      gapShare: sums.gapShare / sweeps,
    },
  };
}

/** Draws each concept's gap given all others: only items without another gap speak to it. */
function sweepGaps(
  items: readonly GatedItem[],
  itemsOf: readonly (readonly number[])[],
  gaps: Uint8Array,
  gapCounts: Uint16Array,
  { guess, slip, gapShare }: DinoRates,
  uniform: Uniform,
): void {
  const forMiss = Math.log((1 - slip) / guess);
  const forRight = Math.log(slip / (1 - guess));
  for (let concept = 0; concept < gaps.length; concept++) {
    const was = gaps[concept]!;
    let logOdds = Math.log(gapShare / (1 - gapShare));
    for (const item of itemsOf[concept]!) {
      if (gapCounts[item]! - was > 0) continue;
      logOdds += items[item]!.missed ? forMiss : forRight;
    }
    const now = uniform() < 1 / (1 + Math.exp(-logOdds)) ? 1 : 0;
    if (now === was) continue;
    gaps[concept] = now;
    for (const item of itemsOf[concept]!) gapCounts[item]! += now - was;
  }
}

/** Draws g, s and the share of gaps; g and s again until they keep their order. */
function drawRates(
  items: readonly GatedItem[],
  gaps: Uint8Array,
  gapCounts: Uint16Array,
  rates: DinoRates,
  uniform: Uniform,
): void {
  const cells = { soundMissed: 0, soundRight: 0, gapMissed: 0, gapRight: 0 };
  items.forEach(({ missed }, item) => {
    const side = gapCounts[item]! > 0 ? 'gap' : 'sound';
    cells[`${side}${missed ? 'Missed' : 'Right'}`]++;
  });
  for (let attempt = 0; attempt < 100; attempt++) {
    const guess = drawBeta(uniform, 1 + cells.soundMissed, 1 + cells.soundRight);
    const slip = drawBeta(uniform, 1 + cells.gapRight, 1 + cells.gapMissed);
    if (guess >= 1 - slip) continue;
    Object.assign(rates, { guess, slip });
    break;
  }
  const gapCount = gaps.reduce((a, b) => a + b, 0);
  rates.gapShare = drawBeta(uniform, 1 + gapCount, 1 + gaps.length - gapCount);
}
