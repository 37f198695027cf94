/** The map out to files and in from them. */
import {
  triplesOfMap,
  writeGraphml,
  writeJsonLd,
  writeTurtle,
  type KnownMap,
  type KnownName,
} from '../formats';
import { inMapOrder } from '../model/concept-map';
import { WorkerClient } from '../workers/client';
import type { MapFileHead, MapFileInput, MapFileJobs } from '../workers/map-file-jobs';
import type { DraftChange, Workspace } from './workspace.svelte';

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

/** A file that was read, and what bringing it in would change. */
export interface ReadMapFile {
  readonly head: MapFileHead;
  readonly changes: readonly DraftChange[];
  readonly added: number;
  readonly met: number;
  readonly broken: readonly string[];
  /** False once the map has changed since: the file has to be read again. */
  isCurrent(): boolean;
}

export type MapFileReading =
  | { readonly kind: 'read'; readonly file: ReadMapFile }
  | { readonly kind: 'rejected'; readonly message: string };

/**
 * Reads a SKOS file beside the live map, in a worker of its own, which ends with the answer.
 *
 * @returns undefined when it was stopped
 */
export async function readSkosFile(
  workspace: Pick<Workspace, 'of'>,
  input: Omit<MapFileInput, 'known'>,
  signal: AbortSignal,
  startWorker: ConstructorParameters<typeof WorkerClient>[0] = startMapFileWorker,
): Promise<MapFileReading | undefined> {
  const kinds = ['concepts', 'disciplines', 'systems'] as const;
  const live = kinds.map((kind) => workspace.of(kind).live);
  const client = new WorkerClient<MapFileJobs>(startWorker);
  const result = await client.run('readSkos', { ...input, known: namesIn(workspace) }, { signal });
  client.close();
  if (result.kind === 'failed') return { kind: 'rejected', message: result.message };
  if (result.kind !== 'done') return undefined;
  if (result.output.kind === 'rejected') return result.output;
  const { head, met } = result.output;
  return {
    kind: 'read',
    file: {
      head,
      changes: [
        ...met.disciplines.map((put): DraftChange => ({ kind: 'disciplines', put })),
        ...met.systems.map((put): DraftChange => ({ kind: 'systems', put })),
        ...met.concepts.map((put): DraftChange => ({ kind: 'concepts', put })),
      ],
      added: met.concepts.length,
      met: met.met,
      broken: met.broken,
      isCurrent: () => kinds.every((kind, at) => workspace.of(kind).live === live[at]),
    },
  };
}

const startMapFileWorker = () =>
  new Worker(new URL('../workers/map-file.worker.ts', import.meta.url), { type: 'module' });

/** Names alone: the records hold far more, all of which would be copied on the way to the worker. */
function namesIn(workspace: Pick<Workspace, 'of'>): KnownMap {
  const plain = (each: KnownName): KnownName => ({
    id: each.id,
    name: each.name,
    ...(each.aliases ? { aliases: each.aliases } : {}),
  });
  return {
    concepts: [...workspace.of('concepts').live.values()].map(plain),
    disciplines: [...workspace.of('disciplines').live.values()].map(plain),
    systems: [...workspace.of('systems').live.values()].map(plain),
  };
}
