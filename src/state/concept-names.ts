/** Finding concepts by a few typed letters. */
import type { Concept } from '../model/concept-map';
import { foldName } from '../model/fold-name';

interface FoldedConcept {
  readonly concept: Concept;
  /** The name first, then the aliases, folded. */
  readonly names: readonly string[];
}

/** A finder over one version of the map; folding is done once. */
export class ConceptNames {
  readonly #folded: readonly FoldedConcept[];

  constructor(concepts: Iterable<Concept>) {
    this.#folded = Array.from(concepts, (concept) => ({
      concept,
      names: [concept.name, ...concept.aliases].map(foldName),
    }));
  }

  /**
   * Concepts whose name or alias holds every typed word, best first: the whole
   * name, then a name that begins so, then a word that begins so, then the rest;
   * names before aliases.
   *
   * @param first concepts to list before others of equal fit (recent ones)
   */
  find(typed: string, limit = 12, first: ReadonlySet<string> = new Set()): Concept[] {
    const query = foldName(typed);
    const words = query.split(' ').filter((word) => word.length > 0);
    const found: { concept: Concept; rank: number }[] = [];
    for (const { concept, names } of this.#folded) {
      const rank = Math.min(
        ...names.map((name, index) => fitOf(name, query, words) + (index > 0 ? aliasPenalty : 0)),
      );
      if (rank < Infinity) found.push({ concept, rank: rank - (first.has(concept.id) ? 0.5 : 0) });
    }
    found.sort((a, b) => a.rank - b.rank || a.concept.name.localeCompare(b.concept.name));
    return found.slice(0, limit).map(({ concept }) => concept);
  }

  /** The concept with exactly this name or alias, folded; undefined if none. */
  findExact(typed: string): Concept | undefined {
    const query = foldName(typed);
    return this.#folded.find(({ names }) => names.includes(query))?.concept;
  }
}

/** An alias counts a little less than a name that fits as well, and less than a word of a name. */
const aliasPenalty = 1.5;

/** 0 best, Infinity for no fit. */
function fitOf(name: string, query: string, words: readonly string[]): number {
  if (query === '') return 3;
  if (name === query) return 0;
  if (name.startsWith(query)) return 1;
  const nameWords = name.split(' ');
  if (words.every((word) => nameWords.some((other) => other.startsWith(word)))) return 2;
  return words.every((word) => name.includes(word)) ? 3 : Infinity;
}
