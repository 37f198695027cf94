/**
 * The text index: which word stands where, with documents that come and go.
 *
 * lunr builds an index once and cannot add or remove. Here only counts are kept, and kept
 * up to date; weights are worked out when asked for, from the counts of that moment, so
 * every score equals that of an index built afresh. Words lie in flat lists:
 *
 *   word -> [row, counts, row, counts, ...]      row -> [word, counts, word, counts, ...]
 *
 * A document that goes is masked: its row is empty and its entries are passed over. A
 * word's list is packed once more than half of it is masked, when it is next added to.
 */
import type { SearchDocument, SearchKind } from './document';
import { lunrScores, type LunrScore } from './lunr-scores';
import { Scores, type Clause } from './scores';
import { Vocabulary } from './vocabulary';
import { countIn, countsIn, fieldsIn, type WordCounts } from './word-counts';

export interface Term {
  readonly term: string;
  readonly boost: number;
}

export interface Hit {
  readonly row: number;
  readonly score: number;
}

interface Row {
  readonly document: SearchDocument;
  /** Word ids and packed counts in turn. */
  readonly entries: Uint32Array;
}

const fieldCount = 3;

export class TextIndex {
  readonly vocabulary = new Vocabulary();
  readonly #rows: (Row | undefined)[] = [];
  readonly #rowOf = new Map<string, number>();
  /** By word id: rows and packed counts in turn. */
  readonly #postings: number[][] = [];
  /** By word id: how many entries are masked. */
  readonly #masked: number[] = [];
  /** By row and field: how many words. */
  readonly #lengths: number[] = [];
  readonly #lengthSums = [0, 0, 0];
  readonly #scores = new Scores();
  readonly #kindCounts = new Map<SearchKind, number>();
  /** Grows with every change; weights by length are worked out again then. */
  #version = 0;

  get size(): number {
    return this.#rowOf.size;
  }

  countOfKind(kind: SearchKind): number {
    return this.#kindCounts.get(kind) ?? 0;
  }

  find(key: string): SearchDocument | undefined {
    const row = this.#rowOf.get(key);
    return row === undefined ? undefined : this.#rows[row]?.document;
  }

  documentAt(row: number): SearchDocument | undefined {
    return this.#rows[row]?.document;
  }

  countsOf(key: string): WordCounts | undefined {
    const row = this.#rowOf.get(key);
    const entries = row === undefined ? undefined : this.#rows[row]?.entries;
    if (!entries) return undefined;
    const words: string[] = [];
    const packed = new Uint32Array(entries.length / 2);
    for (let i = 0; i < entries.length; i += 2) {
      packed[words.length] = entries[i + 1]!;
      words.push(this.vocabulary.termAt(entries[i]!));
    }
    return { words, packed };
  }

  /** A document that holds the word; undefined where none does. */
  findHolder(term: string): SearchDocument | undefined {
    const list = this.#postings[this.vocabulary.findId(term) ?? -1] ?? [];
    for (let i = 0; i < list.length; i += 2) {
      const row = this.#rows[list[i]!];
      if (row) return row.document;
    }
    return undefined;
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
    const id = this.vocabulary.findId(term);
    return id !== undefined && this.packedAt(row, id) > 0;
  }

  /** The packed counts of a word in a row; 0 where it does not stand. */
  packedAt(row: number, id: number): number {
    const entries = this.#rows[row]?.entries;
    if (!entries) return 0;
    for (let i = 0; i < entries.length; i += 2) if (entries[i] === id) return entries[i + 1]!;
    return 0;
  }

  /**
   * Adds a document, or replaces the one with its key.
   *
   * @param counts what `countsIn` would return, where it is known already
   */
  put(document: SearchDocument, counts: WordCounts = countsIn(document)): void {
    const { words, packed } = counts;
    const entries = new Uint32Array(words.length * 2);
    for (let i = 0; i < words.length; i += 1) {
      entries[i * 2] = this.vocabulary.idOf(words[i]!);
      entries[i * 2 + 1] = packed[i]!;
    }
    this.putEntries(document, entries);
  }

