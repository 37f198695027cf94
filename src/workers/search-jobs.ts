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

/** A key and the mark of the document that should stand under it. */
export type Expected = readonly (readonly [key: string, mark: string])[];

// A type alias, not an interface: only an alias fits the open `Jobs` record.
export type SearchJobs = {
  /** Takes over saved parts; answers which documents are missing or stale, and which parts to let go. */
  restore: {
    input: { readonly parts: readonly StoredPart[]; readonly expected: Expected };
    output: { readonly wanting: readonly string[]; readonly damaged: readonly string[] };
  };
  update: {
    input: { readonly put: readonly SearchDocument[]; readonly remove: readonly string[] };
    output: null;
  };
  find: {
    input: { readonly typed: string; readonly filters: Filters; readonly most: number };
    output: Found;
  };
  /** Parts that have changed since they were saved or loaded; `content` undefined: to be removed. */
  save: { input: null; output: readonly { readonly id: string; readonly content?: SavedPart }[] };
};

/** Documents in one saved part: few enough to write quickly after an edit. */
const partSize = 400;

export function searchJobs(): JobHandlers<SearchJobs> {
  let index = new TextIndex();
  let names = new NamesTable();
  let parts = new Map<string, Set<string>>();
  let partOf = new Map<string, string>();
  let changed = new Set<string>();

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
    restore({ parts: stored, expected }) {
      index = new TextIndex();
      names = new NamesTable();
      parts = new Map();
      partOf = new Map();
      changed = new Set();
      const marks = new Map(expected);
      const damaged: string[] = [];
      for (const { id, content } of stored) {
        const loaded = loadPart(content);
        if (!loaded) {
          damaged.push(id);
          continue;
        }
        const keys = new Set<string>();
        parts.set(id, keys);
        const ids = loaded.words.map((word) => index.vocabulary.idOf(word));
        for (const { document, entries } of loaded.documents) {
          if (marks.get(document.key) !== document.mark || partOf.has(document.key)) {
            changed.add(id);
            continue;
          }
          for (let i = 0; i < entries.length; i += 2) entries[i] = ids[entries[i]!]!;
          index.putEntries(document, entries);
          names.put(document);
          keys.add(document.key);
          partOf.set(document.key, id);
        }
      }
      return {
        wanting: expected.filter(([key]) => !partOf.has(key)).map(([key]) => key),
        damaged,
      };
    },
    update({ put, remove: gone }) {
      if (put.length > 100) index.vocabulary.expectMany();
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
      const saved = [...changed].map((id) => {
        const keys = parts.get(id);
        if (!keys || keys.size === 0) return { id };
        return { id, content: savePart(index, [...keys]) };
      });
      changed = new Set();
      return saved;
    },
  };
}
