/** What Find looks through, made from the records. */
import type { Concept } from '../model/concept-map';
import type { ConceptId } from '../model/ids';
import { reasonWords, type Block, type Item } from '../model/log';
import type { Picture } from '../model/kept-beside';
import type { Line, Look, Note, Reading } from '../model/study';
import { withMark, type SearchDocument } from '../search';

/** Records by id. */
export interface Lookup<T> {
  get(id: string): T | undefined;
}

export interface FindSource {
  readonly concepts: Lookup<Concept>;
  readonly blocks: Lookup<Block>;
  /** The outcome of each miss's last second look. */
  readonly lastLooks: Lookup<Look>;
  readonly pictures: Lookup<Picture>;
}

/** What a document was made from beside its own record: to tell whether it still stands. */
export type Uses = readonly (readonly [kind: keyof FindSource, id: string, value: unknown])[];

/** The source, with a list of what is asked of it. */
export function watched(source: FindSource): { readonly source: FindSource; readonly uses: Uses } {
  const uses: [keyof FindSource, string, unknown][] = [];
  const watch = <K extends keyof FindSource>(kind: K): FindSource[K] =>
    ({
      get(id: string) {
        const value = source[kind].get(id);
        uses.push([kind, id, value]);
        return value;
      },
    }) as FindSource[K];
  return {
    source: {
      concepts: watch('concepts'),
      blocks: watch('blocks'),
      lastLooks: watch('lastLooks'),
      pictures: watch('pictures'),
    },
    uses,
  };
}

/** Whether all that a document was made from is still the same. */
export function stillStands(uses: Uses, source: FindSource): boolean {
  return uses.every(([kind, id, value]) => source[kind].get(id) === value);
}

/** What the pictures of a record show, in words, one to a line. */
function shownIn(ids: readonly string[] | undefined, source: FindSource): readonly string[] {
  return (ids ?? []).flatMap((id) => source.pictures.get(id)?.alt ?? []);
}

/** The last second look of each item. */
export function lastLooksOf(looks: Iterable<Look>): ReadonlyMap<string, Look> {
  const last = new Map<string, Look>();
  for (const look of looks) {
    if (look.item === undefined) continue;
    const before = last.get(look.item);
    if (!before || look.at > before.at) last.set(look.item, look);
  }
  return last;
}

function linked(ids: readonly ConceptId[], source: FindSource) {
  const concepts = [...new Set(ids)].flatMap((id) => source.concepts.get(id) ?? []);
  return {
    links: concepts.map(({ name }) => name).join('\n'),
    concepts: concepts.map(({ id }) => id),
    systems: [...new Set(concepts.flatMap(({ systems }) => systems))],
    disciplines: [...new Set(concepts.flatMap(({ disciplines }) => disciplines))],
  };
}

export function conceptDocument(concept: Concept, source: FindSource): SearchDocument {
  return withMark({
    key: `concepts:${concept.id}`,
    kind: 'concepts',
    title: concept.name,
    names: concept.aliases,
    text: [concept.covers, concept.mnemonic, ...shownIn(concept.pictures, source)]
      .filter(Boolean)
      .join('\n'),
    links: '',
    systems: concept.systems,
    disciplines: concept.disciplines,
    concepts: [concept.id],
  });
}

/** Undefined for an item that holds no words: nothing could find it. */
export function itemDocument(item: Item, source: FindSource): SearchDocument | undefined {
  const turns = item.optionTurns.map(({ option, turn }) => `${option}: ${turn}`);
  if (item.outcome !== 'missed' && item.missingPiece === '' && turns.length === 0) return undefined;
  const block = source.blocks.get(item.block);
  const about = linked([...item.causes, ...item.topics], source);
  const reason = item.reason ? reasonWords[item.reason] : '';
  const look = source.lastLooks.get(item.id);
  return withMark({
    key: `items:${item.id}`,
    kind: 'items',
    title: item.missingPiece,
    names: [],
    text: [...turns, reason, item.reference, ...shownIn(item.pictures, source)]
      .filter(Boolean)
      .join('\n'),
    ...about,
    systems: [...new Set([...(item.system ? [item.system] : []), ...about.systems])],
    day: block?.day,
    settled: look?.outcome === 'had-it',
  });
}

export function noteDocument(note: Note, source: FindSource): SearchDocument {
  const about = linked(note.concepts, source);
  return withMark({
    key: `notes:${note.id}`,
    kind: 'notes',
    title: note.title,
    names: [],
    text: note.text,
    ...about,
    systems: [...new Set([...note.systems, ...about.systems])],
    disciplines: [...new Set([...note.disciplines, ...about.disciplines])],
  });
}

export function readingDocument(reading: Reading, source: FindSource): SearchDocument {
  return withMark({
    key: `readings:${reading.id}`,
    kind: 'readings',
    title: reading.title,
    names: [],
    text: [reading.source, reading.locator].filter(Boolean).join('\n'),
    ...linked([...reading.main, ...reading.touched], source),
  });
}

export function lineDocument(line: Line, source: FindSource): SearchDocument {
  return withMark({
    key: `lines:${line.id}`,
    kind: 'lines',
    title: line.heading || line.text,
    names: [],
    text: line.heading ? line.text : '',
    ...linked(line.concepts, source),
  });
}
