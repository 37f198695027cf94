/** Settings and what the app has learned about the candidate's files. */
import * as v from 'valibot';
import {
  columnMappingIdSchema,
  conceptIdSchema,
  settingsIdSchema,
  topicMatchIdSchema,
  type SettingsId,
} from './ids';
import { stampSchema } from './stamp';
import { lineOfText, shortText } from './text';
import { localDaySchema } from './time';

export const themes = ['system', 'light', 'dark'] as const;

const within = (field: string, least: number, most: number) =>
  v.pipe(
    v.number(`need a number for ${field}`),
    v.minValue(least, `${field} is at least ${least}`),
    v.maxValue(most, `${field} is at most ${most}`),
  );
const minutesUpTo = (most: number) => v.pipe(v.number(), v.minValue(0), v.maxValue(most));

export const settingsSchema = v.object({
  id: settingsIdSchema,
  theme: v.picklist(themes, 'the theme is one of system, light, dark'),
  paperName: lineOfText,
  paperDay: v.optional(localDaySchema),
  /** True while the invented demo is loaded: every screen says so. */
  demo: v.boolean(),
  /** True once a map was chosen, so that first run is not shown again. */
  started: v.boolean(),
  /** False: the key "?" does nothing (a single key can clash with speech input). */
  questionKey: v.optional(v.boolean('need yes or no for the question key')),
  /** Minutes before the paper in which the recall sheet may be written. */
  tutorialMinutes: v.optional(within('tutorial minutes', 1, 240)),
  /** Writing by hand, where the candidate sets it; else it is measured. */
  wordsPerMinute: v.optional(within('words a minute', 1, 200)),
  /** Seconds the paper gives an item. */
  paceSeconds: v.optional(within('seconds an item', 1, 3_600)),
  /** Items in the paper. */
  paperItems: v.optional(v.pipe(within('items in the paper', 1, 2_000), v.integer())),
  /** Minutes a day for second looks. */
  looksMinutes: v.optional(minutesUpTo(1_440)),
  /** Second looks system by system instead of mixed. */
  looksBySystem: v.optional(v.boolean()),
  /** Minutes an evening for reading. */
  readingMinutes: v.optional(minutesUpTo(1_440)),
  /** Hours of study given to a day. */
  planHours: v.optional(v.pipe(v.number(), v.minValue(0), v.maxValue(24))),
  /** When the day's study begins, minutes after midnight. */
  planStartMinutes: v.optional(minutesUpTo(1_439)),
  /** Minutes after midnight; before noon it is that of the night after. */
  bedtimeMinutes: v.optional(minutesUpTo(1_439)),
  /** Planned days of rest: 0 Monday to 6 Sunday. */
  restWeekdays: v.optional(v.array(v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(6)))),
  stamp: stampSchema,
});

/** A topic name met in a file and the concepts it was matched to by hand. */
export const topicMatchSchema = v.object({
  id: topicMatchIdSchema,
  /** The folded name (see `foldName`). */
  folded: shortText('folded'),
  /** Empty: the candidate chose to leave this name out. */
  concepts: v.array(conceptIdSchema),
  stamp: stampSchema,
});

/** How the columns of one kind of results file were read last time. */
export const columnMappingSchema = v.object({
  id: columnMappingIdSchema,
  /** What the candidate calls this kind of file. */
  name: shortText('name'),
  /** The header cells in file order: by these the kind is known again. */
  headers: v.array(lineOfText),
  /** What each column holds, in file order: the name of a field; empty for one that is not read. */
  fields: v.array(v.string()),
  stamp: stampSchema,
});

export type ColumnMapping = Readonly<v.InferOutput<typeof columnMappingSchema>>;
export type Settings = Readonly<v.InferOutput<typeof settingsSchema>>;
export type TopicMatch = Readonly<v.InferOutput<typeof topicMatchSchema>>;

/** There is one settings record. */
export const settingsId = 'settings' as SettingsId;
