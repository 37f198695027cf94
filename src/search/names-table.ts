/** Names and aliases of concepts that mean one thing: searching one finds the others. */
import { foldName, foldWords } from '../model/fold-name';
import type { SearchDocument } from './document';

export class NamesTable {
  /** By folded name: the concepts (their keys) that bear it. */
  readonly #byName = new Map<string, Set<string>>();
  readonly #namesOf = new Map<string, readonly string[]>();

  put(document: SearchDocument): void {
    this.remove(document.key);
    if (document.kind !== 'concepts') return;
    const names = [document.title, ...document.names];
    this.#namesOf.set(document.key, names);
    for (const name of names) {
      const folded = foldName(name);
      const bearers = this.#byName.get(folded);
      if (bearers) bearers.add(document.key);
      else this.#byName.set(folded, new Set([document.key]));
    }
  }

  remove(key: string): void {
    for (const name of this.#namesOf.get(key) ?? []) {
      const folded = foldName(name);
      const bearers = this.#byName.get(folded);
      bearers?.delete(key);
      if (bearers?.size === 0) this.#byName.delete(folded);
    }
    this.#namesOf.delete(key);
  }

  /**
   * The other names of what is named, each as its folded words.
   *
   * @param name a whole name or alias, in any spelling
   */
  othersOf(name: string): readonly (readonly string[])[] {
    const folded = foldName(name);
    const others: (readonly string[])[] = [];
    for (const key of this.#byName.get(folded) ?? []) {
      for (const other of this.#namesOf.get(key) ?? []) {
        if (foldName(other) !== folded) others.push(foldWords(other));
      }
    }
    return others;
  }
}
