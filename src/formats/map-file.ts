/**
 * A concept map as JSON, in one part or several: checked from unknown input.
 *
 * The head carries the format's name and version; further parts add concepts.
 * Concepts, disciplines and systems are the stored content without stamps.
 */
import * as v from 'valibot';
import { conceptContent, disciplineContent, systemContent } from '../model/concept-map';
import { foldName } from '../model/fold-name';
import { checkWith, type Checked, type FieldFault } from '../model/records';
import { lineOfText, longText } from '../model/text';
import { findLoop } from './find-loop';

const format = v.literal('hypocentre-map', 'this is not a map file of Hypocentre');
const version = v.literal(1, 'this version of Hypocentre reads map files of version 1');

const disciplineContentSchema = v.object(disciplineContent);
const systemContentSchema = v.object(systemContent);
const conceptContentSchema = v.object(conceptContent);

const headSchema = v.object({
  format,
  version,
  name: lineOfText,
  about: v.optional(longText, ''),
  /** Names of the files that hold the other parts; whoever loads them uses this. */
  files: v.optional(v.array(lineOfText), []),
  disciplines: v.optional(v.array(disciplineContentSchema), []),
  systems: v.optional(v.array(systemContentSchema), []),
  concepts: v.optional(v.array(conceptContentSchema), []),
});

const partSchema = v.object({
  format: v.optional(format),
  version: v.optional(version),
  disciplines: v.optional(v.array(disciplineContentSchema), []),
  systems: v.optional(v.array(systemContentSchema), []),
  concepts: v.array(conceptContentSchema),
});

export type DisciplineContent = Readonly<v.InferOutput<typeof disciplineContentSchema>>;
export type SystemContent = Readonly<v.InferOutput<typeof systemContentSchema>>;
export type ConceptContent = Readonly<v.InferOutput<typeof conceptContentSchema>>;

export interface MapContent {
  readonly name: string;
  readonly about: string;
  readonly disciplines: readonly DisciplineContent[];
  readonly systems: readonly SystemContent[];
  readonly concepts: readonly ConceptContent[];
  /** Names that two concepts share: allowed, but they cannot be matched from a file. */
  readonly doubts: readonly FieldFault[];
}

/** A record with the path by which faults name it. */
interface Placed<T> {
  readonly path: string;
  readonly record: T;
}

/**
 * Checks the parts of a map file and joins them.
 *
 * Refused as a whole when a field is wrong, an id is used twice or leads
 * nowhere, or *rests on* runs in a loop (the loop is named). Paths begin with
 * the part's number when there are several: "parts.1.concepts.4.restsOn.0.concept".
 *
 * @param parts the head first, then any others in any order
 *
 * @example
 * parseMapFile([{ format: 'hypocentre-map', version: 1, name: 'Mine' }]).kind; // "ok"
 */
export function parseMapFile(parts: readonly unknown[]): Checked<MapContent> {
  const [first, ...others] = parts;
  const several = others.length > 0;
  const head = checkWith(headSchema, first);
  const rest = others.map((part) => checkWith(partSchema, part));
  const faults = [head, ...rest].flatMap((checked, part) =>
    checked.kind === 'rejected'
      ? checked.faults.map((fault) => ({ ...fault, path: pathIn(part, several, fault.path) }))
      : [],
  );
  if (head.kind === 'rejected' || faults.length > 0) return { kind: 'rejected', faults };

  const read = [head, ...rest].flatMap((checked) => (checked.kind === 'ok' ? [checked.value] : []));
  const place = <T>(
    list: 'disciplines' | 'systems' | 'concepts',
    records: readonly T[],
    part: number,
  ) => records.map((record, i) => ({ path: pathIn(part, several, `${list}.${i}`), record }));
  const disciplines = read.flatMap((each, part) => place('disciplines', each.disciplines, part));
  const systems = read.flatMap((each, part) => place('systems', each.systems, part));
  const concepts = read.flatMap((each, part) => place('concepts', each.concepts, part));

  const broken = [
    ...repeatedIds(disciplines),
    ...repeatedIds(systems),
    ...repeatedIds(concepts),
    ...deadLinks(concepts, idsOf(disciplines), idsOf(systems)),
  ];
  // A loop is only looked for among links that lead somewhere.
  const loops = broken.length > 0 ? broken : loopFaults(concepts);
  if (loops.length > 0) return { kind: 'rejected', faults: loops };

  return {
    kind: 'ok',
    value: {
      name: head.value.name,
      about: head.value.about,
      disciplines: disciplines.map((each) => each.record),
      systems: systems.map((each) => each.record),
      concepts: concepts.map((each) => each.record),
      doubts: sharedNames(concepts),
    },
  };
}

