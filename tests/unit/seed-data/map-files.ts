/** Reads a map folder of seed-data the slow, obvious way, for the tests of this folder only. */
import { readFileSync } from 'node:fs';
import * as v from 'valibot';
import { conceptContent, disciplineContent, systemContent } from '../../../src/model/concept-map';

const headSchema = v.strictObject({
  format: v.literal('hypocentre-map'),
  version: v.literal(1),
  name: v.pipe(v.string(), v.nonEmpty()),
  about: v.pipe(v.string(), v.nonEmpty()),
  disciplines: v.array(v.strictObject(disciplineContent)),
  systems: v.array(v.strictObject(systemContent)),
  files: v.array(v.string()),
});

const fileSchema = v.strictObject({ concepts: v.array(v.strictObject(conceptContent)) });

export type SeedConcept = v.InferOutput<typeof fileSchema>['concepts'][number];

export interface SeedMap extends v.InferOutput<typeof headSchema> {
  /** In the order of `files`, then of each file. */
  readonly concepts: readonly SeedConcept[];
}

function readJson(name: string): unknown {
  const file = new URL(`../../../seed-data/${name}`, import.meta.url);
  return JSON.parse(readFileSync(file, 'utf8'));
}

/**
 * The map in `seed-data/maps/<folder>`, checked field by field; unknown keys are refused.
 *
 * @throws ValiError naming the field, or the file system's error if a listed file is missing.
 * @example readSeedMap('human').concepts.length // hundreds
 */
export function readSeedMap(folder: string): SeedMap {
  const head = v.parse(headSchema, readJson(`maps/${folder}/map.json`));
  const concepts = head.files.flatMap(
    (file) => v.parse(fileSchema, readJson(`maps/${folder}/${file}`)).concepts,
  );
  return { ...head, concepts };
}

/** Parsed JSON of one file under seed-data, unchecked. */
export function readSeedJson(name: string): unknown {
  return readJson(name);
}

/**
 * A label as it must be unique: no case, accents, spaces or punctuation, and the
 * British digraphs of medical spelling written the short way.
 *
 * @example foldedLabel('Anaemia (AG)') // 'anemiaag'
 */
export function foldedLabel(label: string): string {
  return label
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/ae|oe/g, 'e')
    .replace(/our\b/g, 'or')
    .replace(/[^\p{L}\p{N}+/]/gu, '');
}

/** A map's files as the app hands them to the reader: the head first. */
export function readMapParts(folder: string): unknown[] {
  const head = readJson(`maps/${folder}/map.json`);
  const { files } = v.parse(headSchema, head);
  return [head, ...files.map((file) => readJson(`maps/${folder}/${file}`))];
}
