/** The readings that come with a map: what to look for by concept, never a real title. */
import * as v from 'valibot';
import { checkWith, type Checked } from '../model/records';
import { readingSchema } from '../model/study';
import { longText } from '../model/text';

const readingsFileSchema = v.object({
  format: v.literal('hypocentre-readings', 'this is not a readings file of Hypocentre'),
  version: v.literal(1, 'this version of Hypocentre reads readings files of version 1'),
  about: v.optional(longText, ''),
  readings: v.array(v.omit(readingSchema, ['stamp'])),
});

export type ReadingContent = Readonly<v.InferOutput<typeof readingsFileSchema>['readings'][number]>;

/** Checks unknown JSON into the readings of a map; whether their concepts exist is not asked. */
export function parseReadingsFile(input: unknown): Checked<readonly ReadingContent[]> {
  const checked = checkWith(readingsFileSchema, input);
  return checked.kind === 'ok' ? { kind: 'ok', value: checked.value.readings } : checked;
}
