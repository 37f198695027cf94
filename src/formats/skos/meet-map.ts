/** A map from a file beside the one that is there: what is new, and what is taken for one. */
import { foldName } from '../../model/fold-name';
import type { ConceptContent, DisciplineContent, SystemContent } from '../map-file';
import { breakLoops } from './break-loops';
import type { SkosMap } from './to-map';

/** As much of a record as it takes to know it again. */
export interface KnownName {
  readonly id: string;
  readonly name: string;
  readonly aliases?: readonly string[];
}

export interface KnownMap {
  readonly concepts: readonly KnownName[];
  readonly disciplines: readonly KnownName[];
  readonly systems: readonly KnownName[];
}

export interface MetMap {
  readonly disciplines: readonly DisciplineContent[];
  readonly systems: readonly SystemContent[];
  readonly concepts: readonly ConceptContent[];
  /** Concepts of the file whose name the map has already, or the file has before: they are taken for one. */
  readonly met: number;
  /** Links left out because, with names taken for one, they would close a loop; in words. */
  readonly broken: readonly string[];
}

/**
 * What a file adds to a map. Concepts, disciplines and systems are met by id
 * or folded name; those met keep what the map says of them. New concepts come with their
 * links to new and met ones; as no way leads back from the map, only links among the new
 * can close a loop, and such are left out. Time grows with the sizes of both.
 *
 * @example
 * meetMap({ concepts: [], disciplines: [], systems: [] }, map).concepts; // all of them
 */
export function meetMap(known: KnownMap, map: SkosMap): MetMap {
  const concepts = meetByName(known.concepts, map.concepts);
  const disciplines = meetByName(known.disciplines, map.disciplines);
  const systems = meetByName(known.systems, map.systems);
  const joined = concepts.fresh.map((concept) => {
    const links = new Map(
      concept.restsOn.map((link) => {
        const target = concepts.idOf(link.concept);
        return [target, { ...link, concept: target }];
      }),
    );
    links.delete(concept.id);
    return {
      ...concept,
      disciplines: [...new Set(concept.disciplines.map((id) => disciplines.idOf(id)))],
      systems: [...new Set(concept.systems.map((id) => systems.idOf(id)))],
      restsOn: [...links.values()],
    };
  });
  const { kept, broken } = breakLoops(joined);
  return {
    disciplines: disciplines.fresh,
    systems: systems.fresh,
    concepts: kept,
    met: map.concepts.length - kept.length,
    broken,
  };
}

/** What of a file is new, and which id stands for each of its ids. */
function meetByName<T extends KnownName>(known: readonly KnownName[], incoming: readonly T[]) {
  const ids = new Set(known.map(({ id }) => id));
  const byName = new Map<string, string>();
  for (const { id, name, aliases = [] } of known) {
    for (const each of [name, ...aliases]) byName.set(foldName(each), id);
  }
  const idOf = new Map<string, string>();
  const fresh: T[] = [];
  for (const record of incoming) {
    const folded = foldName(record.name);
    const there = ids.has(record.id) ? record.id : byName.get(folded);
    idOf.set(record.id, there ?? record.id);
    if (there !== undefined) continue;
    fresh.push(record);
    if (folded !== '') byName.set(folded, record.id);
  }
  // An id of one kind stands for an id of the same kind.
  return { fresh, idOf: <I extends string>(id: I) => (idOf.get(id) ?? id) as I };
}
