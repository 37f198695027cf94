/** From what was typed to ranked results. */
import { editDistance } from '../model/nearest-names';
import { foldName, foldWords } from '../model/fold-name';
import type { SearchDocument, SearchKind } from './document';
import type { NamesTable } from './names-table';
import { otherWordsFor } from './other-words';
import { parseQuery, type TypedQuery } from './query';
import { snippetOf, type Snippet } from './snippet';
import type { TextIndex } from './text-index';
import { foldBeginning, tokensOf } from './tokens';

export interface Filters {
  readonly kinds?: readonly SearchKind[] | undefined;
  readonly system?: string | undefined;
  readonly discipline?: string | undefined;
  /** Whole local days, both included; a document without a day passes neither. */
  readonly fromDay?: number | undefined;
  readonly toDay?: number | undefined;
  /** Misses only: settled, or not yet. */
  readonly settled?: boolean | undefined;
}

export interface FoundDocument {
  readonly key: string;
  readonly kind: SearchKind;
  readonly title: Snippet;
  readonly snippet: Snippet | undefined;
  readonly systems: readonly string[];
  readonly disciplines: readonly string[];
  readonly concepts: readonly string[];
  readonly day: number | undefined;
  readonly score: number;
}

export interface FoundGroup {
  readonly kind: SearchKind;
  readonly count: number;
  /** The best of them. */
  readonly first: readonly FoundDocument[];
}

export interface Found {
  readonly count: number;
  /** Groups in the order of their best result. */
  readonly groups: readonly FoundGroup[];
  /** Words typed that are nowhere as typed, and what was searched instead. */
  readonly mended: readonly { readonly typed: string; readonly instead: readonly string[] }[];
  /** Where nothing matches: words to try. */
  readonly nearest: readonly string[];
  /** Documents looked through, after the filters. */
  readonly searched: number;
}

/** Completions of a half-typed word that are looked up. */
const mostCompletions = 32;
const mostMended = 6;
const snippetLength = 180;

/** One typed word and the words of the index that stand for it. */
interface Wanted {
  readonly typed: string;
  readonly terms: ReadonlyMap<string, number>;
  /** Several words that together stand for it ("beta" and "blocker" for "betablocker"). */
  readonly together: readonly (readonly string[])[];
  readonly mended: boolean;
}

export interface Ranked {
  readonly row: number;
  readonly score: number;
  readonly terms: readonly string[];
}

export interface Ranking {
  readonly hits: readonly Ranked[];
  readonly marks: ReadonlySet<string>;
  readonly mended: Found['mended'];
}

/**
 * The results of a typed query, grouped by kind.
 *
 * @param most results shown of each kind
 */
export function find(
  index: TextIndex,
  names: NamesTable,
  typed: string,
  filters: Filters,
  most: number,
): Found {
  const { hits, marks, mended } = rank(index, names, typed, filters);
  const groups = new Map<SearchKind, { count: number; first: FoundDocument[] }>();
  for (const { row, score } of hits) {
    const document = index.documentAt(row)!;
    let group = groups.get(document.kind);
    if (!group) groups.set(document.kind, (group = { count: 0, first: [] }));
    group.count += 1;
    if (group.first.length < most) group.first.push(shown(document, score, marks));
  }
  let searched = 0;
  for (const row of index.rows()) if (passes(index.documentAt(row)!, filters)) searched += 1;
  return {
    count: hits.length,
    groups: [...groups].map(([kind, group]) => ({ kind, ...group })),
    mended,
    nearest: hits.length > 0 ? [] : nearestTo(index, typed),
    searched,
  };
}

function shown(document: SearchDocument, score: number, marks: ReadonlySet<string>): FoundDocument {
  const text = [document.names.join(', '), document.text].filter((part) => part !== '').join('\n');
  return {
    key: document.key,
    kind: document.kind,
    title: snippetOf(document.title, marks, 300),
    snippet: text === '' ? undefined : snippetOf(text, marks, snippetLength),
    systems: document.systems,
    disciplines: document.disciplines,
    concepts: document.concepts,
    day: document.day,
    score,
  };
}

/**
 * Documents that fit a typed query, best first: lunr's score, times how many of
 * the typed words were met, squared; more for a title that is what was typed.
 * With nothing typed but a filter, everything that passes it, newest first.
 */
