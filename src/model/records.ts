/** All kinds of stored record: one table from which storage, backup and merge derive. */
import * as v from 'valibot';
import { conceptSchema, disciplineSchema, systemSchema } from './concept-map';
import { blockSchema, itemSchema } from './log';
import {
  dismissalSchema,
  keptSearchSchema,
  noteVersionSchema,
  otherVersionSchema,
  pictureSchema,
  planSchema,
  rehearsalSchema,
} from './kept-beside';
import { columnMappingSchema, settingsSchema, topicMatchSchema } from './settings';
import {
  daySchema,
  lineSchema,
  lookSchema,
  noteSchema,
  readingEventSchema,
  readingSchema,
} from './study';

/** The schema of each kind, by the name of its store. */
export const recordSchemas = {
  disciplines: disciplineSchema,
  systems: systemSchema,
  concepts: conceptSchema,
  blocks: blockSchema,
  items: itemSchema,
  notes: noteSchema,
  readings: readingSchema,
  readingEvents: readingEventSchema,
  looks: lookSchema,
  lines: lineSchema,
  days: daySchema,
  settings: settingsSchema,
  topicMatches: topicMatchSchema,
  columnMappings: columnMappingSchema,
  pictures: pictureSchema,
  noteVersions: noteVersionSchema,
  keptSearches: keptSearchSchema,
  rehearsals: rehearsalSchema,
  plans: planSchema,
  dismissals: dismissalSchema,
  otherVersions: otherVersionSchema,
} as const;

export type RecordKind = keyof typeof recordSchemas;
export type RecordOf<K extends RecordKind> = Readonly<v.InferOutput<(typeof recordSchemas)[K]>>;
export type AnyRecord = { [K in RecordKind]: RecordOf<K> }[RecordKind];

export const recordKinds = Object.keys(recordSchemas) as readonly RecordKind[];

/** What was wrong with unknown input: the field's path and what it needs. */
export interface FieldFault {
  /** Dotted, as "restsOn.0.strength"; empty for the whole record. */
  readonly path: string;
  readonly message: string;
}

export type Checked<T> =
  | { readonly kind: 'ok'; readonly value: T }
  | { readonly kind: 'rejected'; readonly faults: readonly FieldFault[] };

/** Checks unknown input against any schema, naming every field that is wrong. */
export function checkWith<S extends v.GenericSchema>(
  schema: S,
  input: unknown,
): Checked<v.InferOutput<S>> {
  const result = v.safeParse(schema, input);
  if (result.success) return { kind: 'ok', value: result.output };
  const faults = result.issues.map((issue) => ({
    path: v.getDotPath(issue) ?? '',
    message: issue.message,
  }));
  return { kind: 'rejected', faults };
}

/**
 * Checks unknown input into a record of one kind.
 *
 * @example
 * parseRecord('days', { id: 'd', day: 1.5 }); // rejected: "day: need a whole day number", ...
 */
export function parseRecord<K extends RecordKind>(kind: K, input: unknown): Checked<RecordOf<K>> {
  return checkWith(recordSchemas[kind], input);
}
