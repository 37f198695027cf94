/**
 * The text index: which word stands where, with documents that come and go.
 *
 * lunr builds an index once and cannot add or remove. Here only counts are kept, and kept
 * up to date; weights are worked out when asked for, from the counts of that moment, so
 * every score equals that of an index built afresh. Where the words lie: `postings.ts`.
 */
import type { SearchDocument, SearchKind } from './document';
import { lunrScores, type LunrScore } from './lunr-scores';
import { Postings } from './postings';
import type { LoadedPart } from './saved-part';
import { Scores, type Clause } from './scores';
import { Vocabulary } from './vocabulary';
import { countIn, countsIn, fieldsIn } from './word-counts';

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

/** Words in title, text and links. */
type Lengths = readonly [number, number, number];

const fieldCount = 3;
/** Share of loose entries above which packing pays. */
const mostLoose = 0.2;

export class TextIndex {
  readonly vocabulary = new Vocabulary();
  readonly #rows: (Row | undefined)[] = [];
  readonly #rowOf = new Map<string, number>();
  readonly #postings = new Postings();
  /** By row and field: how many words. */
  readonly #lengths: number[] = [];
  readonly #lengthSums = [0, 0, 0];
  readonly #scores = new Scores();
  readonly #isLive = (row: number): boolean => this.#rows[row] !== undefined;
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

  /** Word ids and packed counts of a document in turn. */
  entriesOf(key: string): Uint32Array | undefined {
    const row = this.#rowOf.get(key);
    return row === undefined ? undefined : this.#rows[row]?.entries;
  }

  /** Words in each field of a document. */
  lengthsOf(key: string): Lengths {
    const from = (this.#rowOf.get(key) ?? NaN) * fieldCount;
    return [this.#lengths[from] ?? 0, this.#lengths[from + 1] ?? 0, this.#lengths[from + 2] ?? 0];
  }

  /** A document that holds the word; undefined where none does. */
  findHolder(term: string): SearchDocument | undefined {
    const id = this.vocabulary.findId(term);
    if (id === undefined) return undefined;
    for (const { entries, from, to } of this.#postings.stretchesOf(id)) {
      for (let i = from; i < to; i += 2) {
        const row = this.#rows[entries[i]!];
        if (row) return row.document;
      }
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

  /** Adds a document, or replaces the one with its key. */
  put(document: SearchDocument): void {
    this.remove(document.key);
    const { words, packed } = countsIn(document);
    const row = this.#rows.length;
    const entries = new Uint32Array(words.length * 2);
    for (let i = 0; i < words.length; i += 1) {
      const id = this.vocabulary.idOf(words[i]!);
      const count = packed[i]!;
      entries[i * 2] = id;
      entries[i * 2 + 1] = count;
      this.#postings.add(id, row, count, this.#isLive);
      this.vocabulary.change(id, fieldsIn(count));
    }
    this.#addRow(document, entries, lengthsIn(entries));
  }

  /**
   * Takes over a saved part; to be followed by `freeze`. Documents that are here already are left out.
   *
   * @param part its entries are kept, not copied, and renumbered in place
   * @returns the documents taken over
   */
  putPart(part: LoadedPart): readonly SearchDocument[] {
    this.vocabulary.expectMany();
    const ids = Uint32Array.from(part.words, (word) => this.vocabulary.idOf(word));
    ids.forEach((id, place) => this.vocabulary.change(id, part.holding[place]!));
    const taken: SearchDocument[] = [];
    for (const { document, entries, lengths } of part.documents) {
      const known = this.#rowOf.has(document.key);
      for (let i = 0; i < entries.length; i += 2) {
        const id = ids[entries[i]!]!;
        entries[i] = id;
        if (known) this.vocabulary.change(id, -fieldsIn(entries[i + 1]!));
      }
      if (known) continue;
      this.#addRow(document, entries, lengths);
      taken.push(document);
    }
    return taken;
  }

  /** Packs everything; linear in the words of all documents. */
  freeze(): void {
    this.#postings.freeze(
      this.#rows.map((row) => row?.entries),
      this.vocabulary.idCount,
    );
  }

  /** Packs everything once enough is loose for it to pay; to be called when nobody waits. */
  freezeIfLoose(): void {
    if (this.#postings.loose > mostLoose) this.freeze();
  }

  #addRow(document: SearchDocument, entries: Uint32Array, lengths: Lengths): void {
    for (let field = 0; field < fieldCount; field += 1) {
      this.#lengthSums[field]! += lengths[field]!;
      this.#lengths.push(lengths[field]!);
    }
    this.#rowOf.set(document.key, this.#rows.length);
    this.#rows.push({ document, entries });
    this.#kindCounts.set(document.kind, this.countOfKind(document.kind) + 1);
    this.#version += 1;
  }

  remove(key: string): void {
    const row = this.#rowOf.get(key);
    const entry = row === undefined ? undefined : this.#rows[row];
    if (row === undefined || !entry) return;
    for (let i = 0; i < entry.entries.length; i += 2) {
      const id = entry.entries[i]!;
      this.#postings.mask(id, row);
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
      isLive: this.#isLive,
      postingsOf: (term) => {
        const id = this.vocabulary.findId(term);
        if (id === undefined || this.vocabulary.countAt(id) <= 0) return undefined;
        const stretches = this.#postings.stretchesOf(id);
        return { stretches, holding: this.vocabulary.countAt(id) };
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
}

function lengthsIn(entries: Uint32Array): Lengths {
  const lengths: [number, number, number] = [0, 0, 0];
  for (let i = 1; i < entries.length; i += 2) {
    const count = entries[i]!;
    lengths[0] += countIn(count, 0);
    lengths[1] += countIn(count, 1);
    lengths[2] += countIn(count, 2);
  }
  return lengths;
}
