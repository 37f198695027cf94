/** Scores of all documents for one question, in flat arrays that are used again for the next. */
import type { Stretch } from './postings';
import { fieldBoosts, idfOf, lengthNorm, weightOf } from './weights';

/** One word of the index that a question asks for. */
export interface Clause {
  readonly term: string;
  readonly boost: number;
  /** Bits: the typed words it stands for by itself. */
  readonly words: number;
  /** Bit: its place among the words that only together stand for one ("beta" and "blocker"). */
  readonly parts: number;
  /** Bits: the typed words it stands for, by itself or in part. */
  readonly touches: number;
}

/** What the scoring reads of an index. */
export interface ScoredIndex {
  readonly version: number;
  readonly documentCount: number;
  /** By row and field. */
  readonly lengths: readonly number[];
  readonly lengthSums: readonly number[];
  readonly isLive: (row: number) => boolean;
  /** Where the word stands, and in how many documents (fields apart). */
  readonly postingsOf: (
    term: string,
  ) => { readonly stretches: readonly Stretch[]; readonly holding: number } | undefined;
}

export class Scores {
  #rows = new Int32Array(0);
  #count = 0;
  #score = new Float64Array(0);
  #words = new Uint32Array(0);
  #parts = new Uint32Array(0);
  #inTitle = new Uint32Array(0);
  #norms = new Float64Array(0);
  #normsOf = -1;

  /** Documents met by the last question. */
  get count(): number {
    return this.#count;
  }

  rows(): Int32Array {
    return this.#rows.subarray(0, this.#count);
  }

  of(row: number): number {
    return this.#score[row]!;
  }

  /** Bits of the typed words that were met by themselves. */
  wordsMet(row: number): number {
    return this.#words[row]!;
  }

  partsMet(row: number): number {
    return this.#parts[row]!;
  }

  /** Bits of the typed words met in the title, by themselves or in part. */
  inTitle(row: number): number {
    return this.#inTitle[row]!;
  }

  /** Scores anew; words that the index does not hold are passed over. */
  run(clauses: readonly Clause[], index: ScoredIndex): void {
    this.#clear();
    this.#makeRoom(index.lengths.length / 3);
    this.#updateNorms(index);
    const { isLive } = index;
    const found = clauses.flatMap((clause) => {
      const postings = index.postingsOf(clause.term);
      return postings ? [{ ...clause, ...postings }] : [];
    });
    // lunr divides by the length of the question's vector, so that scores do not grow with its words.
    let squares = 0;
    for (const { boost } of found) squares += boost * boost;
    const magnitude = Math.sqrt(squares);
    for (const { boost, words, parts, touches, stretches, holding } of found) {
      const idf = idfOf(index.documentCount, holding);
      for (const stretch of stretches) {
        this.#add(stretch, idf, boost / magnitude, words, parts, touches, isLive);
      }
    }
  }

  #add(
    { entries, from, to }: Stretch,
    idf: number,
    boost: number,
    words: number,
    parts: number,
    touches: number,
    isLive: (row: number) => boolean,
  ): void {
    const score = this.#score;
    const norms = this.#norms;
    for (let i = from; i < to; i += 2) {
      const row = entries[i]!;
      if (!isLive(row)) continue;
      const packed = entries[i + 1]!;
      const title = packed & 127;
      const text = (packed >> 7) & 65_535;
      const links = packed >> 23;
      let weight = 0;
      if (title > 0) weight += weightOf(idf, title, norms[row * 3]!, fieldBoosts[0]);
      if (text > 0) weight += weightOf(idf, text, norms[row * 3 + 1]!, fieldBoosts[1]);
      if (links > 0) weight += weightOf(idf, links, norms[row * 3 + 2]!, fieldBoosts[2]);
      if (score[row] === -1) {
        score[row] = 0;
        this.#rows[this.#count++] = row;
      }
      score[row]! += weight * boost;
      this.#words[row]! |= words;
      this.#parts[row]! |= parts;
      if (title > 0) this.#inTitle[row]! |= touches;
    }
  }

  #clear(): void {
    for (const row of this.rows()) {
      this.#score[row] = -1;
      this.#words[row] = 0;
      this.#parts[row] = 0;
      this.#inTitle[row] = 0;
    }
    this.#count = 0;
  }

  #makeRoom(rowCount: number): void {
    if (this.#score.length >= rowCount) return;
    const room = Math.ceil(rowCount * 1.25) + 64;
    this.#rows = new Int32Array(room);
    this.#score = new Float64Array(room).fill(-1);
    this.#words = new Uint32Array(room);
    this.#parts = new Uint32Array(room);
    this.#inTitle = new Uint32Array(room);
    this.#norms = new Float64Array(room * 3);
    this.#normsOf = -1;
  }

  #updateNorms({ version, documentCount, lengths, lengthSums }: ScoredIndex): void {
    if (this.#normsOf === version) return;
    const averages = lengthSums.map((sum) => sum / documentCount);
    for (let i = 0; i < lengths.length; i += 1) {
      this.#norms[i] = lengthNorm(lengths[i]!, averages[i % 3]!);
    }
    this.#normsOf = version;
  }
}
