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

/**
 * Chosen among 100 for a log that shows what the demo is to show: accuracy by system
 * differs by no more than luck would have it, the three deep gaps lead, and the first
 * of them lies under about a quarter of the misses. Another seed shows less of it.
 */
export const seed = 20_260_355;
export const weeks = 24;
export const blockCount = 60;
export const itemsInBlock = 40;
/** Days from the day the demo is opened to paper day. */
export const paperDaysAhead = 38;

/** Chance of missing an item for no deeper cause (a slip, or a single fact). */
export const slipChance = 0.085;
/** Chance that an item which rests on a deeper concept needs it, a level. */
export const neededChance = 0.45;

/** How much more often topics come that rest on a planted gap, at most two links up. */
export const leaning = 2.5;
/** The same for the first planted gap: under it lies about a quarter of all misses. */
export const leaningOnFirst = 8;

/** Chance that an item answered right was guessed, by the candidate's own mark. */
export const guessedChance = 0.04;

/** How causes are named under pressure. The rest carry no named cause. */
export const naming = { right: 0.55, topic: 0.25, other: 0.05 } as const;

/** In timed blocks, the share of the items at the end that are at risk of running out of time. */
export const hurriedTail = 0.12;
export const hurriedMissChance = 0.3;

/**
 * What multiplies the chance of a slip: modest effects, of the size a log of this
 * length can hardly tell from luck. They touch slips alone; a missing concept is
 * missing at any hour.
 */
export const slipFactors = {
  /** For each hour slept less than `restedHours` in the night before. */
  anHourShort: 1.12,
  restedHours: 7.5,
  /** Blocks begun after eight in the evening. */
  lateInTheDay: 1.15,
  /** Practice: a block's slips at the end of the half year against those at its beginning. */
  atTheEnd: 0.8,
} as const;

/** When blocks are begun: minutes after midnight, the spread about it in minutes, and how often. */
export const hours = [
  { minutes: 8 * 60 + 40, spread: 25, share: 0.45 },
  { minutes: 14 * 60, spread: 40, share: 0.2 },
  { minutes: 20 * 60 + 20, spread: 30, share: 0.35 },
] as const;

/** Share of blocks kept to one system: in the first week, and in the last. */
export const oneSystemShare = { first: 0.5, last: 0.05 } as const;

/** Seconds an item takes (median), how widely that scatters (sd of its logarithm), and what a miss adds. */
export const pace = { seconds: 78, logSpread: 0.38, missFactor: 1.15, timedFactor: 0.95 } as const;

/** Invented places the items came from. */
export const sources = ['Harbour question set', 'Lighthouse papers', 'Own collection'] as const;

/** Sleep of a night: mean hours and spread, how much one night resembles the one before. */
export const sleep = { meanHours: 7.2, spreadHours: 0.8, carriedOver: 0.35 } as const;
/** Share of days of which nothing was written down. */
export const unloggedShare = 0.1;

/**
 * Second looks. Chance of *had it* after t days: `ceiling * (1 + t / scale)^-decay`,
 * a power law of forgetting (the form of Wixted & Carpenter 2007, from memory; the
 * values are ours). Each look that held makes the next decay slower; while the gap
 * under a miss is open it holds less often.
 */
export const looks = {
  ceiling: 0.96,
  scaleDays: 1,
  decay: 0.13,
  slowerEachTime: 0.62,
  whileGapIsOpen: 0.9,
  /** Days to the first look, then between looks that held; one that did not hold begins again. */
  gapsDays: [2, 5, 12, 25, 40],
  /** Most looks in a day; the rest wait. */
  mostADay: 7,
  /** Share of days on which there is a spare minute. */
  daysShare: 0.75,
} as const;

/** Days before the demo is opened, on which the sheet was rehearsed. */
export const rehearsalDays = [52, 45, 37, 30, 22, 12, 4] as const;
/** Share of the lines that come back complete: at the first rehearsal and at the last. */
export const rehearsed = { first: 0.5, last: 0.86 } as const;
/** Words a minute written by hand at the first rehearsal and at the last. */
export const wordsAMinute = { first: 22, last: 27 } as const;

/** How many readings were read, one of them the one that mended the mended gap. */
export const readingsRead = 34;
