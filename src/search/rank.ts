/** Documents that fit a typed question, the best of each kind. */
import { foldName, foldWords } from '../model/fold-name';
import { searchKinds, type SearchDocument, type SearchKind } from './document';
import { anyFilter, passes, type Filters } from './filters';
import type { NamesTable } from './names-table';
import { holdsPhrase } from './phrases';
import { parseQuery, type TypedQuery } from './query';
import type { Clause, Scores } from './scores';
import type { Term, TextIndex } from './text-index';
import { wantedBy, type Wanted } from './wanted';

export interface Ranked {
  readonly row: number;
  readonly score: number;
  /** What the words' own score was multiplied by. */
  readonly factor: number;
}

export interface RankedKind {
  readonly kind: SearchKind;
  readonly count: number;
  /** Best first. */
  readonly first: readonly Ranked[];
}

export interface Ranking {
  readonly count: number;
  readonly kinds: readonly RankedKind[];
  readonly terms: readonly Term[];
  readonly mended: readonly { readonly typed: string; readonly terms: readonly string[] }[];
}

/** Typed words, and parts of joint meanings, that are told apart: a bit for each. */
const mostBits = 32;
/** What a word weighs that is only part of what was meant ("heart" of an alias). */
const partBoost = 0.5;

/** A typed question in the words of the index. */
interface Asked {
  readonly query: TypedQuery;
  readonly wanted: readonly Wanted[];
  readonly clauses: readonly Clause[];
  /** For each typed word: sets of part bits, each of which stands for it where all are met. */
  readonly together: readonly (readonly number[])[];
  readonly phrases: readonly (readonly string[])[];
  readonly without: readonly (readonly string[])[];
  /** How telling each typed word is; those that are nowhere weigh nothing. */
  readonly weights: readonly number[];
  /** All that was typed as one folded name; as typed, and with slips mended. */
  readonly wholeNames: readonly string[];
}

/**
 * The best documents of each kind: the score of lunr's formula, times how much of
 * what was typed was met (its words by how telling they are), squared; more for a
 * title that is what was typed.
 * With nothing typed but a filter, everything that passes it, newest first.
 *
 * @param most kept of each kind
 */
export function rank(
  index: TextIndex,
  names: NamesTable,
  typed: string,
  filters: Filters,
  most: number,
): Ranking {
  const asked = askedBy(index, names, parseQuery(typed));
  const best = Object.fromEntries(
    searchKinds.map((kind) => [kind, { count: 0, first: [] as Ranked[] }]),
  ) as Record<SearchKind, { count: number; first: Ranked[] }>;
  const order = orderIn(index);
  let count = 0;
  for (const hit of hitsOf(index, asked, filters)) {
    const { kind } = index.documentAt(hit.row)!;
    const group = best[kind];
    group.count += 1;
    count += 1;
    keepBest(group.first, hit, most, order);
  }
  const kinds = searchKinds
    .map((kind) => ({ kind, ...best[kind] }))
    .filter((group) => group.count > 0)
    .sort((one, other) => order(one.first[0]!, other.first[0]!));
  const mended = asked.wanted
    .filter((one) => one.mended)
    .map((one) => ({ typed: one.typed, terms: [...one.terms.keys()] }));
  return { count, kinds, terms: asked.clauses, mended };
}

function askedBy(index: TextIndex, names: NamesTable, query: TypedQuery): Asked {
  const wanted = wantedBy(index, names, query).slice(0, mostBits);
  const phrases = query.phrases.map(foldWords);
  const clauses = new Map<
    string,
    { boost: number; words: number; parts: number; touches: number }
  >();
  const clauseOf = (term: string, boost: number) => {
    let clause = clauses.get(term);
    if (!clause) clauses.set(term, (clause = { boost, words: 0, parts: 0, touches: 0 }));
    clause.boost = Math.max(clause.boost, boost);
    return clause;
  };
  const partBits = new Map<string, number>();
  const together = wanted.map((word, place) => {
    const bit = 1 << place;
    for (const [term, boost] of word.terms) {
      const clause = clauseOf(term, boost);
      clause.words |= bit;
      clause.touches |= bit;
    }
    return word.together.flatMap((terms) => {
      let all = 0;
      for (const term of terms) {
        const place = partBits.get(term) ?? partBits.size;
        if (place >= mostBits) return [];
        partBits.set(term, place);
        all |= 1 << place;
        const clause = clauseOf(term, partBoost);
        clause.parts |= 1 << place;
        clause.touches |= bit;
      }
      return [all];
    });
  });
  for (const term of phrases.flat()) clauseOf(term, 1);
  return {
    query,
    wanted,
    clauses: Array.from(clauses, ([term, clause]) => ({ term, ...clause })),
    together,
    phrases,
    without: query.without.map(foldWords),
    weights: wanted.map((word) => weightOfWord(index, word)),
    wholeNames: wholeNamesOf(query, wanted),
  };
}

