/** The jobs of the map file worker: foreign and own files read off the page's thread. */
import { mapFromTriples, readJsonLd, readTurtle, type SkosMap, type SkosOptions } from '../formats';
import type { JobHandlers } from './serve-jobs';

export interface MapFileInput {
  readonly text: string;
  /** By its name: ".jsonld" and ".json" are JSON-LD, the rest Turtle. */
  readonly fileName: string;
  readonly options: SkosOptions;
}

export type MapFileOutput =
  | { readonly kind: 'read'; readonly map: SkosMap }
  | { readonly kind: 'rejected'; readonly message: string };

// A type alias, not an interface: only an alias fits the open `Jobs` record.
export type MapFileJobs = {
  readSkos: { input: MapFileInput; output: MapFileOutput };
};

export function mapFileJobs(): JobHandlers<MapFileJobs> {
  return {
    readSkos({ text, fileName, options }) {
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
      return { kind: 'read', map };
    },
  };
}
