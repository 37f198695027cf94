/** Branded ids: strings that cannot be swapped by mistake. */
import * as v from 'valibot';

declare const kindOfId: unique symbol;

/** A string that names one record of kind `K`. */
export type Id<K extends string> = string & { readonly [kindOfId]: K };

export type DisciplineId = Id<'discipline'>;
export type SystemId = Id<'system'>;
export type ConceptId = Id<'concept'>;
export type BlockId = Id<'block'>;
export type ItemId = Id<'item'>;
export type NoteId = Id<'note'>;
export type ReadingId = Id<'reading'>;
export type ReadingEventId = Id<'reading-event'>;
export type LookId = Id<'look'>;
export type LineId = Id<'line'>;
export type DayId = Id<'day'>;
export type SettingsId = Id<'settings'>;
export type TopicMatchId = Id<'topic-match'>;
export type PictureId = Id<'picture'>;
export type ColumnMappingId = Id<'column-mapping'>;
export type NoteVersionId = Id<'note-version'>;
export type KeptSearchId = Id<'kept-search'>;
export type RehearsalId = Id<'rehearsal'>;
export type PlanId = Id<'plan'>;
export type DismissalId = Id<'dismissal'>;
export type OtherVersionId = Id<'other-version'>;
export type DeviceId = Id<'device'>;

/** Longest id accepted from outside, in UTF-16 units; ours are 36 (a UUID) or a short slug. */
const longestId = 200;

function idSchema<K extends string>(kind: K) {
  return v.pipe(
    v.string(`need a ${kind} id (text)`),
    v.trim(),
    v.nonEmpty(`the ${kind} id is empty`),
    v.maxLength(longestId, `the ${kind} id is longer than ${longestId} characters`),
    // `__proto__` as a key would reach past the record it is stored in.
    v.check((text) => text !== '__proto__', `"__proto__" cannot be a ${kind} id`),
    v.transform((text) => text as Id<K>),
  );
}

export const disciplineIdSchema = idSchema('discipline');
export const systemIdSchema = idSchema('system');
export const conceptIdSchema = idSchema('concept');
export const blockIdSchema = idSchema('block');
export const itemIdSchema = idSchema('item');
export const noteIdSchema = idSchema('note');
export const readingIdSchema = idSchema('reading');
export const readingEventIdSchema = idSchema('reading-event');
export const lookIdSchema = idSchema('look');
export const lineIdSchema = idSchema('line');
export const dayIdSchema = idSchema('day');
export const settingsIdSchema = idSchema('settings');
export const topicMatchIdSchema = idSchema('topic-match');
export const pictureIdSchema = idSchema('picture');
export const columnMappingIdSchema = idSchema('column-mapping');
export const noteVersionIdSchema = idSchema('note-version');
export const keptSearchIdSchema = idSchema('kept-search');
export const rehearsalIdSchema = idSchema('rehearsal');
export const planIdSchema = idSchema('plan');
export const dismissalIdSchema = idSchema('dismissal');
export const otherVersionIdSchema = idSchema('other-version');
export const deviceIdSchema = idSchema('device');

/** Makes fresh ids; the caller brings the randomness (`crypto.randomUUID` in the app). */
export type MakeId = <K extends string>() => Id<K>;

/** An id maker over any source of unique text. */
export function idMaker(uniqueText: () => string): MakeId {
  return <K extends string>() => uniqueText() as Id<K>;
}
