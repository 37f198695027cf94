/**
 * Records in groups, kept up to date change by change.
 *
 * @example
 * const groups = new Groups((item: Item) => item.block, items);
 * groups.of('b1'); // the items of block b1; the same array until one of them changes
 */
export class Groups<V extends { readonly id: string }> {
  readonly #groupOf: (record: V) => string;
  readonly #groups = new Map<string, Map<string, V>>();
  readonly #groupById = new Map<string, string>();
  /** Arrays given out and still true. */
  readonly #given = new Map<string, readonly V[]>();

  constructor(groupOf: (record: V) => string, records: Iterable<V>) {
    this.#groupOf = groupOf;
    for (const record of records) this.put(record);
  }

  of(group: string): readonly V[] {
    let given = this.#given.get(group);
    if (!given) {
      given = [...(this.#groups.get(group)?.values() ?? [])];
      this.#given.set(group, given);
    }
    return given;
  }

  put(record: V): void {
    const group = this.#groupOf(record);
    if (this.#groupById.get(record.id) !== group) this.remove(record.id);
    let members = this.#groups.get(group);
    if (!members) {
      members = new Map();
      this.#groups.set(group, members);
    }
    members.set(record.id, record);
    this.#groupById.set(record.id, group);
    this.#given.delete(group);
  }

  remove(id: string): void {
    const group = this.#groupById.get(id);
    if (group === undefined) return;
    this.#groupById.delete(id);
    this.#groups.get(group)?.delete(id);
    this.#given.delete(group);
  }
}
