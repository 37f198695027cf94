/** What is searched: one document for each record that holds words of the candidate's. */

/** The kinds of records that Find looks through, in the order results are shown. */
export const searchKinds = ['concepts', 'items', 'notes', 'readings', 'lines'] as const;
export type SearchKind = (typeof searchKinds)[number];

/** The parts of a document that are indexed apart; a word in the title weighs most. */
export const searchFields = ['title', 'text', 'links'] as const;
export type SearchField = (typeof searchFields)[number];

export interface SearchDocument {
  /** Kind and id of the record, as "notes:3f2a". */
  readonly key: string;
  readonly kind: SearchKind;
  readonly title: string;
  /** Other names: found like the title. */
  readonly names: readonly string[];
  readonly text: string;
  /** Names of the concepts it is linked to. */
  readonly links: string;
  readonly systems: readonly string[];
  readonly disciplines: readonly string[];
  readonly concepts: readonly string[];
  /** Whole local day it belongs to; undefined where it has none. */
  readonly day?: number | undefined;
  /** Of misses only. */
  readonly settled?: boolean | undefined;
  /** Changes whenever anything above does. */
  readonly mark: string;
}

/**
 * A short mark of a text: equal texts have equal marks, and different ones all but surely not.
 *
 * Source: Fowler, Noll and Vo's FNV-1a (RFC 9923), 32 bits, run twice from two starts.
 *
 * @example
 * markOf('a') === markOf('a'); // true
 */
export function markOf(text: string): string {
  let first = 0x811c9dc5;
  let second = 0x01000193;
  for (let i = 0; i < text.length; i += 1) {
    const unit = text.charCodeAt(i);
    first = Math.imul(first ^ unit, 0x01000193);
    second = Math.imul(second ^ unit, 0x5bd1e995);
  }
  return (first >>> 0).toString(36) + (second >>> 0).toString(36);
}

/** The document with its mark. */
export function withMark(document: Omit<SearchDocument, 'mark'>): SearchDocument {
  return { ...document, mark: markOf(JSON.stringify(Object.values(document))) };
}
