/**
 * The text index: lunr's inverted index and scoring, with documents that come and go.
 *
 * lunr cannot add or remove, because it works out each document's weights when it
 * is built. Here the weights are worked out when asked for, from counts that are
 * kept up to date, and only for the words of the question; so every score equals
 * that of an index built afresh. lunr does the matching and the scoring
 * (`lunr.Index.query`) over an inverted index of its own shape.
 *
 * Weights: Robertson and Zaragoza 2009, "The Probabilistic Relevance Framework:
 * BM25 and Beyond", Foundations and Trends in Information Retrieval 3(4), in the
 * form and with the constants of lunr 2.3.9 (k1 1.2, b 0.75, three decimals).
 */
import lunr from 'lunr';
import { searchFields, type SearchDocument, type SearchField } from './document';
import { tokensOf } from './tokens';
import { Vocabulary } from './vocabulary';

/** How often each word stands in each field of a document. */
export type FieldCounts = Readonly<Record<SearchField, ReadonlyMap<string, number>>>;

/** How often the word stands in each document (by row), field by field; the shape lunr reads. */
type Posting = { _index: number } & Record<SearchField, Record<number, number>>;

export interface Term {
  readonly term: string;
  readonly boost: number;
}

export interface Hit {
  readonly row: number;
  readonly score: number;
  /** Words of the index that were met in it. */
  readonly terms: readonly string[];
}

const k1 = 1.2;
const b = 0.75;
/** What a word weighs by where it stands. */
export const fieldBoosts: Readonly<Record<SearchField, number>> = {
  title: 2.5,
  text: 1,
  links: 0.6,
};

interface Row {
  readonly document: SearchDocument;
  readonly counts: FieldCounts;
  readonly lengths: Readonly<Record<SearchField, number>>;
}

export class TextIndex {
  readonly vocabulary = new Vocabulary();
  readonly #postings: Record<string, Posting> = Object.create(null) as Record<string, Posting>;
  readonly #rows: (Row | undefined)[] = [];
  readonly #freeRows: number[] = [];
  readonly #rowOf = new Map<string, number>();
  readonly #lengthSums: Record<SearchField, number> = { title: 0, text: 0, links: 0 };

  get size(): number {
    return this.#rowOf.size;
  }

  find(key: string): SearchDocument | undefined {
    const row = this.#rowOf.get(key);
    return row === undefined ? undefined : this.#rows[row]?.document;
  }

  documentAt(row: number): SearchDocument | undefined {
    return this.#rows[row]?.document;
  }

  countsOf(key: string): FieldCounts | undefined {
    const row = this.#rowOf.get(key);
    return row === undefined ? undefined : this.#rows[row]?.counts;
  }

  /** Rows in use, in no order that means anything. */
  rows(): Iterable<number> {
    return this.#rowOf.values();
  }

  keys(): Iterable<string> {
    return this.#rowOf.keys();
  }

  /** Whether a document holds a word, in any field. */
  holds(row: number, term: string): boolean {
    const counts = this.#rows[row]?.counts;
    return counts !== undefined && searchFields.some((field) => counts[field].has(term));
  }

  /**
   * Adds a document, or replaces the one with its key.
   *
   * @param counts what `countsIn` would return, where it is known already
   */
  put(document: SearchDocument, counts: FieldCounts = countsIn(document)): void {
    this.remove(document.key);
    const row = this.#freeRows.pop() ?? this.#rows.length;
    const lengths = { title: 0, text: 0, links: 0 };
    for (const field of searchFields) {
      for (const [term, count] of counts[field]) {
        const posting = (this.#postings[term] ??= emptyPosting());
        posting[field][row] = count;
        lengths[field] += count;
        this.vocabulary.add(term, 1);
      }
      this.#lengthSums[field] += lengths[field];
    }
    this.#rows[row] = { document, counts, lengths };
    this.#rowOf.set(document.key, row);
  }

  remove(key: string): void {
    const row = this.#rowOf.get(key);
    const entry = row === undefined ? undefined : this.#rows[row];
    if (row === undefined || !entry) return;
    for (const field of searchFields) {
      for (const term of entry.counts[field].keys()) {
        const posting = this.#postings[term];
        if (posting) Reflect.deleteProperty(posting[field], row);
        this.vocabulary.add(term, -1);
        if (!this.vocabulary.has(term)) Reflect.deleteProperty(this.#postings, term);
      }
      this.#lengthSums[field] -= entry.lengths[field];
    }
    this.#rows[row] = undefined;
    this.#rowOf.delete(key);
    this.#freeRows.push(row);
  }

  /**
   * Documents that hold at least one of the words, best first as lunr scores them.
   *
   * @param terms words of the index, each at most once; others are passed over
   */
  query(terms: readonly Term[]): readonly Hit[] {
    const known = terms
      .filter(({ term }) => this.#postings[term] !== undefined)
      .sort((one, other) => (one.term < other.term ? -1 : 1));
    if (known.length === 0) return [];
    known.forEach(({ term }, index) => (this.#postings[term]!._index = index));

    const parts = {
      invertedIndex: this.#postings,
      fieldVectors: this.#weights(known),
      fields: [...searchFields],
      pipeline: new lunr.Pipeline(),
      // Words are looked up one by one, so lunr's automaton over all of them is not needed.
      tokenSet: { intersect: (wanted: lunr.TokenSet) => wanted },
    };
    // The published types name fewer parts than the constructor reads.
    const index = new lunr.Index(parts as unknown as lunr.Index.Attributes);
    const found = index.query((query) => {
      for (const { term, boost } of known) query.term(term, { boost, usePipeline: false });
    });
    return found.map(({ ref, score, matchData }) => ({
      row: Number(ref),
      score,
      terms: Object.keys(matchData.metadata),
    }));
  }

  /** Each matching document's weights for the given words, by lunr's "field/row". */
  #weights(terms: readonly Term[]): Record<string, { elements: number[] }> {
    const weights = Object.create(null) as Record<string, { elements: number[] }>;
    const documentCount = this.size;
    terms.forEach(({ term }, index) => {
      const posting = this.#postings[term]!;
      const holding = this.vocabulary.countOf(term);
      const idf = Math.log(1 + Math.abs((documentCount - holding + 0.5) / (holding + 0.5)));
      for (const field of searchFields) {
        const average = this.#lengthSums[field] / documentCount;
        for (const key in posting[field]) {
          const row = Number(key);
          const count = posting[field][row]!;
          const length = this.#rows[row]!.lengths[field];
          const weight =
            (idf * ((k1 + 1) * count)) / (k1 * (1 - b + b * (length / average)) + count);
          const rounded = Math.round(weight * fieldBoosts[field] * 1000) / 1000;
          const entry = (weights[`${field}/${key}`] ??= { elements: [] });
          entry.elements.push(index, rounded);
        }
      }
    });
    return weights;
  }
}

/** How often each folded word stands in each field. */
export function countsIn(document: SearchDocument): FieldCounts {
  return {
    title: countWords([document.title, ...document.names].join('\n')),
    text: countWords(document.text),
    links: countWords(document.links),
  };
}

function countWords(text: string): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const { term } of tokensOf(text)) counts.set(term, (counts.get(term) ?? 0) + 1);
  return counts;
}

function emptyPosting(): Posting {
  return { _index: 0, title: {}, text: {}, links: {} };
}
