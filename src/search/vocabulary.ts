/** The words of the index in order, to complete what is half typed and to mend one letter. */

export class Vocabulary {
  /** Documents (fields counted apart) that hold each word. */
  readonly #counts = new Map<string, number>();
  #sorted: string[] | undefined;

  get size(): number {
    return this.#counts.size;
  }

  has(term: string): boolean {
    return this.#counts.has(term);
  }

  countOf(term: string): number {
    return this.#counts.get(term) ?? 0;
  }

  add(term: string, change: 1 | -1): void {
    const before = this.countOf(term);
    const count = before + change;
    if (count > 0) this.#counts.set(term, count);
    else this.#counts.delete(term);
    if (!this.#sorted) return;
    // One place to mend is cheaper than sorting all again; the rest waits for the next question.
    const place = placeIn(this.#sorted, term);
    if (before === 0 && count > 0) this.#sorted.splice(place, 0, term);
    else if (before > 0 && count <= 0) this.#sorted.splice(place, 1);
  }

  /** Many words are about to come: order is made once, when next asked for. */
  expectMany(): void {
    this.#sorted = undefined;
  }

  sorted(): readonly string[] {
    return (this.#sorted ??= [...this.#counts.keys()].sort());
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
    if (found.length <= most) return found;
    return found
      .sort((a, b) => this.countOf(b) - this.countOf(a) || (a < b ? -1 : 1))
      .slice(0, most);
  }

  /**
   * Up to `most` words one typing error away (a letter put in, left out, replaced, or
   * two swapped), those in most documents first. Linear in the size of the vocabulary.
   *
   * @param asBeginning also words that go on after such a beginning
   */
  nearlyLike(word: string, asBeginning: boolean, most: number): readonly string[] {
    const found: string[] = [];
    for (const term of this.#counts.keys()) {
      if (oneEditApart(word, term)) found.push(term);
      else if (asBeginning && term.length > word.length) {
        const near = [-1, 0, 1].some((d) => oneEditApart(word, term.slice(0, word.length + d)));
        if (near) found.push(term);
      }
    }
    return found
      .sort((a, b) => this.countOf(b) - this.countOf(a) || (a < b ? -1 : 1))
      .slice(0, most);
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
  if (Math.abs(a.length - b.length) > 1 || a === b) return false;
  let i = 0;
  while (i < a.length && i < b.length && a[i] === b[i]) i += 1;
  if (a.length === b.length) {
    if (a.slice(i + 1) === b.slice(i + 1)) return true;
    return a[i] === b[i + 1] && a[i + 1] === b[i] && a.slice(i + 2) === b.slice(i + 2);
  }
  return a.length > b.length ? a.slice(i + 1) === b.slice(i) : a.slice(i) === b.slice(i + 1);
}
