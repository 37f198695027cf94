/** The map out to files and in from them. */
import {
  breakLoops,
  triplesOfMap,
  writeGraphml,
  writeJsonLd,
  writeTurtle,
  type SkosMap,
} from '../formats';
import { inMapOrder } from '../model/concept-map';
import { foldName } from '../model/fold-name';
import { WorkerClient } from '../workers/client';
import type { MapFileInput, MapFileJobs, MapFileOutput } from '../workers/map-file-jobs';
import type { DraftChange, Workspace } from './workspace.svelte';

export type { SkosMap } from '../formats';
export type MapFormat = 'turtle' | 'jsonld' | 'graphml';

/** The live map as the text of a file. */
export function mapAsText(workspace: Workspace, format: MapFormat): string {
  const map = {
    name: 'Concept map',
    about: 'A study aid’s vocabulary, not a clinical terminology.',
    disciplines: inMapOrder(workspace.of('disciplines').live.values()),
    systems: inMapOrder(workspace.of('systems').live.values()),
    concepts: [...workspace.of('concepts').live.values()],
  };
  if (format === 'graphml') return writeGraphml(map);
  const triples = triplesOfMap(map);
  return format === 'turtle' ? writeTurtle(triples) : writeJsonLd(triples);
}

/** Reads a SKOS file in a worker of its own, which ends with the answer. */
export async function readSkosFile(
  input: MapFileInput,
  signal: AbortSignal,
): Promise<MapFileOutput | undefined> {
  const client = new WorkerClient<MapFileJobs>(
    () => new Worker(new URL('../workers/map-file.worker.ts', import.meta.url), { type: 'module' }),
  );
  const result = await client.run('readSkos', input, { signal });
  client.close();
  if (result.kind === 'done') return result.output;
  if (result.kind === 'failed') return { kind: 'rejected', message: result.message };
  return undefined;
}

export interface BringIn {
  readonly changes: readonly DraftChange[];
  readonly added: number;
  /** Concepts of the file whose name the map has already, or the file has before: they are taken for one. */
  readonly met: number;
  /** Links left out because, with names taken for one, they would close a loop; in words. */
  readonly broken: readonly string[];
}

type Named = { readonly id: string; readonly name: string; readonly aliases?: readonly string[] };

/**
 * What bringing a file in would change. Concepts, disciplines and systems are met by id
 * or folded name; those met keep what the map says of them. New concepts come with their
 * links to new and met ones; as no way leads back from the map, only links among the new
 * can close a loop, and such are left out.
 */
export function planBringIn(workspace: Pick<Workspace, 'of'>, map: SkosMap): BringIn {
  const concepts = metByName(workspace.of('concepts').live, map.concepts);
  const disciplines = metByName(workspace.of('disciplines').live, map.disciplines);
  const systems = metByName(workspace.of('systems').live, map.systems);
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
    changes: [
      ...disciplines.fresh.map((put): DraftChange => ({ kind: 'disciplines', put })),
      ...systems.fresh.map((put): DraftChange => ({ kind: 'systems', put })),
      ...kept.map((put): DraftChange => ({ kind: 'concepts', put })),
    ],
    added: kept.length,
    met: map.concepts.length - kept.length,
    broken,
  };
}

/** What of a file is new, and which id stands for each of its ids. */
function metByName<T extends Named>(there: ReadonlyMap<string, Named>, incoming: readonly T[]) {
  const byName = new Map<string, string>();
  for (const { id, name, aliases = [] } of there.values()) {
    for (const each of [name, ...aliases]) byName.set(foldName(each), id);
  }
  const idOf = new Map<string, string>();
  const fresh: T[] = [];
  for (const record of incoming) {
    const folded = foldName(record.name);
    const known = there.has(record.id) ? record.id : byName.get(folded);
    idOf.set(record.id, known ?? record.id);
    if (known !== undefined) continue;
    fresh.push(record);
    if (folded !== '') byName.set(folded, record.id);
  }
  // An id of one kind stands for an id of the same kind.
  return { fresh, idOf: <I extends string>(id: I) => (idOf.get(id) ?? id) as I };
}
