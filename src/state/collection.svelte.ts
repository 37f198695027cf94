/** One kind of record in memory, as screens read it. */
import type { RecordKind, RecordOf } from '../model/records';
import { Groups } from './groups';

export class Collection<K extends RecordKind> {
  readonly kind: K;
  /** Everything stored, deletion marks included: revisions are checked against these. */
  #stored = new Map<string, RecordOf<K>>();
  #map = new Map<string, RecordOf<K>>();
  /** What is not deleted; another object after each change, so that readers notice. */
  #live = $state.raw<ReadonlyMap<string, RecordOf<K>>>(new MapView(this.#map));
  /** Made when first asked for, kept up to date since; by the function that names the group. */
  readonly #groups = new Map<(record: RecordOf<K>) => string, Groups<RecordOf<K>>>();

  constructor(kind: K) {
    this.kind = kind;
  }

  /** The records that are not deleted, as they are now: a view, not a copy of this moment. */
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

  /**
   * The live records of one group; the same array until one of them changes. Grows with the
   * group, not with the collection, once the groups were made.
   *
   * @param groupOf names the group of a record; one and the same function for each grouping
   */
  inGroup(groupOf: (record: RecordOf<K>) => string, group: string): readonly RecordOf<K>[] {
    const live = this.#live;
    let groups = this.#groups.get(groupOf);
    if (!groups) {
      groups = new Groups(groupOf, live.values());
      this.#groups.set(groupOf, groups);
    }
    return groups.of(group);
  }

  /** Takes the records over all that was there. */
  replaceAll(records: Iterable<RecordOf<K>>): void {
    this.#stored = new Map();
    this.#map = new Map();
    this.#groups.clear();
    this.put(records);
  }

  /**
   * Adds or replaces records; deletion marks leave the live ones.
   *
   * @param gone ids the store no longer holds at all
   */
  put(records: Iterable<RecordOf<K>>, gone: readonly string[] = []): void {
    for (const id of gone) {
      this.#stored.delete(id);
      this.#takeOut(id);
    }
    for (const record of records) {
      this.#stored.set(record.id, record);
      if (record.stamp.deleted) this.#takeOut(record.id);
      else {
        this.#map.set(record.id, record);
        for (const groups of this.#groups.values()) groups.put(record);
      }
    }
    // A year of items is not copied for one letter: the view is new, what it shows is the same map.
    this.#live = new MapView(this.#map);
  }

  #takeOut(id: string): void {
    this.#map.delete(id);
    for (const groups of this.#groups.values()) groups.remove(id);
  }
}

/** A map that cannot be written through. */
class MapView<V> implements ReadonlyMap<string, V> {
  readonly #map: ReadonlyMap<string, V>;

  constructor(map: ReadonlyMap<string, V>) {
    this.#map = map;
  }

  get size(): number {
    return this.#map.size;
  }

  get(key: string): V | undefined {
    return this.#map.get(key);
  }

  has(key: string): boolean {
    return this.#map.has(key);
  }

  keys() {
    return this.#map.keys();
  }

  values() {
    return this.#map.values();
  }

  entries() {
    return this.#map.entries();
  }

  forEach(visit: (value: V, key: string, map: ReadonlyMap<string, V>) => void): void {
    for (const [key, value] of this.#map) visit(value, key, this);
  }

  [Symbol.iterator]() {
    return this.#map[Symbol.iterator]();
  }
}
