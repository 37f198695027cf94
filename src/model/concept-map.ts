/** The nouns of the concept map: disciplines, organ systems, concepts and their links. */
import * as v from 'valibot';
import { conceptIdSchema, disciplineIdSchema, systemIdSchema } from './ids';
import { stampSchema } from './stamp';
import { lineOfText, longText, shortText } from './text';

/** Strength of a *rests on* link that states none (`defaultStrength` of the method). */
export const defaultStrength = 0.35;

export const disciplineContent = {
  id: disciplineIdSchema,
  name: shortText('name'),
};

export const systemContent = {
  id: systemIdSchema,
  name: shortText('name'),
  /** For column heads and strips; at most about 12 characters. */
  shortName: v.optional(shortText('shortName')),
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
export const conceptSchema = v.object({ ...conceptContent, stamp: stampSchema });

export type Discipline = Readonly<v.InferOutput<typeof disciplineSchema>>;
export type OrganSystem = Readonly<v.InferOutput<typeof systemSchema>>;
export type Concept = Readonly<v.InferOutput<typeof conceptSchema>>;
export type RestsOn = Readonly<v.InferOutput<typeof restsOnSchema>>;