  /**
   * Adds a document by its word numbers, or replaces the one with its key.
   *
   * @param entries ids of this index's vocabulary and packed counts in turn; kept, not copied
   */
  putEntries(document: SearchDocument, entries: Uint32Array): void {
    this.remove(document.key);
    const row = this.#rows.length;
    const lengths = [0, 0, 0];
    for (let i = 0; i < entries.length; i += 2) {
      const id = entries[i]!;
      const count = entries[i + 1]!;
      this.#postingsToAddTo(id).push(row, count);
      this.vocabulary.change(id, fieldsIn(count));
      for (let field = 0; field < fieldCount; field += 1) lengths[field]! += countIn(count, field);
    }
    lengths.forEach((length, field) => {
      this.#lengthSums[field]! += length;
      this.#lengths.push(length);
    });
    this.#rows.push({ document, entries });
    this.#kindCounts.set(document.kind, this.countOfKind(document.kind) + 1);
    this.#rowOf.set(document.key, row);
    this.#version += 1;
  }

  remove(key: string): void {
    const row = this.#rowOf.get(key);
    const entry = row === undefined ? undefined : this.#rows[row];
    if (row === undefined || !entry) return;
    for (let i = 0; i < entry.entries.length; i += 2) {
      const id = entry.entries[i]!;
      this.#masked[id]! += 1;
      this.vocabulary.change(id, -fieldsIn(entry.entries[i + 1]!));
    }
    for (let field = 0; field < fieldCount; field += 1) {
      this.#lengthSums[field]! -= this.#lengths[row * fieldCount + field]!;
    }
    this.#kindCounts.set(entry.document.kind, this.countOfKind(entry.document.kind) - 1);
    this.#rows[row] = undefined;
    this.#rowOf.delete(key);
    this.#version += 1;
  }

  /** Scores every document that holds a word of a clause; read them before the next call. */
  score(clauses: readonly Clause[]): Scores {
    this.#scores.run(clauses, {
      version: this.#version,
      documentCount: this.size,
      lengths: this.#lengths,
      lengthSums: this.#lengthSums,
      isLive: (row) => this.#rows[row] !== undefined,
      postingsOf: (term) => {
        const id = this.vocabulary.findId(term);
        if (id === undefined || this.vocabulary.countAt(id) <= 0) return undefined;
        return { entries: this.#postings[id]!, holding: this.vocabulary.countAt(id) };
      },
    });
    return this.#scores;
  }

  /**
   * Documents that hold at least one of the words, best first, with lunr's scores.
   *
   * @param terms words of the index, each at most once; others are passed over
   */
  query(terms: readonly Term[]): readonly Hit[] {
    const scores = this.score(
      terms.map(({ term, boost }) => ({ term, boost, words: 1, parts: 0, touches: 1 })),
    );
    return Array.from(scores.rows(), (row) => ({ row, score: scores.of(row) })).sort(
      (one, other) => other.score - one.score,
    );
  }

  /** The same scores from lunr itself, with the fields in which each word was met; for a few rows. */
  lunrScores(rows: readonly number[], terms: readonly Term[]): ReadonlyMap<number, LunrScore> {
    const known = terms.filter(({ term }) => this.vocabulary.has(term));
    return lunrScores({
      terms: known,
      rows,
      documentCount: this.size,
      lengthSums: this.#lengthSums,
      holdingOf: (term) => this.vocabulary.countOf(term),
      lengthOf: (row, field) => this.#lengths[row * fieldCount + field]!,
      countOf: (row, term, field) =>
        countIn(this.packedAt(row, this.vocabulary.findId(term) ?? -1), field),
    });
  }

  /** A word's list; packed first where most of it is masked, so that edits cannot make it grow. */
  #postingsToAddTo(id: number): number[] {
    const list = (this.#postings[id] ??= []);
    const masked = (this.#masked[id] ??= 0);
    // A handful of masked entries costs less than packing them away.
    if (masked < 8 || masked * 4 < list.length) return list;
    let to = 0;
    for (let from = 0; from < list.length; from += 2) {
      if (this.#rows[list[from]!] === undefined) continue;
      list[to++] = list[from]!;
      list[to++] = list[from + 1]!;
    }
    list.length = to;
    this.#masked[id] = 0;
    return list;
  }
}