/** The idf of the word with all that may stand for it: "of" says little, and so does one letter. */
function weightOfWord(index: TextIndex, { terms, together }: Wanted): number {
  let holding = 0;
  for (const term of terms.keys()) holding += index.vocabulary.countOf(term);
  if (holding === 0 && together.length === 0) return 0;
  return Math.log(1 + index.size / (1 + holding));
}

function wholeNamesOf(query: TypedQuery, wanted: readonly Wanted[]): readonly string[] {
  const asTyped = foldName(query.words.join(' '));
  if (asTyped === '') return [];
  if (!wanted.some(({ mended }) => mended)) return [asTyped];
  const mended = wanted.map((one) => (one.mended ? [...one.terms.keys()][0]! : one.typed));
  return [asTyped, foldName(mended.join(' '))];
}

/** Every document that fits, unordered. */
function* hitsOf(index: TextIndex, asked: Asked, filters: Filters): Generator<Ranked> {
  const { query, clauses, phrases, without } = asked;
  const fits = (row: number, document: SearchDocument): boolean =>
    passes(document, filters) &&
    phrases.every((phrase) => holdsPhrase(index, row, document, phrase)) &&
    !without.some((phrase) => holdsPhrase(index, row, document, phrase));

  if (clauses.length === 0) {
    if (query.words.length > 0 || query.phrases.length > 0) return;
    if (without.length === 0 && !anyFilter(filters)) return;
    for (const row of index.rows()) {
      if (fits(row, index.documentAt(row)!)) yield { row, score: 0, factor: 1 };
    }
    return;
  }
  const scores = index.score(clauses);
  const all = asked.wanted.length;
  const allBits = all >= mostBits ? -1 : (1 << all) - 1;
  const allWeight = asked.weights.reduce((sum, weight) => sum + weight, 0);
  for (const row of scores.rows()) {
    const met = all === 0 ? 0 : wordsMet(scores, row, asked);
    if (all > 0 && met === 0) continue;
    const document = index.documentAt(row)!;
    if (!fits(row, document)) continue;
    const share = met === allBits || allWeight === 0 ? 1 : weightMet(asked, met) / allWeight;
    let factor = share * share;
    if (all > 0 && (scores.inTitle(row) & allBits) === allBits) {
      factor *= titleFactor(document, asked.wholeNames);
    }
    yield { row, score: scores.of(row) * factor, factor };
  }
}

/** Bits of the typed words that a document meets, by themselves or by other names. */
function wordsMet(scores: Scores, row: number, { together }: Asked): number {
  let met = scores.wordsMet(row);
  const parts = scores.partsMet(row);
  if (parts === 0) return met;
  together.forEach((sets, place) => {
    if (sets.some((all) => (parts & all) === all)) met |= 1 << place;
  });
  return met;
}

function weightMet({ weights }: Asked, met: number): number {
  let sum = 0;
  weights.forEach((weight, place) => {
    if ((met & (1 << place)) !== 0) sum += weight;
  });
  return sum;
}

/** More for a title or name that is, or begins with, what was typed. */
function titleFactor(document: SearchDocument, wholeNames: readonly string[]): number {
  const own = document.kind === 'concepts' ? [document.title, ...document.names] : [document.title];
  let factor = 1;
  for (const [place, name] of own.entries()) {
    // Folding every long sentence for each keystroke would cost more than it finds.
    if (name.length > 80) continue;
    const folded = foldedName(name);
    if (wholeNames.includes(folded)) return place === 0 ? 4 : 3.5;
    if (wholeNames.some((name) => folded.startsWith(name))) factor = 1.6;
  }
  return factor;
}

const foldedNames = new Map<string, string>();

function foldedName(name: string): string {
  let folded = foldedNames.get(name);
  if (folded === undefined) {
    if (foldedNames.size > 50_000) foldedNames.clear();
    foldedNames.set(name, (folded = foldName(name)));
  }
  return folded;
}

type Order = (one: Ranked, other: Ranked) => number;

/** Best first; of equals the newer, then by key, so that the order never changes by chance. */
function orderIn(index: TextIndex): Order {
  return (one, other) => {
    if (one.score !== other.score) return other.score - one.score;
    const [a, b] = [index.documentAt(one.row)!, index.documentAt(other.row)!];
    return (b.day ?? -1) - (a.day ?? -1) || (a.key < b.key ? -1 : 1);
  };
}

/** Keeps the best few in order, without sorting all that fit. */
function keepBest(best: Ranked[], hit: Ranked, most: number, order: Order): void {
  const worst = best[best.length - 1];
  if (best.length >= most && worst && (hit.score < worst.score || order(hit, worst) > 0)) return;
  let low = 0;
  let high = best.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (order(hit, best[middle]!) < 0) high = middle;
    else low = middle + 1;
  }
  best.splice(low, 0, hit);
  if (best.length > most) best.pop();
}
