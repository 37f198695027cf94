/** The nouns of the concept map: disciplines, organ systems, concepts and their links. */
import * as v from 'valibot';
import { conceptIdSchema, disciplineIdSchema, pictureIdSchema, systemIdSchema } from './ids';
import { stampSchema } from './stamp';
import { lineOfText, longText, shortText } from './text';

/** Strength of a *rests on* link that states none (`defaultStrength` of the method). */
export const defaultStrength = 0.35;

/** Place in the order of the map, from 0; without one, by name after those that have one. */
const position = v.optional(v.pipe(v.number(), v.integer(), v.minValue(0)));

export const disciplineContent = {
  id: disciplineIdSchema,
  name: shortText('name'),
  position,
};

export const systemContent = {
  id: systemIdSchema,
  name: shortText('name'),
  /** For column heads and strips; at most about 12 characters. */
  shortName: v.optional(shortText('shortName')),
  position,
};

export const restsOnSchema = v.object({
  concept: conceptIdSchema,
  strength: v.optional(
    v.pipe(
      v.number('need a link strength between 0 and 1'),
      v.gtValue(0, 'a link strength must be above 0'),
      v.maxValue(1, 'a link strength is at most 1'),
    ),
  ),
});

export const conceptContent = {
  id: conceptIdSchema,
  name: shortText('name'),
  aliases: v.array(shortText('alias')),
  /** One sentence: what the concept covers. */
  covers: lineOfText,
  disciplines: v.array(disciplineIdSchema),
  systems: v.array(systemIdSchema),
  restsOn: v.array(restsOnSchema),
  /** A mnemonic of the candidate's own. */
  mnemonic: v.optional(longText),
};

export const disciplineSchema = v.object({ ...disciplineContent, stamp: stampSchema });
export const systemSchema = v.object({ ...systemContent, stamp: stampSchema });
export const conceptSchema = v.object({
  ...conceptContent,
  /** The candidate's own; not part of a map's file, which carries no bytes. */
  pictures: v.optional(v.array(pictureIdSchema)),
  stamp: stampSchema,
});

export type Discipline = Readonly<v.InferOutput<typeof disciplineSchema>>;
export type OrganSystem = Readonly<v.InferOutput<typeof systemSchema>>;
export type Concept = Readonly<v.InferOutput<typeof conceptSchema>>;
export type RestsOn = Readonly<v.InferOutput<typeof restsOnSchema>>;

/** Beyond every position that a map gives. */
const last = Number.MAX_SAFE_INTEGER;

/** Disciplines or organ systems in the order of their map. */
export function inMapOrder<T extends { readonly name: string; readonly position?: number }>(
  records: Iterable<T>,
): T[] {
  return [...records].sort(
    (a, b) => (a.position ?? last) - (b.position ?? last) || a.name.localeCompare(b.name),
  );
}