function pathIn(part: number, several: boolean, path: string): string {
  if (!several) return path;
  return path === '' ? `parts.${part}` : `parts.${part}.${path}`;
}

function idsOf(placed: readonly Placed<{ readonly id: string }>[]): ReadonlySet<string> {
  return new Set(placed.map((each) => each.record.id));
}

function repeatedIds(placed: readonly Placed<{ readonly id: string }>[]): readonly FieldFault[] {
  const first = new Map<string, string>();
  return placed.flatMap(({ path, record }) => {
    const before = first.get(record.id);
    first.set(record.id, before ?? path);
    return before === undefined
      ? []
      : [{ path: `${path}.id`, message: `the id "${record.id}" is used already at ${before}` }];
  });
}

function deadLinks(
  concepts: readonly Placed<ConceptContent>[],
  disciplines: ReadonlySet<string>,
  systems: ReadonlySet<string>,
): readonly FieldFault[] {
  const known = idsOf(concepts);
  return concepts.flatMap(({ path, record }) => {
    const lists = [
      { list: 'disciplines', ids: record.disciplines, among: disciplines, noun: 'discipline' },
      { list: 'systems', ids: record.systems, among: systems, noun: 'organ system' },
      {
        list: 'restsOn',
        ids: record.restsOn.map((link) => link.concept),
        among: known,
        noun: 'concept',
      },
    ] as const;
    return lists.flatMap(({ list, ids, among, noun }) =>
      ids.flatMap((id: string, i) => {
        const at = `${path}.${list}.${i}${list === 'restsOn' ? '.concept' : ''}`;
        if (!among.has(id)) return [{ path: at, message: `there is no ${noun} "${id}"` }];
        if (ids.findIndex((other: string) => other === id) < i) {
          return [{ path: at, message: `the ${noun} "${id}" is named twice` }];
        }
        return [];
      }),
    );
  });
}

function loopFaults(concepts: readonly Placed<ConceptContent>[]): readonly FieldFault[] {
  const rowOf = new Map(concepts.map(({ record }, row) => [record.id, row]));
  const loop = findLoop(
    concepts.map(({ record }) => record.restsOn.map((link) => rowOf.get(link.concept)!)),
  );
  if (!loop) return [];
  const names = [...loop, loop[0]!].map((row) => `"${concepts[row]!.record.name}"`);
  return [
    {
      path: `${concepts[loop[0]!]!.path}.restsOn`,
      message: `these rest on each other in a loop: ${names.join(' rests on ')}`,
    },
  ];
}

function sharedNames(concepts: readonly Placed<ConceptContent>[]): readonly FieldFault[] {
  const first = new Map<string, ConceptContent>();
  const doubts: FieldFault[] = [];
  for (const { path, record } of concepts) {
    const named = [
      [`${path}.name`, record.name],
      ...record.aliases.map((alias, i) => [`${path}.aliases.${i}`, alias] as const),
    ] as const;
    for (const [at, name] of named) {
      const folded = foldName(name);
      const before = first.get(folded);
      if (!before) first.set(folded, record);
      else if (before.id !== record.id) {
        doubts.push({ path: at, message: `"${name}" also names the concept "${before.name}"` });
      }
    }
  }
  return doubts;
}
