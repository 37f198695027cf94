/** One kind of record in memory, as screens read it. */
import type { RecordKind, RecordOf } from '../model/records';

export class Collection<K extends RecordKind> {
  readonly kind: K;
  /** Everything stored, deletion marks included: revisions are checked against these. */
  #stored = new Map<string, RecordOf<K>>();
  /** What is not deleted; replaced as a whole, so that readers notice. */
  #live = $state.raw<ReadonlyMap<string, RecordOf<K>>>(new Map());

  constructor(kind: K) {
    this.kind = kind;
  }

  get live(): ReadonlyMap<string, RecordOf<K>> {
    return this.#live;
  }

  find(id: string): RecordOf<K> | undefined {
    return this.#live.get(id);
  }

  findStored(id: string): RecordOf<K> | undefined {
    return this.#stored.get(id);
  }

  /** Everything stored, deletion marks included. */
  get stored(): Iterable<RecordOf<K>> {
    return this.#stored.values();
  }

  /** Takes the records over all that was there. */
  replaceAll(records: Iterable<RecordOf<K>>): void {
    this.#stored = new Map();
    this.#live = new Map();
    this.put(records);
  }

  /**
   * Adds or replaces records; deletion marks leave the live ones.
   *
   * @param gone ids the store no longer holds at all
   */
  put(records: Iterable<RecordOf<K>>, gone: readonly string[] = []): void {
    const live = new Map(this.#live);
    for (const id of gone) {
      this.#stored.delete(id);
      live.delete(id);
    }
    for (const record of records) {
      this.#stored.set(record.id, record);
      if (record.stamp.deleted) live.delete(record.id);
      else live.set(record.id, record);
    }
    this.#live = live;
  }
}
