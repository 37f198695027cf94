/**
 * The invented candidate of the demo and what was planted.
 *
 * A ship's medical technician moving ashore prepares for an invented
 * "Inter-Island Licence" paper. Everything here is made up; the concepts are
 * those of the starter map.
 */

/** A missing concept: the chance that an item which needs it is missed because of it. */
export interface PlantedGap {
  readonly concept: string;
  readonly failure: number;
  /** Week in which reading mended it; after that it fails no more often than any other. */
  readonly healedInWeek?: number;
}

export const plantedGaps: readonly PlantedGap[] = [
  // Deep, under many systems: what a breakdown by system cannot show.
  { concept: 'bicarbonate-buffer', failure: 0.8 },
  { concept: 'half-life-steady-state', failure: 0.8 },
  { concept: 'type-iii-hypersensitivity', failure: 0.8 },
  // Local.
  { concept: 'predictive-values', failure: 0.75 },
  { concept: 'glycogen-metabolism', failure: 0.7 },
  { concept: 'cranial-nerves', failure: 0.7 },
  { concept: 'muscarinic-antagonists', failure: 0.7 },
  // Mended by reading halfway.
  { concept: 'coagulation-cascade', failure: 0.8, healedInWeek: 11 },
];

export const seed = 20_260_301;
export const weeks = 24;
export const blockCount = 60;
export const itemsInBlock = 40;

/** Chance of missing an item for no deeper cause (a slip, or a single fact). */
export const slipChance = 0.08;
/** Chance that an item which rests on a deeper concept needs it, a level. */
export const neededChance = 0.45;

/** How much more often topics come that rest on a planted gap, at most two links up. */
export const leaning = 2.5;

/** How causes are named under pressure. The rest carry no named cause. */
export const naming = { right: 0.55, topic: 0.25, other: 0.05 } as const;

/** In timed blocks, the share of the items at the end that are at risk of running out of time. */
export const hurriedTail = 0.12;
export const hurriedMissChance = 0.3;

/** Invented places the items came from. */
export const sources = ['Harbour question set', 'Lighthouse papers', 'Own collection'] as const;
