/**
 * Edits of the map as changes to be committed in one step, so that Undo takes each back whole.
 *
 * Pure functions over what is in memory; the screen commits what they return.
 */
import { findWay, type Neighbours } from '../engine';
import type { Concept } from '../model/concept-map';
import { foldName } from '../model/fold-name';
import type { ConceptId } from '../model/ids';
import type { RecordKind, RecordOf } from '../model/records';
import type { Draft, DraftChange } from './workspace.svelte';

/** What an edit reads: the live records of the kinds that name concepts. */
export interface MapRecords {
  of<K extends NamingKind>(kind: K): { readonly live: ReadonlyMap<string, RecordOf<K>> };
}
type NamingKind = 'concepts' | 'items' | 'notes' | 'readings' | 'lines' | 'topicMatches';

export type Edit =
  | { readonly kind: 'ok'; readonly changes: readonly DraftChange[] }
  /** Names of the concepts on the loop, the first repeated at the end. */
  | { readonly kind: 'loop'; readonly names: readonly string[] }
  | { readonly kind: 'taken'; readonly by: Concept }
  | { readonly kind: 'refused'; readonly why: string };

const put = <K extends RecordKind>(kind: K, record: Draft<K>): DraftChange =>
  ({ kind, put: record }) as unknown as DraftChange;

/** Each once, in order of first appearance. */
const distinct = <T>(values: readonly T[]): T[] => [...new Set(values)];

/** For each concept, those it rests on; links to what is gone left out. */
export function linksBelow(concepts: ReadonlyMap<string, Concept>): Neighbours {
  return new Map(
    Array.from(concepts.values(), ({ id, restsOn }) => [
      id as string,
      restsOn.map((link) => link.concept as string).filter((below) => concepts.has(below)),
    ]),
  );
}

/** The concept that bears a name or alias already, folded; undefined if none but `except` does. */
export function findNamesake(
  concepts: Iterable<Concept>,
  name: string,
  except?: ConceptId,
): Concept | undefined {
  const folded = foldName(name);
  for (const concept of concepts) {
    if (concept.id === except) continue;
    if ([concept.name, ...concept.aliases].some((each) => foldName(each) === folded))
      return concept;
  }
  return undefined;
}

/** A new name; the old one stays as an alias, so that files that use it are still read. */
export function renameConcept(records: MapRecords, id: ConceptId, name: string): Edit {
  const concepts = records.of('concepts').live;
  const concept = concepts.get(id);
  const wanted = name.trim();
  if (!concept) return gone;
  if (wanted === '')
    return { kind: 'refused', why: 'The name is empty. Write at least one letter.' };
  const namesake = findNamesake(concepts.values(), wanted, id);
  if (namesake) return { kind: 'taken', by: namesake };
  if (wanted === concept.name) return { kind: 'ok', changes: [] };
  const aliases = distinct([...concept.aliases, concept.name]).filter((alias) => alias !== wanted);
  return { kind: 'ok', changes: [put('concepts', { ...concept, name: wanted, aliases })] };
}

const gone: Edit = { kind: 'refused', why: 'This concept was deleted in the meantime.' };

/**
 * Lets a concept rest on another, or changes how strongly it does.
 *
 * @param strength in (0, 1]
 * @returns `loop` when the other rests on this one already, by whatever way
 */
export function linkConcepts(
  records: MapRecords,
  from: ConceptId,
  to: ConceptId,
  strength: number | undefined,
): Edit {
  const concepts = records.of('concepts').live;
  const concept = concepts.get(from);
  if (!concept || !concepts.has(to)) return gone;
  const way = findWay(linksBelow(concepts), to, from);
  if (way) {
    return { kind: 'loop', names: [from, ...way].map((id) => concepts.get(id)?.name ?? id) };
  }
  const restsOn = concept.restsOn.some((link) => link.concept === to)
    ? concept.restsOn.map((link) => (link.concept === to ? { concept: to, strength } : link))
    : [...concept.restsOn, { concept: to, strength }];
  return { kind: 'ok', changes: [put('concepts', { ...concept, restsOn })] };
}

export function unlinkConcepts(records: MapRecords, from: ConceptId, to: ConceptId): Edit {
  const concept = records.of('concepts').live.get(from);
  if (!concept) return gone;
  const restsOn = concept.restsOn.filter((link) => link.concept !== to);
  return { kind: 'ok', changes: [put('concepts', { ...concept, restsOn })] };
}

/**
 * The way by which one concept rests on another without a direct link; undefined
 * if there is none. A link beside such a way says nothing new.
 */
export function impliedWay(
  concepts: ReadonlyMap<string, Concept>,
  from: ConceptId,
  to: ConceptId,
): readonly string[] | undefined {
  const below = new Map(linksBelow(concepts));
  below.set(
    from,
    (below.get(from) ?? []).filter((id) => id !== to),
  );
  return findWay(below, from, to)?.map((id) => concepts.get(id)?.name ?? id);
}

/**
 * One concept in place of two: what named the second names the first, and so do
 * its name and aliases.
 *
 * @returns `loop` when one rests on the other by way of a third: the merged concept
 *   would rest on itself
 */
