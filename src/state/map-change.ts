/**
 * Another map for a log that exists: added to the map there is, or in its place.
 *
 * No entry of the log is touched. What the log names stays on the map, with all that
 * it rests on, since old misses are traced to that. A concept of the same name is the
 * one that is there: its id, its links and what was written on it stay.
 */
import { findLoop, type MapContent, type ReadingContent } from '../formats';
import type { Concept, Discipline, OrganSystem } from '../model/concept-map';
import { foldName } from '../model/fold-name';
import type { ConceptId } from '../model/ids';
import type { Block, Item } from '../model/log';
import type { TopicMatch } from '../model/settings';
import type { Line, Note, Reading, ReadingEvent } from '../model/study';
import type { DraftChange } from './workspace.svelte';

type ById<T> = ReadonlyMap<string, T>;

/** The map there is, and the records that name its parts. */
export interface MapInUse {
  readonly disciplines: ById<Discipline>;
  readonly systems: ById<OrganSystem>;
  readonly concepts: ById<Concept>;
  readonly blocks: ById<Block>;
  readonly items: ById<Item>;
  readonly notes: ById<Note>;
  readonly lines: ById<Line>;
  readonly readings: ById<Reading>;
  readonly readingEvents: ById<ReadingEvent>;
  readonly topicMatches: ById<TopicMatch>;
}

/** Added to the map there is, or in its place. */
export type MapChangeManner = 'add' | 'replace';

export interface MapChangePlan {
  readonly kind: 'plan';
  /** Names of what comes in. */
  readonly added: readonly string[];
  /** What is on both maps under one name, by id or by name; the one there stays as it is. */
  readonly same: readonly string[];
  /** Names that stay because the log uses them or rests on them; empty for "add". */
  readonly kept: readonly string[];
  /** Names that go; empty for "add". */
  readonly removed: readonly string[];
  readonly readingsAdded: number;
  readonly readingsRemoved: number;
  readonly changes: readonly DraftChange[];
}

export type PlannedMapChange =
  MapChangePlan | { readonly kind: 'refused'; readonly message: string };

/** Ids of shipped readings begin so; the candidate's own are random. */
const shippedReading = /^reading-/;

/** What another map would change. Time grows linearly with both maps and the log. */
export function planMapChange(
  there: MapInUse,
  incoming: MapContent,
  readings: readonly ReadingContent[],
  manner: MapChangeManner,
): PlannedMapChange {
  const disciplines = joined(there.disciplines, incoming.disciplines);
  const systems = joined(there.systems, incoming.systems);
  const concepts = joined(there.concepts, incoming.concepts);

  const added = concepts.fresh.map((concept) => ({
    ...concept,
    disciplines: unique(concept.disciplines.map((id) => disciplines.idOf(id))),
    systems: unique(concept.systems.map((id) => systems.idOf(id))),
    restsOn: uniqueLinks(
      concept.restsOn.map((link) => ({ ...link, concept: concepts.idOf(link.concept) })),
      concept.id,
    ),
  }));
  const loop = loopThrough(there.concepts, added);
  if (loop) return { kind: 'refused', message: loop };

  const keptIds = withWhatTheyRestOn(usedConcepts(there), there.concepts);
  const gone =
    manner === 'add'
      ? []
      : Array.from(there.concepts.values()).filter(
          ({ id }) => !keptIds.has(id) && !concepts.same.has(id),
        );
  const goneIds = new Set<string>(gone.map(({ id }) => id));
  const staying = [
    ...added,
    ...Array.from(there.concepts.values()).filter(({ id }) => !goneIds.has(id)),
  ];

  const read = new Set<string>(Array.from(there.readingEvents.values(), (each) => each.reading));
  const readingsGone = Array.from(there.readings.values()).filter(
    ({ id, main }) =>
      shippedReading.test(id) && !read.has(id) && main.every((concept) => goneIds.has(concept)),
  );
  const readingsNew = readings
    .filter(({ id }) => !there.readings.has(id))
    .map((reading) => ({
      ...reading,
      main: unique(reading.main.map((id) => concepts.idOf(id))),
      touched: unique(reading.touched.map((id) => concepts.idOf(id))),
    }));

  const systemsInUse = new Set<string | undefined>([
    ...staying.flatMap((concept) => concept.systems),
    ...Array.from(there.items.values(), ({ system }) => system),
    ...Array.from(there.blocks.values(), ({ system }) => system),
    ...Array.from(there.notes.values()).flatMap((note) => note.systems),
  ]);
  const disciplinesInUse = new Set<string>([
    ...staying.flatMap((concept) => concept.disciplines),
    ...Array.from(there.notes.values()).flatMap((note) => note.disciplines),
  ]);
  const leaves = <T extends { readonly id: string }>(
    records: ById<T>,
    same: ReadonlySet<string>,
    inUse: ReadonlySet<string | undefined>,
  ) =>
    manner === 'add'
      ? []
      : Array.from(records.values()).filter(({ id }) => !same.has(id) && !inUse.has(id));

  const after = <T extends { readonly position?: number }>(records: ById<T>) =>
    1 + Math.max(-1, ...Array.from(records.values(), ({ position }) => position ?? -1));
  const firstDiscipline = after(there.disciplines);
  const firstSystem = after(there.systems);

  const changes: DraftChange[] = [
    ...disciplines.fresh.map((put, i): DraftChange => ({
      kind: 'disciplines',
      put: { ...put, position: firstDiscipline + i },
    })),
    ...systems.fresh.map((put, i): DraftChange => ({
      kind: 'systems',
      put: { ...put, position: firstSystem + i },
    })),
    ...added.map((put): DraftChange => ({ kind: 'concepts', put })),
    ...readingsNew.map((put): DraftChange => ({ kind: 'readings', put })),
    ...gone.map(({ id }): DraftChange => ({ kind: 'concepts', remove: id })),
    ...readingsGone.map(({ id }): DraftChange => ({ kind: 'readings', remove: id })),
    ...leaves(there.systems, systems.same, systemsInUse).map(({ id }): DraftChange => ({
      kind: 'systems',
      remove: id,
    })),
    ...leaves(there.disciplines, disciplines.same, disciplinesInUse).map(({ id }): DraftChange => ({
      kind: 'disciplines',
      remove: id,
    })),
  ];
  return {
    kind: 'plan',
    added: names(added),
    same: names(Array.from(concepts.same, (id) => there.concepts.get(id)!)),
    kept:
      manner === 'add'
        ? []
        : names(
            Array.from(there.concepts.values()).filter(
              ({ id }) => keptIds.has(id) && !concepts.same.has(id),
            ),
          ),
    removed: names(gone),
    readingsAdded: readingsNew.length,
    readingsRemoved: readingsGone.length,
    changes,
  };
}

