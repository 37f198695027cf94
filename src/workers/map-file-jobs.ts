/** The jobs of the map file worker: foreign and own files read off the page's thread. */
import {
  mapFromTriples,
  meetMap,
  readJsonLd,
  readTurtle,
  type KnownMap,
  type MetMap,
  type SkosMap,
  type SkosOptions,
} from '../formats';
import type { JobHandlers } from './serve-jobs';

export interface MapFileInput {
  readonly text: string;
  /** By its name: ".jsonld" and ".json" are JSON-LD, the rest Turtle. */
  readonly fileName: string;
  readonly options: SkosOptions;
  /** The map that the file is to come in beside. */
  readonly known: KnownMap;
}

/** What a file says of itself, without its concepts. */
export interface MapFileHead extends Pick<SkosMap, 'name' | 'isOurs' | 'notes'> {
  readonly conceptCount: number;
  readonly linkCount: number;
  readonly firstNames: readonly string[];
}

export type MapFileOutput =
  | { readonly kind: 'read'; readonly head: MapFileHead; readonly met: MetMap }
  | { readonly kind: 'rejected'; readonly message: string };

// A type alias, not an interface: only an alias fits the open `Jobs` record.
export type MapFileJobs = {
  readSkos: { input: MapFileInput; output: MapFileOutput };
};

const firstNamesShown = 12;

function headOf({ name, isOurs, notes, concepts }: SkosMap): MapFileHead {
  return {
    name,
    isOurs,
    notes,
    conceptCount: concepts.length,
    linkCount: concepts.reduce((sum, { restsOn }) => sum + restsOn.length, 0),
    firstNames: concepts.slice(0, firstNamesShown).map((concept) => concept.name),
  };
}

export function mapFileJobs(): JobHandlers<MapFileJobs> {
  return {
    readSkos({ text, fileName, options, known }) {
      const isJson = /\.json(ld)?$/i.test(fileName);
      const read = isJson ? readJsonLd(text) : readTurtle(text);
      if (read.kind === 'rejected') return read;
      const map = mapFromTriples(read.triples, options);
      if (map.concepts.length === 0) {
        return {
          kind: 'rejected',
          message: 'The file can be read but holds no skos:Concept. Is it a SKOS file?',
        };
      }
      return { kind: 'read', head: headOf(map), met: meetMap(known, map) };
    },
  };
}