export function mergeConcepts(records: MapRecords, kept: ConceptId, merged: ConceptId): Edit {
  const concepts = records.of('concepts').live;
  const [first, second] = [concepts.get(kept), concepts.get(merged)];
  if (!first || !second) return gone;
  if (kept === merged) return { kind: 'refused', why: 'A concept cannot be merged with itself.' };
  // A direct link between the two falls away; a longer way would become a loop.
  const direct = new Set([`${kept} ${merged}`, `${merged} ${kept}`]);
  const below = new Map(
    [...linksBelow(concepts)].map(([id, list]) => [
      id,
      list.filter((other) => !direct.has(`${id} ${other}`)),
    ]),
  );
  const way = findWay(below, kept, merged) ?? findWay(below, merged, kept);
  if (way)
    return { kind: 'loop', names: [...way, way[0]!].map((id) => concepts.get(id)?.name ?? id) };

  const strongest = new Map<ConceptId, Concept['restsOn'][number]>();
  for (const link of [...first.restsOn, ...second.restsOn]) {
    if (link.concept === kept || link.concept === merged) continue;
    const known = strongest.get(link.concept);
    if (!known || (link.strength ?? 0) > (known.strength ?? 0)) strongest.set(link.concept, link);
  }
  const aliases = distinct([...first.aliases, second.name, ...second.aliases]);
  const joined: Draft<'concepts'> = {
    ...first,
    aliases: aliases.filter((alias) => alias !== first.name),
    covers: first.covers || second.covers,
    disciplines: distinct([...first.disciplines, ...second.disciplines]),
    systems: distinct([...first.systems, ...second.systems]),
    restsOn: [...strongest.values()],
    mnemonic: [first.mnemonic, second.mnemonic].filter(Boolean).join('\n') || undefined,
  };
  const others = [...concepts.values()].flatMap((concept) => {
    if (concept.id === kept || concept.id === merged) return [];
    if (!concept.restsOn.some((link) => link.concept === merged)) return [];
    const links = new Map<ConceptId, Concept['restsOn'][number]>();
    for (const link of concept.restsOn) {
      const target = link.concept === merged ? kept : link.concept;
      const known = links.get(target);
      if (!known || (link.strength ?? 0) > (known.strength ?? 0)) {
        links.set(target, { ...link, concept: target });
      }
    }
    return [put('concepts', { ...concept, restsOn: [...links.values()] })];
  });
  return {
    kind: 'ok',
    changes: [
      put('concepts', joined),
      ...others,
      ...renamedEverywhere(records, merged, kept),
      { kind: 'concepts', remove: merged },
    ],
  };
}

/** Every record beside the map that names a concept, with another name in its place, or with none. */
function renamedEverywhere(
  records: MapRecords,
  from: ConceptId,
  to: ConceptId | undefined,
): DraftChange[] {
  const swap = (ids: readonly ConceptId[]) =>
    distinct(ids.flatMap((id) => (id === from ? (to ? [to] : []) : [id])));
  const has = (ids: readonly ConceptId[]) => ids.includes(from);
  const of = <K extends NamingKind>(kind: K) => [...records.of(kind).live.values()];
  const items = of('items')
    .filter(({ topics, causes }) => has(topics) || has(causes))
    .map((item) => put('items', { ...item, topics: swap(item.topics), causes: swap(item.causes) }));
  const notes = of('notes').flatMap((note) => {
    // Links in the text lead to a concept by its id.
    const text = to ? note.text.replaceAll(`#/concept/${from})`, `#/concept/${to})`) : note.text;
    if (!has(note.concepts) && text === note.text) return [];
    return [put('notes', { ...note, text, concepts: swap(note.concepts) })];
  });
  const readings = of('readings')
    .filter(({ main, touched }) => has(main) || has(touched))
    .map((reading) => {
      const main = swap(reading.main);
      const touched = swap(reading.touched).filter((id) => !main.includes(id));
      return put('readings', { ...reading, main, touched });
    });
  const lines = of('lines')
    .filter(({ concepts }) => has(concepts))
    .map((line) => put('lines', { ...line, concepts: swap(line.concepts) }));
  const matches = of('topicMatches')
    .filter(({ concepts }) => has(concepts))
    .map((match): DraftChange => {
      const concepts = swap(match.concepts);
      // An empty list would mean "leave this name out", which nobody chose.
      if (concepts.length === 0) return { kind: 'topicMatches', remove: match.id };
      return put('topicMatches', { ...match, concepts });
    });
  return [...items, ...notes, ...readings, ...lines, ...matches];
}

/** What hangs on a concept, counted, for the question before it is deleted. */
export function countHanging(records: MapRecords, id: ConceptId) {
  const count = <K extends NamingKind>(kind: K, names: (record: RecordOf<K>) => boolean) =>
    [...records.of(kind).live.values()].filter(names).length;
  return {
    items: count('items', ({ topics, causes }) => topics.includes(id) || causes.includes(id)),
    notes: count('notes', ({ concepts }) => concepts.includes(id)),
    readings: count('readings', ({ main, touched }) => main.includes(id) || touched.includes(id)),
    lines: count('lines', ({ concepts }) => concepts.includes(id)),
    above: count('concepts', ({ restsOn }) => restsOn.some((link) => link.concept === id)),
  };
}

