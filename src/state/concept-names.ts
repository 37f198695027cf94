/** Finding concepts by a few typed letters. */
import type { Concept } from '../model/concept-map';
import { foldName, foldWords } from '../model/fold-name';

interface FoldedName {
  /** Without spaces, so that "beta-blocker" and "betablocker" are one. */
  readonly whole: string;
  readonly words: readonly string[];
  /** Words as written, letters only: what is half typed has no singular yet ("arteri" is not "arterus"). */
  readonly written: readonly string[];
}

interface FoldedConcept {
  readonly concept: Concept;
  /** The name first, then the aliases. */
  readonly names: readonly FoldedName[];
}

/** A finder over one version of the map; folding is done once. */
export class ConceptNames {
  readonly #folded: readonly FoldedConcept[];
  readonly #byId: ReadonlyMap<string, Concept>;

  constructor(concepts: Iterable<Concept>) {
    this.#folded = Array.from(concepts, (concept) => ({
      concept,
      names: [concept.name, ...concept.aliases].map(fold),
    }));
    this.#byId = new Map(this.#folded.map(({ concept }) => [concept.id, concept]));
  }

  /**
   * Concepts whose name or alias holds every typed word, best first: the whole
   * name, then a name that begins so, then words that begin so, then the rest;
   * names before aliases.
   *
   * @param first concepts to list before others of equal fit (recent ones)
   */
  find(typed: string, limit = 12, first: ReadonlySet<string> = new Set()): Concept[] {
    const query = fold(typed);
    const found: { concept: Concept; rank: number }[] = [];
    for (const { concept, names } of this.#folded) {
      const rank = Math.min(
        ...names.map((name, index) => fitOf(name, query) + (index > 0 ? aliasPenalty : 0)),
      );
      if (rank < Infinity) found.push({ concept, rank: rank - (first.has(concept.id) ? 0.5 : 0) });
    }
    found.sort((a, b) => a.rank - b.rank || a.concept.name.localeCompare(b.concept.name));
    return found.slice(0, limit).map(({ concept }) => concept);
  }

  /** The concept of an id, where it is on the map. */
  findById(id: string): Concept | undefined {
    return this.#byId.get(id);
  }

  /** The concept with exactly this name or alias, folded; undefined if none. */
  findExact(typed: string): Concept | undefined {
    const { whole } = fold(typed);
    return this.#folded.find(({ names }) => names.some((name) => name.whole === whole))?.concept;
  }
}

/** An alias counts a little less than a name that fits as well, and less than a word of a name. */
const aliasPenalty = 1.5;

function fold(text: string): FoldedName {
  const written = text
    .toLowerCase()
    .normalize('NFKD')
    .split(/[^\p{L}\p{N}]+/u);
  return {
    whole: foldName(text),
    words: foldWords(text),
    written: written.filter((word) => word !== ''),
  };
}

/** 0 best, Infinity for no fit. */
function fitOf(name: FoldedName, query: FoldedName): number {
  if (query.whole === '') return 3;
  if (name.whole === query.whole) return 0;
  if (name.whole.startsWith(query.whole) || beginsAsWritten(name, query)) return 1;
  if (wordsBegin(name.words, query.words) || wordsBegin(name.written, query.written)) return 2;
  return query.words.every((word) => name.whole.includes(word)) ? 3 : Infinity;
}

/** Whether every typed word begins some word of the name. */
function wordsBegin(words: readonly string[], typed: readonly string[]): boolean {
  return typed.length > 0 && typed.every((part) => words.some((word) => word.startsWith(part)));
}

function beginsAsWritten(name: FoldedName, query: FoldedName): boolean {
  return query.written.length > 0 && name.written.join('').startsWith(query.written.join(''));
}
