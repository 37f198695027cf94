/** What is kept beside the log and the study: pictures, older versions, searches, rehearsals, plans, choices. */
import * as v from 'valibot';
import {
  dismissalIdSchema,
  itemIdSchema,
  keptSearchIdSchema,
  lineIdSchema,
  noteIdSchema,
  noteVersionIdSchema,
  otherVersionIdSchema,
  pictureIdSchema,
  planIdSchema,
  readingIdSchema,
  rehearsalIdSchema,
} from './ids';
import { stampSchema } from './stamp';
import { lineOfText, longText, shortText } from './text';
import { instantSchema, localDaySchema } from './time';

const wholeFrom = (least: number, most: number) =>
  v.pipe(
    v.number('need a number'),
    v.integer('need a whole number'),
    v.minValue(least, `need at least ${least}`),
    v.maxValue(most, `need at most ${most}`),
  );

/**
 * A picture on a miss, a note or a concept. Its bytes lie in a store of their own under
 * `hash`: they never change, so two devices can only ever agree about them.
 */
export const pictureSchema = v.object({
  id: pictureIdSchema,
  /** SHA-256 of the bytes, 64 hexadecimal digits. */
  hash: v.pipe(v.string(), v.regex(/^[0-9a-f]{64}$/, 'need a SHA-256 of 64 hexadecimal digits')),
  type: v.picklist(
    ['image/png', 'image/jpeg', 'image/webp'],
    'the picture is one of PNG, JPEG, WebP',
  ),
  width: wholeFrom(1, 20_000),
  height: wholeFrom(1, 20_000),
  byteCount: wholeFrom(1, 50_000_000),
  /** What it shows, for who cannot see it. Empty: still to be written. */
  alt: lineOfText,
  stamp: stampSchema,
});

/** A note as it was before a stretch of editing. */
export const noteVersionSchema = v.object({
  id: noteVersionIdSchema,
  note: noteIdSchema,
  at: instantSchema,
  title: shortText('title'),
  text: longText,
  stamp: stampSchema,
});

export const keptSearchSchema = v.object({
  id: keptSearchIdSchema,
  name: shortText('name'),
  /** The address of the search, as the address bar names it: words and filters. */
  query: lineOfText,
  stamp: stampSchema,
});

/** One writing of the recall sheet against the clock. */
export const rehearsalSchema = v.object({
  id: rehearsalIdSchema,
  at: instantSchema,
  seconds: v.pipe(v.number(), v.minValue(0), v.maxValue(86_400)),
  /** Typed, or written on paper and ticked afterwards. */
  manner: v.picklist(['typed', 'paper'], 'the manner is typed or paper'),
  /** What was typed; empty for paper. */
  text: longText,
  /** Every line that should have been there. `share`: how much of it was, 0 to 1. */
  lines: v.array(
    v.object({
      line: lineIdSchema,
      share: v.pipe(v.number(), v.minValue(0), v.maxValue(1)),
    }),
  ),
  stamp: stampSchema,
});

/** What was chosen for one day: minutes, and readings by hand. */
export const planSchema = v.object({
  id: planIdSchema,
  day: localDaySchema,
  minutes: v.optional(v.pipe(v.number(), v.minValue(0), v.maxValue(1_440))),
  pinned: v.array(readingIdSchema),
  refused: v.array(readingIdSchema),
  /** Misses whose second look was let go that day. */
  letGo: v.optional(v.array(itemIdSchema)),
  /** Lines of the recall sheet whose second look was let go that day. */
  letGoLines: v.optional(v.array(lineIdSchema)),
  stamp: stampSchema,
});

/** A proposal that was put away and is not to be made again. */
export const dismissalSchema = v.object({
  id: dismissalIdSchema,
  /** The kind of proposal: "missing-link", "unused-concept", "sheet-line". */
  about: shortText('about'),
  /** What it was about: ids, sorted. */
  subjects: v.array(v.string()),
  stamp: stampSchema,
});

/** The version of a record that lost when two devices had edited it at once: kept, and shown. */
export const otherVersionSchema = v.object({
  id: otherVersionIdSchema,
  /** The kind of the record, as its store is named. */
  kind: shortText('kind'),
  record: shortText('record'),
  /** The whole record as JSON. */
  content: longText,
  stamp: stampSchema,
});

export type Picture = Readonly<v.InferOutput<typeof pictureSchema>>;
export type NoteVersion = Readonly<v.InferOutput<typeof noteVersionSchema>>;
export type KeptSearch = Readonly<v.InferOutput<typeof keptSearchSchema>>;
export type Rehearsal = Readonly<v.InferOutput<typeof rehearsalSchema>>;
export type Plan = Readonly<v.InferOutput<typeof planSchema>>;
export type Dismissal = Readonly<v.InferOutput<typeof dismissalSchema>>;
export type OtherVersion = Readonly<v.InferOutput<typeof otherVersionSchema>>;
