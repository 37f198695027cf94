/** The map out to files and in from them. */
import { triplesOfMap, writeGraphml, writeJsonLd, writeTurtle, type SkosMap } from '../formats';
import { inMapOrder } from '../model/concept-map';
import { foldName } from '../model/fold-name';
import type { ConceptId } from '../model/ids';
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
  /** Concepts of the file whose name the map has already: their links join those of the map. */
  readonly met: number;
}

/**
 * What bringing a file in would change. Concepts are met by folded name; those met keep
 * what the map says of them and get only aliases and links that do not close a loop:
 * here, links between two new concepts and from new ones to met ones.
 */
export function planBringIn(workspace: Workspace, map: SkosMap): BringIn {
  const concepts = workspace.of('concepts').live;
  const byName = new Map<string, ConceptId>();
  for (const { id, name, aliases } of concepts.values()) {
    for (const each of [name, ...aliases]) byName.set(foldName(each), id);
  }
  const idOf = new Map<string, ConceptId>();
  const isNew = new Set<string>();
  for (const { id, name } of map.concepts) {
    const folded = foldName(name);
    const known = concepts.has(id) ? id : byName.get(folded);
    if (known === undefined) isNew.add(id);
    idOf.set(id, known ?? id);
    if (folded !== '' && !byName.has(folded)) byName.set(folded, id);
  }
  const changes: DraftChange[] = [];
  for (const put of map.disciplines) {
    if (!workspace.of('disciplines').find(put.id)) changes.push({ kind: 'disciplines', put });
  }
  for (const put of map.systems) {
    if (!workspace.of('systems').find(put.id)) changes.push({ kind: 'systems', put });
  }
  for (const concept of map.concepts) {
    if (!isNew.has(concept.id)) continue;
    // From a new concept only to what existed or is new itself: no way leads back from the map.
    const restsOn = new Map(
      concept.restsOn.map((link) => {
        const target = idOf.get(link.concept) ?? link.concept;
        return [target, { ...link, concept: target }];
      }),
    );
    restsOn.delete(concept.id);
    changes.push({ kind: 'concepts', put: { ...concept, restsOn: [...restsOn.values()] } });
  }
  return { changes, added: isNew.size, met: map.concepts.length - isNew.size };
}