/**
 * Deletes a concept.
 *
 * @param joinLinks what rested on it rests on what it rested on, as strongly as the way was
 * @param heir takes over items, notes, readings and lines; without one they stay, unnamed
 */
export function deleteConcept(
  records: MapRecords,
  id: ConceptId,
  joinLinks: boolean,
  heir?: ConceptId,
): Edit {
  const concepts = records.of('concepts').live;
  const concept = concepts.get(id);
  if (!concept) return gone;
  if (heir === id) return { kind: 'refused', why: 'Choose another concept to take over.' };
  const above = [...concepts.values()]
    .filter(({ restsOn }) => restsOn.some((link) => link.concept === id))
    .map((other) => {
      const through = other.restsOn.find((link) => link.concept === id)?.strength ?? fallback;
      const rest = other.restsOn.filter((link) => link.concept !== id);
      const joined = concept.restsOn
        .filter(({ concept: target }) => !rest.some((link) => link.concept === target))
        .map(({ concept: target, strength = fallback }) => ({
          concept: target,
          strength: strength * through,
        }));
      return put('concepts', { ...other, restsOn: joinLinks ? [...rest, ...joined] : rest });
    });
  return {
    kind: 'ok',
    changes: [...above, ...renamedEverywhere(records, id, heir), { kind: 'concepts', remove: id }],
  };
}

/** Strength of a link that states none, where a product is to be stated. */
const fallback = 0.35;

/** What of a concept goes over to the new one when it is split. */
export interface Split {
  readonly name: string;
  readonly systems: Concept['systems'];
  readonly disciplines: Concept['disciplines'];
  readonly aliases: readonly string[];
  /** Concepts below that the new one rests on; the first keeps the others. */
  readonly below: readonly ConceptId[];
  /** Concepts above that rest on the new one instead. */
  readonly above: readonly ConceptId[];
  /** Items, notes, readings and lines that name the first: also the new one, or the first alone. */
  readonly follow: 'both' | 'first';
}

/** Takes a new concept out of one that holds too much. */
export function splitConcept(
  records: MapRecords,
  id: ConceptId,
  newId: ConceptId,
  split: Split,
): Edit {
  const concepts = records.of('concepts').live;
  const concept = concepts.get(id);
  if (!concept) return gone;
  const name = split.name.trim();
  if (name === '') return { kind: 'refused', why: 'The new concept has no name yet.' };
  const namesake = findNamesake(concepts.values(), name, id);
  if (namesake) return { kind: 'taken', by: namesake };
  if (foldName(name) === foldName(concept.name)) return { kind: 'taken', by: concept };
  const takesLink = (target: ConceptId) => split.below.includes(target);
  const first: Draft<'concepts'> = {
    ...concept,
    aliases: concept.aliases.filter((alias) => !split.aliases.includes(alias)),
    restsOn: concept.restsOn.filter((link) => !takesLink(link.concept)),
  };
  const second: Draft<'concepts'> = {
    id: newId,
    name,
    aliases: split.aliases.filter((alias) => alias !== name),
    covers: '',
    disciplines: [...split.disciplines],
    systems: [...split.systems],
    restsOn: concept.restsOn.filter((link) => takesLink(link.concept)),
  };
  const above = split.above.flatMap((other) => {
    const record = concepts.get(other);
    if (!record) return [];
    const restsOn = record.restsOn.map((link) =>
      link.concept === id ? { ...link, concept: newId } : link,
    );
    return [put('concepts', { ...record, restsOn })];
  });
  const follow = split.follow === 'both' ? addedEverywhere(records, id, newId) : [];
  return {
    kind: 'ok',
    changes: [put('concepts', first), put('concepts', second), ...above, ...follow],
  };
}

/** Every record that names a concept names a second one too. */
function addedEverywhere(records: MapRecords, id: ConceptId, added: ConceptId): DraftChange[] {
  const add = (ids: readonly ConceptId[]) => (ids.includes(id) ? [...ids, added] : [...ids]);
  const of = <K extends NamingKind>(kind: K) => [...records.of(kind).live.values()];
  return [
    ...of('items')
      .filter(({ topics, causes }) => topics.includes(id) || causes.includes(id))
      .map((item) => put('items', { ...item, topics: add(item.topics), causes: add(item.causes) })),
    ...of('notes')
      .filter(({ concepts }) => concepts.includes(id))
      .map((note) => put('notes', { ...note, concepts: add(note.concepts) })),
    ...of('readings')
      .filter(({ main, touched }) => main.includes(id) || touched.includes(id))
      .map((reading) =>
        put('readings', { ...reading, main: add(reading.main), touched: add(reading.touched) }),
      ),
    ...of('lines')
      .filter(({ concepts }) => concepts.includes(id))
      .map((line) => put('lines', { ...line, concepts: add(line.concepts) })),
  ];
}
