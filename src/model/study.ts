/** The nouns of study beside the log: notes, readings, second looks, sheet lines, days. */
import * as v from 'valibot';
import {
  conceptIdSchema,
  dayIdSchema,
  disciplineIdSchema,
  itemIdSchema,
  lineIdSchema,
  lookIdSchema,
  noteIdSchema,
  pictureIdSchema,
  readingEventIdSchema,
  readingIdSchema,
  systemIdSchema,
} from './ids';
import { stampSchema } from './stamp';
import { lineOfText, longText, shortText } from './text';
import { instantSchema, localDaySchema } from './time';

const nonNegative = (field: string, most: number) =>
  v.pipe(
    v.number(`need a number for ${field}`),
    v.minValue(0, `${field} cannot be negative`),
    v.maxValue(most, `${field} is at most ${most}`),
  );

export const noteSchema = v.object({
  id: noteIdSchema,
  title: shortText('title'),
  /** CommonMark. */
  text: longText,
  concepts: v.array(conceptIdSchema),
  disciplines: v.array(disciplineIdSchema),
  systems: v.array(systemIdSchema),
  pictures: v.optional(v.array(pictureIdSchema)),
  stamp: stampSchema,
});

export const readingKinds = ['text', 'video', 'questions'] as const;

export const readingRatings = ['little', 'some', 'much'] as const;

export const readingSchema = v.object({
  id: readingIdSchema,
  title: shortText('title'),
  source: lineOfText,
  /** Where in the source: pages, chapter, minutes. */
  locator: lineOfText,
  /** 0: not given; it may follow from pages or words. */
  minutes: nonNegative('minutes', 10_000),
  pages: v.optional(nonNegative('pages', 10_000)),
  words: v.optional(nonNegative('words', 10_000_000)),
  /** Share that is read already, 0 to 1. */
  progress: v.optional(nonNegative('progress', 1)),
  /** True for one that was read and shall be planned again. */
  again: v.optional(v.boolean('need yes or no for again')),
  /** Of what use it was, by the candidate's own word. */
  rating: v.optional(v.picklist(readingRatings, `the rating is ${readingRatings.join(', ')}`)),
  kind: v.picklist(readingKinds, `the kind is one of ${readingKinds.join(', ')}`),
  main: v.array(conceptIdSchema),
  touched: v.array(conceptIdSchema),
  stamp: stampSchema,
});

/** That a reading was read, and when: it moves the evidence of its concepts. */
export const readingEventSchema = v.object({
  id: readingEventIdSchema,
  reading: readingIdSchema,
  at: instantSchema,
  /** How long it took, where that was written down: the candidate's own pace comes from it. */
  minutes: v.optional(nonNegative('minutes', 10_000)),
  stamp: stampSchema,
});

export const lookSchema = v.object({
  id: lookIdSchema,
  /** The miss that was looked at; none where it was a line of the recall sheet. */
  item: v.optional(itemIdSchema),
  /** The line that was looked at. */
  line: v.optional(lineIdSchema),
  at: instantSchema,
  outcome: v.picklist(['had-it', 'not-yet'], 'the outcome is had-it or not-yet'),
  stamp: stampSchema,
});

/** What a line is; a sketch is drawn in text. */
export const lineKinds = ['formula', 'table', 'list', 'sketch'] as const;

export const lineSchema = v.object({
  id: lineIdSchema,
  text: longText,
  kind: v.optional(v.picklist(lineKinds, `the kind is one of ${lineKinds.join(', ')}`)),
  /** Stands over the line on the sheet, and alone on the blank one. */
  heading: v.optional(lineOfText),
  /** On the sheet whatever it is worth. */
  pinned: v.optional(v.boolean('need yes or no for pinned')),
  /** Never on the sheet. */
  banned: v.optional(v.boolean('need yes or no for banned')),
  concepts: v.array(conceptIdSchema),
  /** How long it takes to write, in seconds, once measured. */
  seconds: v.optional(nonNegative('seconds', 3_600)),
  timesNeeded: v.pipe(nonNegative('times needed', 100_000), v.integer()),
  stamp: stampSchema,
});

export const daySchema = v.object({
  id: dayIdSchema,
  day: localDaySchema,
  sleepHours: v.optional(nonNegative('sleep hours', 24)),
  activityMinutes: v.optional(nonNegative('activity minutes', 1_440)),
  rest: v.boolean(),
  /** 1 (low) to 5 (good). */
  mood: v.optional(v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(5))),
  stamp: stampSchema,
});

export type Note = Readonly<v.InferOutput<typeof noteSchema>>;
export type Reading = Readonly<v.InferOutput<typeof readingSchema>>;
export type ReadingEvent = Readonly<v.InferOutput<typeof readingEventSchema>>;
export type Look = Readonly<v.InferOutput<typeof lookSchema>>;
export type LineKind = (typeof lineKinds)[number];
export type Line = Readonly<v.InferOutput<typeof lineSchema>>;
export type Day = Readonly<v.InferOutput<typeof daySchema>>;
