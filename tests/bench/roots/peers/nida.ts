/**
 * NIDA (Maris 1999; Junker & Sijtsma 2001), fitted to one candidate: every concept under an item
 * has to hold, each on its own; a sound one fails with chance s, a gap holds with chance g_k.
 *
 * Fitted by Gibbs sampling on the latent "held or failed" of each need of a missed item. With one
 * candidate s_k is only seen in sound concepts and g_k only in gaps, so s is shared, while each
 * gap has its own g_k with a flat prior, integrated out where the gap is drawn. The model reads
 * right and missed only: named causes are no part of it.
 */
import { drawBeta, uniformStream, type Uniform } from '../generator/random';
import { itemsByConcept, type DiagnosisFit, type FitOptions, type GatedItem } from './gated-items';
import { logFactorials } from './over-representation';

/**
 * Chance of a right answer: the product over needs of 1 - s where sound, g where a gap.
 *
 * @param gaps which of the needs are gaps; the same length as `guesses` and `slips`
 *
 * @example
 * nidaRightChance([true, false], [0.2, 0.3], [0.1, 0.15]); // 0.2 * 0.85 = 0.17
 */
export function nidaRightChance(
  gaps: readonly boolean[],
  guesses: readonly number[],
  slips: readonly number[],
): number {
  return gaps.reduce((product, gap, k) => product * (gap ? guesses[k]! : 1 - slips[k]!), 1);
}

/** Fits one candidate's items; time grows with sweeps times the needs of missed items. */
export function fitNida(
  items: readonly GatedItem[],
  conceptCount: number,
  options: FitOptions = {},
): DiagnosisFit & { readonly slip: number } {
  const { seed = 1, sweeps = 400, warmUp = 200 } = options;
  const uniform = uniformStream(seed, 'NIDA');
  const exposure = itemsByConcept(items, conceptCount).map((list) => list.length);
  const misses = items.filter((item) => item.missed && item.needs.length > 0);
  const logFactorial = logFactorials(Math.max(1, ...exposure) + 1);

  const failChance = new Float64Array(conceptCount).fill(0.1);
  const gapChances = new Float64Array(conceptCount);
  const avoidable = new Float64Array(conceptCount);
  let slip = 0.05;
  let gapShare = 0.1;
  let slipSum = 0;

  for (let sweep = 0; sweep < warmUp + sweeps; sweep++) {
    const failures = new Int32Array(conceptCount);
    for (const { needs } of misses) drawFailures(needs, failChance, failures, uniform);

    let gapCount = 0;
    const pooled = { failed: 0, held: 0 };
    const isGap = new Uint8Array(conceptCount);
    for (let concept = 0; concept < conceptCount; concept++) {
      const failed = failures[concept]!;
      const held = exposure[concept]! - failed;
      // A flat rate, integrated: the chance of one given order is failed! held! / (failed + held + 1)!
      const asGap = logFactorial[failed]! + logFactorial[held]! - logFactorial[failed + held + 1]!;
      const asSound = failed * Math.log(slip) + held * Math.log1p(-slip);
      const logOdds = Math.log(gapShare / (1 - gapShare)) + asGap - asSound;
      if (uniform() < 1 / (1 + Math.exp(-logOdds))) {
        isGap[concept] = 1;
        gapCount++;
      } else {
        pooled.failed += failed;
        pooled.held += held;
      }
    }
    slip = drawBeta(uniform, 1 + pooled.failed, 1 + pooled.held);
    gapShare = drawBeta(uniform, 1 + gapCount, 1 + conceptCount - gapCount);
    for (let concept = 0; concept < conceptCount; concept++) {
      const failed = failures[concept]!;
      failChance[concept] =
        isGap[concept] === 1
          ? drawBeta(uniform, 1 + failed, 1 + exposure[concept]! - failed)
          : slip;
      if (sweep < warmUp || isGap[concept] === 0) continue;
      gapChances[concept]! += 1 / sweeps;
      avoidable[concept]! += (failed - slip * exposure[concept]!) / sweeps;
    }
    if (sweep >= warmUp) slipSum += slip;
  }
  return { gapChances, avoidable, slip: slipSum / sweeps };
}

/** Draws which needs of one missed item failed, given that at least one did. */
function drawFailures(
  needs: readonly number[],
  failChance: Float64Array,
  failures: Int32Array,
  uniform: Uniform,
): void {
  let allHold = 1;
  for (const concept of needs) allHold *= 1 - failChance[concept]!;
  let failedYet = false;
  for (const concept of needs) {
    const chance = failChance[concept]!;
    // `allHold` is of this need and those after it: until one fails, one of them still must.
    const failed = uniform() * (failedYet ? 1 : 1 - allHold) < chance;
    allHold = chance < 1 ? allHold / (1 - chance) : 1;
    if (!failed) continue;
    failedYet = true;
    failures[concept]!++;
  }
}
