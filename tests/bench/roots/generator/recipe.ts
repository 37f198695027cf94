/**
 * What a simulated candidate is made of. The generator is on purpose not the engine's model:
 * a needed concept fails or does not (a coin), needed deep concepts are drawn item by item, and
 * a miss has one true cause among those that failed.
 *
 * Given by the design: 260 concepts, 12 systems, 8 deep and 14 surface gaps, a chance of 0.45 a
 * level, topics by a power law, the label shares. The rest (marked "chosen") was set once so that
 * counting named causes and counting true causes come out near the prototype's figures; no
 * engine result was looked at for it. The eighteen figures differ by .03 (root mean square, 32
 * candidates); of 1,580 other settings of the chosen numbers the closest came to .027.
 */

/** How the candidate names causes: shares of the misses that carry a label, and of none. */
export interface LabelShares {
  /** Share of all misses with no label at all. */
  readonly none: number;
  /** Of the labelled ones: the true cause, a topic of the item, a concept drawn at random. */
  readonly right: number;
  readonly topic: number;
  readonly random: number;
}

export interface Recipe {
  /** Concepts by depth: the surface first, then each level below. */
  readonly conceptsByLevel: readonly number[];
  readonly systemCount: number;
  readonly deepGapCount: number;
  readonly surfaceGapCount: number;
  /** Chance that an item needs a concept which a needed concept rests on. */
  readonly needChance: number;
  /** Popularity of the r-th topic is proportional to r^-exponent. */
  readonly popularityExponent: number;
  /** Chance that an item has a second topic, of the same system. */
  readonly secondTopicChance: number;
  /** Bounds of the chance that a gap fails when needed, and that a sound concept does. */
  readonly gapFailure: readonly [number, number];
  readonly soundFailure: readonly [number, number];
  /** Chance of a miss though all that was needed was there. */
  readonly slipChance: number;
  readonly labels: LabelShares;
  /** Share of items logged under a concept drawn at random instead of their topic. */
  readonly wrongTopicShare: number;
  /** Share of *rests on* links missing from the map that the methods see. */
  readonly missingLinkShare: number;
  /** Share of the gaps that heal halfway through the items. */
  readonly healedShare: number;
  /** Whether the healing is logged as a reading of the concept. */
  readonly readingsLogged: boolean;
  readonly itemsPerDay: number;
  readonly blockSize: number;
}

export const baseRecipe: Recipe = {
  conceptsByLevel: [180, 50, 20, 10], // 260; the split is chosen
  systemCount: 12,
  deepGapCount: 8,
  surfaceGapCount: 14,
  needChance: 0.45,
  popularityExponent: 0.9, // chosen
  secondTopicChance: 0.3, // chosen
  gapFailure: [0.5, 0.9], // chosen
  soundFailure: [0.01, 0.03], // chosen
  slipChance: 0.08, // chosen
  // Right 60, topic 25 and random 15 add to 100, so "none 15" is read as a share of all misses,
  // and the other three as shares of those that carry a label.
  labels: { none: 0.15, right: 0.6, topic: 0.25, random: 0.15 },
  wrongTopicShare: 0,
  missingLinkShare: 0,
  healedShare: 0,
  readingsLogged: false,
  itemsPerDay: 40,
  blockSize: 40,
};
