/** Concepts that a free line of text seems to be about. */
import type { Concept } from '../model/concept-map';
import { foldWords } from '../model/fold-name';

/** Words too short to tell concepts apart ("of", "the", "and"). */
const shortestWord = 4;
/** Words a concept must share with the text, unless the text holds one of its names whole. */
const leastShared = 2;

interface IndexedConcept {
  readonly concept: Concept;
  /** What each of its words counts. */
  readonly words: ReadonlyMap<string, number>;
  /** The long words of its name and of each alias. */
  readonly names: readonly (readonly string[])[];
}

/**
 * A suggester over one version of the map.
 *
 * Words weigh by how few concepts use them (inverse document frequency, K. Sparck
 * Jones 1972, J. Documentation 28:11-21): a word of a name or alias counts in
 * full, one of the sentence that says what the concept covers a third.
 */
export class ConceptSuggestions {
  readonly #weights: ReadonlyMap<string, number>;
  /** Concepts by each of their words, so that a save looks at a few of them only. */
  readonly #users: ReadonlyMap<string, readonly IndexedConcept[]>;

  constructor(concepts: Iterable<Concept>) {
    const all = Array.from(concepts, (concept) => ({
      concept,
      words: wordsOf(concept),
      names: [concept.name, ...concept.aliases].map(longWords),
    }));
    const users = new Map<string, IndexedConcept[]>();
    for (const indexed of all) {
      for (const word of indexed.words.keys()) {
        const list = users.get(word);
        if (list) list.push(indexed);
        else users.set(word, [indexed]);
      }
    }
    this.#users = users;
    this.#weights = new Map(
      Array.from(users, ([word, { length }]) => [word, Math.log(all.length / length)]),
    );
  }

  /**
   * The concepts nearest to a text, best first; none where nothing fits well.
   *
   * @param without ids that are chosen already
   */
  find(text: string, limit: number, without: ReadonlySet<string>): Concept[] {
    const words = new Set(longWords(text));
    const near = new Set([...words].flatMap((word) => this.#users.get(word) ?? []));
    const scored = [...near].flatMap(({ concept, words: own, names }) => {
      if (without.has(concept.id)) return [];
      const shared = [...words].filter((word) => own.has(word));
      const named = names.some((name) => name.length > 0 && name.every((word) => words.has(word)));
      if (shared.length < leastShared && !named) return [];
      const weightOf = (word: string) => (own.get(word) ?? 0) * (this.#weights.get(word) ?? 0);
      return [{ concept, score: shared.reduce((sum, word) => sum + weightOf(word), 0) }];
    });
    scored.sort((a, b) => b.score - a.score || a.concept.name.localeCompare(b.concept.name));
    return scored.slice(0, limit).map(({ concept }) => concept);
  }
}

function longWords(text: string): string[] {
  return foldWords(text).filter((word) => word.length >= shortestWord);
}

function wordsOf(concept: Concept): ReadonlyMap<string, number> {
  const words = new Map<string, number>();
  const add = (text: string, weight: number) => {
    for (const word of longWords(text)) words.set(word, Math.max(weight, words.get(word) ?? 0));
  };
  add(concept.covers, 1 / 3);
  for (const name of [concept.name, ...concept.aliases]) add(name, 1);
  return words;
}
