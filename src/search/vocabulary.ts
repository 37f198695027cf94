/** The words of the index: a number for each, in order, to complete what is half typed and to mend one letter. */

export class Vocabulary {
  readonly #ids = new Map<string, number>();
  readonly #terms: string[] = [];
  /** By id: documents that hold the word, fields counted apart; 0 for a word that is gone. */
  readonly #counts: number[] = [];
  #size = 0;
  #sorted: string[] | undefined;

  get size(): number {
    return this.#size;
  }

  /** Ids are below it. */
  get idCount(): number {
    return this.#terms.length;
  }

  has(term: string): boolean {
    return this.countOf(term) > 0;
  }

  countOf(term: string): number {
    return this.#counts[this.#ids.get(term) ?? -1] ?? 0;
  }

  /** Undefined for a word that never was in the index. */
  findId(term: string): number | undefined {
    return this.#ids.get(term);
  }

  /** The word's number, which it keeps even while no document holds it. */
  idOf(term: string): number {
    let id = this.#ids.get(term);
    if (id === undefined) {
      this.#ids.set(term, (id = this.#terms.length));
      this.#terms.push(term);
      this.#counts.push(0);
    }
    return id;
  }

  termAt(id: number): string {
    return this.#terms[id]!;
  }

  countAt(id: number): number {
    return this.#counts[id]!;
  }

  /** @param change fields of a document that hold the word: more than 0 when it comes, less when it goes */
  change(id: number, change: number): void {
    const before = this.#counts[id]!;
    const count = before + change;
    this.#counts[id] = count;
    if (before > 0 === count > 0) return;
    this.#size += count > 0 ? 1 : -1;
    if (!this.#sorted) return;
    // One place to mend is cheaper than sorting all again; the rest waits for the next question.
    const term = this.#terms[id]!;
    const place = placeIn(this.#sorted, term);
    if (count > 0) this.#sorted.splice(place, 0, term);
    else this.#sorted.splice(place, 1);
  }

  /** Many words are about to come: order is made once, when next asked for. */
  expectMany(): void {
    this.#sorted = undefined;
  }

  sorted(): readonly string[] {
    return (this.#sorted ??= this.#terms.filter((_, id) => this.#counts[id]! > 0).sort());
  }

  /** Up to `most` words that begin so, those in most documents first. */
  beginningWith(beginning: string, most: number): readonly string[] {
    const sorted = this.sorted();
    const found: string[] = [];
    for (let i = placeIn(sorted, beginning); i < sorted.length; i += 1) {
      const term = sorted[i]!;
      if (!term.startsWith(beginning)) break;
      found.push(term);
    }
    return found.length <= most ? found : this.#commonest(found, most);
  }

  /**
   * Up to `most` words one typing error away (a letter put in, left out, replaced, or
   * two swapped), those in most documents first. Linear in the size of the vocabulary.
   *
   * @param asBeginning also words that go on after such a beginning
   */
  nearlyLike(word: string, asBeginning: boolean, most: number): readonly string[] {
    const found: string[] = [];
    for (let id = 0; id < this.#terms.length; id += 1) {
      const term = this.#terms[id]!;
      if (this.#counts[id]! > 0 && nearly(word, term, asBeginning)) found.push(term);
    }
    return this.#commonest(found, most);
  }

  #commonest(terms: readonly string[], most: number): readonly string[] {
    return terms
      .map((term) => ({ term, count: this.countOf(term) }))
      .sort((a, b) => b.count - a.count || (a.term < b.term ? -1 : 1))
      .slice(0, most)
      .map(({ term }) => term);
  }
}

/** Where a word stands or would stand in a sorted list. */
function placeIn(sorted: readonly string[], term: string): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle]! < term) low = middle + 1;
    else high = middle;
  }
  return low;
}

/**
 * Whether exactly one typing error parts two words.
 *
 * Source: Damerau 1964, "A technique for computer detection and correction of
 * spelling errors", Communications of the ACM 7(3), for the four kinds of error.
 *
 * @example
 * oneEditApart('aldosteron', 'aldosterone'); // true
 * oneEditApart('rneal', 'renal'); // true
 */
export function oneEditApart(a: string, b: string): boolean {
  return nearly(a, b, false);
}

/** One typing error apart; with `asBeginning`, also from some beginning of the term. */
function nearly(word: string, term: string, asBeginning: boolean): boolean {
  const more = term.length - word.length;
  if (more < -1 || (more > 1 && !asBeginning) || word === term) return false;
  let i = 0;
  while (i < word.length && i < term.length && word.charCodeAt(i) === term.charCodeAt(i)) i += 1;
  // The whole word is a beginning of the term: that is no error, save for one letter left out.
  if (i === word.length) return more === 1 || (asBeginning && more > 0);
  const replaced = restIs(word, i + 1, term, i + 1, asBeginning);
  if (replaced && i < term.length) return true;
  if (restIs(word, i + 1, term, i, asBeginning)) return true; // one put in
  if (restIs(word, i, term, i + 1, asBeginning)) return true; // one left out
  return (
    i + 1 < word.length &&
    i + 1 < term.length &&
    word.charCodeAt(i) === term.charCodeAt(i + 1) &&
    word.charCodeAt(i + 1) === term.charCodeAt(i) &&
    restIs(word, i + 2, term, i + 2, asBeginning)
  );
}

/** Whether the word from `a` on is the term from `b` on, or its beginning. */
function restIs(word: string, a: number, term: string, b: number, asBeginning: boolean): boolean {
  const rest = word.length - a;
  const there = term.length - b;
  if (rest > there || (!asBeginning && rest !== there)) return false;
  for (let i = 0; i < rest; i += 1) {
    if (word.charCodeAt(a + i) !== term.charCodeAt(b + i)) return false;
  }
  return true;
}
