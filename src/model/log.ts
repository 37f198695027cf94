/** The nouns of the log: blocks and the items answered in them. */
import * as v from 'valibot';
import {
  blockIdSchema,
  conceptIdSchema,
  itemIdSchema,
  pictureIdSchema,
  systemIdSchema,
} from './ids';
import { stampSchema } from './stamp';
import { lineOfText } from './text';
import { instantSchema, localDaySchema } from './time';

/** Why an item was missed. The order is that of the review form. */
export const missReasons = [
  'not-known',
  'not-recalled',
  'misread',
  'two-left',
  'changed-from-right',
  'out-of-time',
  'overthought',
] as const;
export type MissReason = (typeof missReasons)[number];

/** A reason as it is said on screens and written in files. */
export const reasonWords: Readonly<Record<MissReason, string>> = {
  'not-known': 'not known',
  'not-recalled': 'not recalled',
  misread: 'misread',
  'two-left': 'two left and chose wrong',
  'changed-from-right': 'changed from right',
  'out-of-time': 'ran out of time',
  overthought: 'overthought',
};

/** How an item ended. Guessed right counts as right, but is worth a second look. */
export const outcomes = ['right', 'guessed-right', 'missed'] as const;
export type Outcome = (typeof outcomes)[number];

/** Most items in one block; a longer sitting is several blocks. */
export const longestBlock = 500;

const count = (field: string, most: number) =>
  v.pipe(
    v.number(`need a number for ${field}`),
    v.integer(`${field} must be a whole number`),
    v.minValue(0, `${field} cannot be negative`),
    v.maxValue(most, `${field} is at most ${most}`),
  );

const minutes = (field: string) =>
  v.pipe(
    v.number(`need a number for ${field}`),
    v.minValue(0, `${field} cannot be negative`),
    v.maxValue(1_440, `${field} is at most 1,440 (a day)`),
  );

export const blockSchema = v.object({
  id: blockIdSchema,
  /** The local day it was sat. */
  day: localDaySchema,
  /** When it began, where that is known. */
  startedAt: v.optional(instantSchema),
  itemCount: count('items', longestBlock),
  /** Misses by the block's own total, where the candidate wrote one down. */
  missedCount: v.optional(count('missed', longestBlock)),
  minutesGiven: v.optional(minutes('minutes given')),
  minutesUsed: v.optional(minutes('minutes used')),
  /**
   * True when only misses are known of it: how many items there were, and so how
   * many were right, is not. `itemCount` is then no more than the highest item number.
   */
  onlyMisses: v.optional(v.boolean('need yes or no for only misses')),
  /** Undefined: not known. */
  timed: v.optional(v.boolean('need yes or no for timed')),
  /** True for a mixed block; a one-system block names its system. Undefined: not known. */
  mixed: v.optional(v.boolean('need yes or no for mixed')),
  system: v.optional(systemIdSchema),
  /** Where the items came from, in the candidate's words. */
  source: lineOfText,
  /** Answers changed from wrong to right; those changed from right are misses and give it as their reason. */
  changedToRight: v.optional(count('answers changed to right', longestBlock)),
  /** Right items of no record of their own, by organ system: how many, not which. */
  rightBySystem: v.optional(
    v.array(v.object({ system: systemIdSchema, count: count('right items', longestBlock) })),
  ),
  reviewMinutes: v.optional(minutes('review minutes')),
  /** Since when the review's timer runs; it outlives a reload and a closed tab. */
  reviewSince: v.optional(instantSchema),
  stamp: stampSchema,
});

export const optionTurnSchema = v.object({
  /** The distractor: its letter or a word of it. */
  option: lineOfText,
  /** How the stem would have to read for this distractor to be the key. */
  turn: lineOfText,
});

export const itemSchema = v.object({
  id: itemIdSchema,
  block: blockIdSchema,
  /** Place in the block, from 1. */
  position: v.pipe(
    v.number('need an item number'),
    v.integer('the item number must be whole'),
    v.minValue(1, 'item numbers begin at 1'),
    v.maxValue(longestBlock, `the item number is at most ${longestBlock}`),
  ),
  outcome: v.picklist(outcomes, 'the outcome is one of right, guessed-right, missed'),
  system: v.optional(systemIdSchema),
  /** What the item is about. */
  topics: v.array(conceptIdSchema),
  /** What the candidate says was missing. */
  causes: v.array(conceptIdSchema),
  reason: v.optional(v.picklist(missReasons, `the reason is one of ${missReasons.join(', ')}`)),
  missingPiece: lineOfText,
  optionTurns: v.array(optionTurnSchema),
  seconds: v.optional(
    v.pipe(
      v.number('need seconds'),
      v.minValue(0, 'seconds cannot be negative'),
      v.maxValue(86_400),
    ),
  ),
  /** Letters as printed in the source. */
  chosen: v.optional(v.pipe(v.string(), v.maxLength(20))),
  key: v.optional(v.pipe(v.string(), v.maxLength(20))),
  /** The candidate's own reference for the item (a number in their source). */
  reference: v.optional(lineOfText),
  pictures: v.optional(v.array(pictureIdSchema)),
  stamp: stampSchema,
});

export type Block = Readonly<v.InferOutput<typeof blockSchema>>;
export type OptionTurn = Readonly<v.InferOutput<typeof optionTurnSchema>>;
export type Item = Readonly<v.InferOutput<typeof itemSchema>>;

/** The block of an item: the one function by which items are grouped. */
export const blockOfItem = ({ block }: Item): string => block;

/** A miss is reviewed once it names a topic or a cause, and what was missing or why. */
export function isReviewed(item: Item): boolean {
  const placed = item.topics.length > 0 || item.causes.length > 0;
  return placed && (item.missingPiece.trim() !== '' || item.reason !== undefined);
}
