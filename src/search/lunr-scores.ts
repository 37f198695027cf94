/**
 * lunr's own matching and scoring, over the few documents that can be shown.
 *
 * `Scores` finds out which those are by the same formula over all documents. An index of
 * lunr's shape is put together for them alone, with the counts of the whole index, and
 * `lunr.Index.query` does the rest: its score, and the fields in which each word was met.
 */
import lunr from 'lunr';
import { searchFields, type SearchField } from './document';
import { fieldBoosts, idfOf, lengthNorm, weightOf } from './weights';

export interface LunrScore {
  readonly score: number;
  /** Fields in which at least one of the words stands. */
  readonly fields: ReadonlySet<SearchField>;
}

interface Wanted {
  readonly terms: readonly { readonly term: string; readonly boost: number }[];
  readonly rows: readonly number[];
  readonly documentCount: number;
  readonly lengthSums: readonly number[];
  readonly holdingOf: (term: string) => number;
  readonly lengthOf: (row: number, field: number) => number;
  readonly countOf: (row: number, term: string, field: number) => number;
}

/** A word's documents by field; the shape lunr reads. */
type Posting = { _index: number } & Record<SearchField, Record<number, object>>;

export function lunrScores(wanted: Wanted): ReadonlyMap<number, LunrScore> {
  const terms = [...wanted.terms].sort((one, other) => (one.term < other.term ? -1 : 1));
  const invertedIndex = Object.create(null) as Record<string, Posting>;
  const fieldVectors = Object.create(null) as Record<string, { elements: number[] }>;
  terms.forEach(({ term }, index) => {
    const posting: Posting = { _index: index, title: {}, text: {}, links: {} };
    invertedIndex[term] = posting;
    const idf = idfOf(wanted.documentCount, wanted.holdingOf(term));
    for (const row of wanted.rows) {
      searchFields.forEach((field, place) => {
        const count = wanted.countOf(row, term, place);
        if (count === 0) return;
        posting[field][row] = {};
        const average = wanted.lengthSums[place]! / wanted.documentCount;
        const norm = lengthNorm(wanted.lengthOf(row, place), average);
        const weight = weightOf(idf, count, norm, fieldBoosts[place]!);
        (fieldVectors[`${field}/${row}`] ??= { elements: [] }).elements.push(index, weight);
      });
    }
  });
  if (terms.length === 0) return new Map();
  const parts = {
    invertedIndex,
    fieldVectors,
    fields: [...searchFields],
    pipeline: new lunr.Pipeline(),
    // Words are looked up one by one, so lunr's automaton over all of them is not needed.
    tokenSet: { intersect: (clause: lunr.TokenSet) => clause },
  };
  // The published types name fewer parts than the constructor reads.
  const index = new lunr.Index(parts as unknown as lunr.Index.Attributes);
  const found = index.query((query) => {
    for (const { term, boost } of terms) query.term(term, { boost, usePipeline: false });
  });
  return new Map(
    found.map(({ ref, score, matchData }) => {
      const met = Object.values(matchData.metadata as Record<string, object>);
      const fields = new Set(met.flatMap((each) => Object.keys(each) as SearchField[]));
      return [Number(ref), { score, fields }];
    }),
  );
}
