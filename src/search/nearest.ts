/** What is proposed where nothing matches. */
import { editDistance } from '../model/nearest-names';
import { foldWords } from '../model/fold-name';
import { otherWordsFor } from './other-words';
import { parseQuery } from './query';
import type { TextIndex } from './text-index';
import { tokensOf } from './tokens';

const mostProposed = 6;
/** Letters that a word and a proposal that only begins alike have in common at least. */
const leastCommon = 5;

/**
 * Words of the index to try instead of those typed: of the same part of the body, with up
 * to two letters changed, or with the same beginning ("abdominal" for "abdomen"); linear
 * in the size of the vocabulary.
 */
export function nearestTo(index: TextIndex, typed: string): readonly string[] {
  const proposals = new Set<string>();
  const { words, phrases } = parseQuery(typed);
  for (const word of [...words, ...phrases.flatMap((phrase) => phrase.split(/\s+/))]) {
    for (const other of otherWordsFor(word)) {
      if (foldWords(other).every((term) => index.vocabulary.has(term))) proposals.add(other);
    }
    const folded = foldWords(word)[0] ?? '';
    if (folded.length < 4) continue;
    const near = index.vocabulary
      .beginningWith(folded[0]!, Infinity)
      .map((term) => ({ term, distance: distanceOf(term, folded) }))
      .filter(({ distance }) => distance > 0 && distance < Infinity)
      .sort((a, b) => a.distance - b.distance);
    for (const { term } of near.slice(0, 4)) proposals.add(wordAsWritten(index, term));
  }
  return [...proposals].slice(0, mostProposed);
}

/** Letters changed, up to two; beyond that what is left after a long common beginning. */
function distanceOf(term: string, word: string): number {
  if (Math.abs(term.length - word.length) < 3) {
    const distance = editDistance(term, word);
    if (distance <= 2) return distance;
  }
  let common = 0;
  while (common < term.length && term[common] === word[common]) common += 1;
  if (common < leastCommon) return Infinity;
  return 2 + Math.max(term.length, word.length) - common;
}

/** A word of the index as some document writes it: folded words are never shown. */
export function wordAsWritten(index: TextIndex, term: string): string {
  const document = index.findHolder(term);
  if (!document) return term;
  for (const text of [document.title, ...document.names, document.text, document.links]) {
    const token = tokensOf(text).find((one) => one.term === term);
    if (token) return text.slice(token.start, token.end).toLowerCase();
  }
  return term;
}
