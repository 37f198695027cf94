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

export const readingSchema = v.object({
  id: readingIdSchema,
  title: shortText('title'),
  source: lineOfText,
  /** Where in the source: pages, chapter, minutes. */
  locator: lineOfText,
  minutes: nonNegative('minutes', 10_000),
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
  stamp: stampSchema,
});

export const lookSchema = v.object({
  id: lookIdSchema,
  item: itemIdSchema,
  at: instantSchema,
  outcome: v.picklist(['had-it', 'not-yet'], 'the outcome is had-it or not-yet'),
  stamp: stampSchema,
});

export const lineSchema = v.object({
  id: lineIdSchema,
  text: longText,
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
export type Line = Readonly<v.InferOutput<typeof lineSchema>>;
export type Day = Readonly<v.InferOutput<typeof daySchema>>;