export function rank(
  index: TextIndex,
  names: NamesTable,
  typed: string,
  filters: Filters,
): Ranking {
  const query = parseQuery(typed);
  const wanted = wantedBy(index, names, query);
  const phrases = query.phrases.map(foldWords);
  const without = query.without.map(foldWords);

  const terms = new Map<string, number>();
  for (const { terms: more, together } of wanted) {
    for (const [term, boost] of more) terms.set(term, Math.max(boost, terms.get(term) ?? 0));
    for (const term of together.flat()) terms.set(term, Math.max(0.5, terms.get(term) ?? 0));
  }
  for (const term of phrases.flat()) terms.set(term, 1);
  const marks = new Set(terms.keys());

  let hits: Ranked[];
  if (terms.size > 0) {
    hits = [...index.query([...terms].map(([term, boost]) => ({ term, boost })))];
  } else if (query.words.length > 0 || query.phrases.length > 0) hits = [];
  else if (without.length === 0 && !anyFilter(filters)) hits = [];
  else hits = Array.from(index.rows(), (row) => ({ row, score: 0, terms: [] }));

  const wholeName = foldName(query.words.join(' '));
  const kept: Ranked[] = [];
  for (const hit of hits) {
    const document = index.documentAt(hit.row)!;
    if (!passes(document, filters)) continue;
    if (phrases.some((phrase) => !holdsPhrase(index, hit.row, document, phrase))) continue;
    if (without.some((phrase) => holdsPhrase(index, hit.row, document, phrase))) continue;
    const met = metOf(hit, wanted);
    if (wanted.length > 0 && met === 0) continue;
    const share = wanted.length === 0 ? 1 : met / wanted.length;
    kept.push({ ...hit, score: hit.score * share * share * titleFactor(document, wholeName) });
  }
  kept.sort(
    (one, other) =>
      other.score - one.score ||
      (index.documentAt(other.row)!.day ?? -1) - (index.documentAt(one.row)!.day ?? -1) ||
      (index.documentAt(one.row)!.key < index.documentAt(other.row)!.key ? -1 : 1),
  );
  const mended = wanted
    .filter((one) => one.mended)
    .map((one) => ({ typed: one.typed, instead: [...one.terms.keys()] }));
  return { hits: kept, marks, mended };
}

function anyFilter(filters: Filters): boolean {
  return Object.values(filters).some((value) => value !== undefined);
}

function passes(document: SearchDocument, filters: Filters): boolean {
  const { kinds, system, discipline, fromDay, toDay, settled } = filters;
  if (kinds !== undefined && !kinds.includes(document.kind)) return false;
  if (system !== undefined && !document.systems.includes(system)) return false;
  if (discipline !== undefined && !document.disciplines.includes(discipline)) return false;
  if (fromDay !== undefined && !(document.day !== undefined && document.day >= fromDay))
    return false;
  if (toDay !== undefined && !(document.day !== undefined && document.day <= toDay)) return false;
  return settled === undefined || document.settled === settled;
}

/** How many of the typed words a document meets. */
function metOf(hit: Ranked, wanted: readonly Wanted[]): number {
  if (wanted.length === 1 && wanted[0]!.together.length === 0) return 1;
  const terms = new Set(hit.terms);
  let met = 0;
  for (const { terms: own, together } of wanted) {
    const direct = hit.terms.some((term) => own.has(term));
    if (direct || together.some((all) => all.every((term) => terms.has(term)))) met += 1;
  }
  return met;
}

