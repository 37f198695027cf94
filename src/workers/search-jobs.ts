/** The jobs of the search worker, and the index it holds between them. */
import {
  find,
  loadPart,
  NamesTable,
  savePart,
  TextIndex,
  type Filters,
  type Found,
  type SavedPart,
  type SearchDocument,
} from '../search';
import type { JobHandlers } from './serve-jobs';

export interface StoredPart {
  readonly id: string;
  readonly content: unknown;
}

/** A key and the mark of the document that stands under it. */
export type Held = readonly (readonly [key: string, mark: string])[];

// A type alias, not an interface: only an alias fits the open `Jobs` record.
export type SearchJobs = {
  /**
   * Takes over saved parts, a few at a time; the first forgets what was there. After the last it can
   * be asked, and answers what it now holds, which may be stale, and which parts could not be read.
   */
  restore: {
    input: {
      readonly parts: readonly StoredPart[];
      readonly first: boolean;
      readonly last: boolean;
    };
    output: { readonly held: Held; readonly damaged: readonly string[] };
  };
  update: {
    input: { readonly put: readonly SearchDocument[]; readonly remove: readonly string[] };
    output: null;
  };
  find: {
    input: { readonly typed: string; readonly filters: Filters; readonly most: number };
    output: Found;
  };
  /**
   * One part that has changed since it was saved or loaded, so that no question waits for all of
   * them; `content` undefined: to be removed. `left`: how many more there are.
   */
  save: {
    input: null;
    output: {
      readonly part: { readonly id: string; readonly content?: SavedPart } | undefined;
      readonly left: number;
    };
  };
};

/** Documents in one saved part: few enough to write quickly after an edit. */
const partSize = 400;

export function searchJobs(): JobHandlers<SearchJobs> {
  let index = new TextIndex();
  let names = new NamesTable();
  let parts = new Map<string, Set<string>>();
  let partOf = new Map<string, string>();
  let changed = new Set<string>();
  let damaged: string[] = [];

  function place(key: string): void {
    let id = partOf.get(key);
    if (id === undefined) {
      id = [...parts].find(([, keys]) => keys.size < partSize)?.[0] ?? `part-${parts.size}`;
      while (!parts.has(id) && changed.has(id)) id += '+';
      const keys = parts.get(id);
      if (keys) keys.add(key);
      else parts.set(id, new Set([key]));
      partOf.set(key, id);
    }
    changed.add(id);
  }

  function remove(key: string): void {
    index.remove(key);
    names.remove(key);
    const id = partOf.get(key);
    if (id === undefined) return;
    parts.get(id)?.delete(key);
    partOf.delete(key);
    changed.add(id);
  }

  return {
    restore({ parts: stored, first, last }) {
      if (first) {
        index = new TextIndex();
        names = new NamesTable();
        parts = new Map();
        partOf = new Map();
        changed = new Set();
        damaged = [];
      }
      for (const { id, content } of stored) {
        const loaded = loadPart(content);
        if (!loaded) {
          damaged.push(id);
          continue;
        }
        const taken = index.putPart(loaded);
        parts.set(id, new Set(taken.map(({ key }) => key)));
        for (const document of taken) {
          names.put(document);
          partOf.set(document.key, id);
        }
        // In two parts at once: one of them is from before an interrupted save.
        if (taken.length < loaded.documents.length) changed.add(id);
      }
      if (!last) return { held: [], damaged: [] };
      index.freeze();
      const held = Array.from(partOf.keys(), (key) => [key, index.find(key)!.mark] as const);
      return { held, damaged };
    },
    update({ put, remove: gone }) {
      if (put.length > 20) index.vocabulary.expectMany();
      for (const key of gone) remove(key);
      for (const document of put) {
        index.put(document);
        names.put(document);
        place(document.key);
      }
      return null;
    },
    find: ({ typed, filters, most }) => find(index, names, typed, filters, most),
    save() {
      const [id] = changed;
      if (id === undefined) return { part: undefined, left: 0 };
      // Saving begins when the candidate has paused: a moment for packing, too.
      index.freezeIfLoose();
      changed.delete(id);
      const keys = parts.get(id);
      const part = keys && keys.size > 0 ? { id, content: savePart(index, [...keys]) } : { id };
      return { part, left: changed.size };
    },
  };
}
