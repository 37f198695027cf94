/**
 * Which documents hold each word, with how often: a frozen part and a live one.
 *
 *   frozen   starts  [0, 2, 2, 6 ...]             by word id
 *            entries [row, counts, row, counts]   one array for all words
 *   live     word id -> [row, counts, ...]        what has come since
 *
 * The frozen part is made in one go from all rows, which is what makes a saved index quick to
 * load; the live one takes additions. A document that goes is only masked: its row is empty
 * and its entries are passed over. A word's live list is packed when over half of it is
 * masked, and all is frozen anew when the live part or the masked one has grown.
 */

/** What a word's documents are read from: pairs of row and packed counts, [from, to). */
export interface Stretch {
  readonly entries: ArrayLike<number>;
  readonly from: number;
  readonly to: number;
}

export class Postings {
  #starts = new Uint32Array(1);
  #entries = new Uint32Array(0);
  #live: (number[] | undefined)[] = [];
  /** By word id: masked entries of its live list. */
  #masked: number[] = [];
  #frozenRows = 0;
  #liveCount = 0;
  #maskedCount = 0;

  /** A share of the entries, by number, that is live or masked: when it is large it is time to freeze. */
  get loose(): number {
    const frozen = this.#entries.length / 2;
    return (this.#liveCount + this.#maskedCount) / Math.max(1, frozen + this.#liveCount);
  }

  stretchesOf(id: number): readonly Stretch[] {
    const found: Stretch[] = [];
    const from = this.#starts[id];
    const to = this.#starts[id + 1];
    if (from !== undefined && to !== undefined && to > from) {
      found.push({ entries: this.#entries, from, to });
    }
    const live = this.#live[id];
    if (live) found.push({ entries: live, from: 0, to: live.length });
    return found;
  }

  /** @param isLive whether a row is still in use, to pack what is not */
  add(id: number, row: number, packed: number, isLive: (row: number) => boolean): void {
    const list = (this.#live[id] ??= []);
    const masked = this.#masked[id] ?? 0;
    // A handful of masked entries costs less than packing them away.
    if (masked >= 8 && masked * 4 > list.length) {
      let to = 0;
      for (let from = 0; from < list.length; from += 2) {
        if (!isLive(list[from]!)) continue;
        list[to++] = list[from]!;
        list[to++] = list[from + 1]!;
      }
      this.#liveCount -= (list.length - to) / 2;
      this.#maskedCount -= (list.length - to) / 2;
      list.length = to;
      this.#masked[id] = 0;
    }
    list.push(row, packed);
    this.#liveCount += 1;
  }

  /** The entry of a row that goes. */
  mask(id: number, row: number): void {
    this.#maskedCount += 1;
    if (row >= this.#frozenRows) this.#masked[id] = (this.#masked[id] ?? 0) + 1;
  }

  /**
   * Freezes the entries of all rows and forgets everything else. Linear in the entries.
   *
   * @param rows by row: word ids and packed counts in turn; undefined where the row is empty
   * @param wordCount ids are below it
   */
  freeze(rows: readonly (Uint32Array | undefined)[], wordCount: number): void {
    const starts = new Uint32Array(wordCount + 1);
    for (const row of rows) {
      if (!row) continue;
      for (let i = 0; i < row.length; i += 2) starts[row[i]! + 1]! += 2;
    }
    for (let id = 0; id < wordCount; id += 1) starts[id + 1]! += starts[id]!;
    const entries = new Uint32Array(starts[wordCount]!);
    const next = starts.slice();
    for (let place = 0; place < rows.length; place += 1) {
      const row = rows[place];
      if (!row) continue;
      for (let i = 0; i < row.length; i += 2) {
        const at = next[row[i]!]!;
        entries[at] = place;
        entries[at + 1] = row[i + 1]!;
        next[row[i]!] = at + 2;
      }
    }
    this.#starts = starts;
    this.#entries = entries;
    this.#live = [];
    this.#masked = [];
    this.#frozenRows = rows.length;
    this.#liveCount = 0;
    this.#maskedCount = 0;
  }
}
