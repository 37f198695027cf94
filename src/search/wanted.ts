/** What a typed question asks for, word by word, in words of the index. */
import { foldName } from '../model/fold-name';
import type { NamesTable } from './names-table';
import type { TypedQuery } from './query';
import type { TextIndex } from './text-index';
import { foldBeginning, tokensOf } from './tokens';

/** Completions of a half-typed word that are looked up. */
const mostCompletions = 32;
const mostMended = 6;

/** One typed word and the words of the index that stand for it. */
export interface Wanted {
  readonly typed: string;
  readonly terms: ReadonlyMap<string, number>;
  /** Several words that together stand for it ("beta" and "blocker" for "betablocker"). */
  readonly together: readonly (readonly string[])[];
  readonly mended: boolean;
}

/** Every typed word with what it may mean; parts of a hyphenated word apart. */
export function wantedBy(
  index: TextIndex,
  names: NamesTable,
  query: TypedQuery,
): readonly Wanted[] {
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
  // A slip may look like a plural ("hypoglycemai"), so the word is tried as it stands as well.
  for (const word of [folded[0] ?? '', beginning]) {
    // In very short words one letter is most of the word.
    if (word.length < 4 || terms.size > 0) continue;
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