interface Joined<T> {
  /** Ids there that stand for something incoming as well. */
  readonly same: ReadonlySet<string>;
  /** Incoming records that are not there yet. */
  readonly fresh: readonly T[];
  /** The id under which an incoming id is known once both are joined. */
  readonly idOf: <I extends string>(id: I) => I;
}

/** Incoming records beside those there: the same by id, else by folded name. */
function joined<T extends { readonly id: string; readonly name: string }>(
  there: ById<{ readonly id: string; readonly name: string }>,
  incoming: readonly T[],
): Joined<T> {
  const byName = new Map(Array.from(there.values(), ({ id, name }) => [foldName(name), id]));
  const idThere = new Map<string, string>();
  for (const { id, name } of incoming) {
    const found = there.has(id) ? id : byName.get(foldName(name));
    if (found !== undefined) idThere.set(id, found);
  }
  return {
    same: new Set(idThere.values()),
    fresh: incoming.filter(({ id }) => !idThere.has(id)),
    // An id of one kind stands for an id of the same kind.
    idOf: <I extends string>(id: I) => (idThere.get(id) ?? id) as I,
  };
}

function unique<T>(values: readonly T[]): T[] {
  return [...new Set(values)];
}

/** Links without repeats and without one to the concept itself, which joining can bring about. */
function uniqueLinks<L extends { readonly concept: string }>(
  links: readonly L[],
  own: string,
): L[] {
  const seen = new Set<string>([own]);
  return links.filter(({ concept }) => {
    if (seen.has(concept)) return false;
    seen.add(concept);
    return true;
  });
}

/** Concepts named by anything the candidate has logged, written or read. */
function usedConcepts(there: MapInUse): Set<ConceptId> {
  const readings = Array.from(there.readingEvents.values()).flatMap(({ reading }) => {
    const found = there.readings.get(reading);
    return found ? [found] : [];
  });
  const own = Array.from(there.readings.values()).filter(({ id }) => !shippedReading.test(id));
  return new Set([
    ...Array.from(there.items.values()).flatMap(({ topics, causes }) => [...topics, ...causes]),
    ...Array.from(there.notes.values()).flatMap((note) => note.concepts),
    ...Array.from(there.lines.values()).flatMap((line) => line.concepts),
    ...Array.from(there.topicMatches.values()).flatMap((match) => match.concepts),
    ...[...readings, ...own].flatMap(({ main, touched }) => [...main, ...touched]),
    // A mnemonic or a picture of one's own is work too, and would go with its concept.
    ...Array.from(there.concepts.values())
      .filter(({ mnemonic, pictures }) => mnemonic?.trim() || pictures?.length)
      .map(({ id }) => id),
  ]);
}

/** The concepts and everything below them; each is visited once. */
function withWhatTheyRestOn(from: ReadonlySet<ConceptId>, concepts: ById<Concept>): Set<string> {
  const found = new Set<ConceptId>(from);
  // A set grows while it is walked, and its walk reaches what was added.
  for (const id of found)
    for (const link of concepts.get(id)?.restsOn ?? []) found.add(link.concept);
  return found;
}

/** The loop that old and new links make together, named; undefined where there is none. */
function loopThrough(
  there: ById<Concept>,
  added: readonly Pick<Concept, 'id' | 'name' | 'restsOn'>[],
): string | undefined {
  const all = [...Array.from(there.values()), ...added];
  const rowOf = new Map(all.map(({ id }, row) => [id, row]));
  const loop = findLoop(
    all.map(({ restsOn }) =>
      restsOn.flatMap(({ concept }) => {
        const row = rowOf.get(concept);
        return row === undefined ? [] : [row];
      }),
    ),
  );
  if (!loop) return undefined;
  const around = [...loop, loop[0]!].map((row) => `“${all[row]!.name}”`);
  return `Together the two maps would rest on each other in a loop: ${around.join(' rests on ')}. Unlink one of these first.`;
}

function names(records: readonly { readonly name: string }[]): string[] {
  return records.map(({ name }) => name).sort((a, b) => a.localeCompare(b));
}