/** More for a title or name that is, or begins with, what was typed. */
function titleFactor(document: SearchDocument, wholeName: string): number {
  if (wholeName === '') return 1;
  const own = document.kind === 'concepts' ? [document.title, ...document.names] : [document.title];
  let factor = 1;
  for (const [place, name] of own.entries()) {
    // Folding every long sentence for each keystroke would cost more than it finds.
    if (name.length > 80) continue;
    const folded = foldedName(name);
    if (folded === wholeName) return place === 0 ? 4 : 3.5;
    if (folded.startsWith(wholeName)) factor = 1.6;
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

function wantedBy(index: TextIndex, names: NamesTable, query: TypedQuery): readonly Wanted[] {
  const wanted: Wanted[] = [];
  const flat = query.words.flatMap((typed, place) => {
    const last = query.unfinished && place === query.words.length - 1;
    const parts = tokensOf(typed);
    const written = [...new Set(parts.map(({ position }) => position))];
    return written.map((position, part) => ({
      typed:
        written.length === 1
          ? typed
          : typed.slice(
              parts.find((p) => p.position === position)!.start,
              parts.findLast((p) => p.position === position)!.end,
            ),
      terms: parts.filter((token) => token.position === position).map(({ term }) => term),
      unfinished: last && part === written.length - 1,
    }));
  });
  const whole = names.othersOf(query.words.join(' '));
  for (const [place, word] of flat.entries()) {
    const one = wantedFor(index, word.typed, word.terms, word.unfinished);
    const terms = new Map(one.terms);
    const together = [...one.together];
    // Two words that stand written as one, and the other way round.
    for (const joined of joinedWith(flat, place))
      if (index.vocabulary.has(joined)) terms.set(joined, 0.9);
    if (flat.length > 1) for (const other of names.othersOf(word.typed)) together.push(other);
    for (const other of whole) together.push(other);
    wanted.push({ ...one, terms, together: together.filter((all) => all.length > 0) });
  }
  return wanted;
}

function joinedWith(
  words: readonly { readonly typed: string }[],
  place: number,
): readonly string[] {
  const own = words[place]!.typed;
  const before = words[place - 1]?.typed;
  const after = words[place + 1]?.typed;
  return [
    ...(before === undefined ? [] : [foldName(`${before} ${own}`)]),
    ...(after === undefined ? [] : [foldName(`${own} ${after}`)]),
  ];
}

function wantedFor(
  index: TextIndex,
  typed: string,
  folded: readonly string[],
  unfinished: boolean,
): Wanted {
  const { vocabulary } = index;
  const terms = new Map<string, number>();
  for (const term of folded) if (vocabulary.has(term)) terms.set(term, 1);
  const beginning = foldBeginning(typed);
  if (unfinished && beginning !== '') {
    for (const start of beginningsOf(beginning)) {
      for (const term of vocabulary.beginningWith(start, mostCompletions)) {
        if (!terms.has(term)) terms.set(term, 0.4 + (0.4 * start.length) / term.length);
      }
      if (terms.size > 0) break;
    }
  }
  const together = splitInTwo(index, folded[0] ?? '');
  if (terms.size > 0 || together.length > 0) return { typed, terms, together, mended: false };
  const word = folded[0] ?? '';
  // In very short words one letter is most of the word.
  if (word.length >= 4) {
    for (const term of vocabulary.nearlyLike(word, unfinished, mostMended)) terms.set(term, 0.5);
  }
  return { typed, terms, together, mended: terms.size > 0 };
}

/** The beginning, then what it becomes when its last letters are half of a British spelling. */
function beginningsOf(beginning: string): readonly string[] {
  const shorter = beginning.replace(/ou$/, 'o').replace(/([^ao])[ao]+$/, '$1e');
  return shorter === beginning ? [beginning] : [beginning, shorter];
}

/** The word as two words of the index, written together by who typed it. */
function splitInTwo(index: TextIndex, word: string): readonly (readonly string[])[] {
  if (word.length < 6 || index.vocabulary.has(word)) return [];
  for (let at = word.length - 3; at >= 3; at -= 1) {
    const [first, second] = [word.slice(0, at), word.slice(at)];
    if (index.vocabulary.has(first) && index.vocabulary.has(second)) return [[first, second]];
  }
  return [];
}

/** Whether the words stand in the document one after another; one word: whether it stands there. */
function holdsPhrase(
  index: TextIndex,
  row: number,
  document: SearchDocument,
  phrase: readonly string[],
): boolean {
  if (!phrase.every((term) => index.holds(row, term))) return false;
  if (phrase.length < 2) return true;
  const texts = [document.title, ...document.names, document.text, document.links];
  return texts.some((text) => {
    const at = new Map<string, Set<number>>();
    for (const { term, position } of tokensOf(text)) {
      const places = at.get(term);
      if (places) places.add(position);
      else at.set(term, new Set([position]));
    }
    const starts = at.get(phrase[0]!) ?? [];
    return [...starts].some((start) =>
      phrase.every((term, offset) => at.get(term)?.has(start + offset)),
    );
  });
}

/** Words of the index nearest to what was typed, and words for the same organ. */
function nearestTo(index: TextIndex, typed: string): readonly string[] {
  const proposals = new Set<string>();
  const { words, phrases } = parseQuery(typed);
  for (const word of [...words, ...phrases.flatMap((phrase) => phrase.split(/\s+/))]) {
    for (const other of otherWordsFor(word)) {
      if (foldWords(other).every((term) => index.vocabulary.has(term))) proposals.add(other);
    }
    const folded = foldWords(word)[0] ?? '';
    if (folded.length < 4) continue;
    const near = index.vocabulary
      .sorted()
      .filter((term) => Math.abs(term.length - folded.length) < 3 && term[0] === folded[0])
      .map((term) => ({ term, distance: editDistance(term, folded) }))
      .filter(({ distance }) => distance > 0 && distance <= 2)
      .sort((a, b) => a.distance - b.distance);
    for (const { term } of near.slice(0, 4)) proposals.add(wordAsWritten(index, term));
  }
  return [...proposals].slice(0, 6);
}

/** A word of the index as some document writes it: folded words are never shown. */
export function wordAsWritten(index: TextIndex, term: string): string {
  for (const row of index.rows()) {
    if (!index.holds(row, term)) continue;
    const document = index.documentAt(row)!;
    for (const text of [document.title, ...document.names, document.text, document.links]) {
      const token = tokensOf(text).find((one) => one.term === term);
      if (token) return text.slice(token.start, token.end).toLowerCase();
    }
  }
  return term;
}
