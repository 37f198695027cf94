/** What is proposed where nothing matches. */
import { editDistance } from '../model/nearest-names';
import { foldWords } from '../model/fold-name';
import { otherWordsFor } from './other-words';
import { parseQuery } from './query';
import type { TextIndex } from './text-index';
import { tokensOf } from './tokens';

/** Words of the index nearest to what was typed, and words for the same organ. */
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
  const document = index.findHolder(term);
  if (!document) return term;
  for (const text of [document.title, ...document.names, document.text, document.links]) {
    const token = tokensOf(text).find((one) => one.term === term);
    if (token) return text.slice(token.start, token.end).toLowerCase();
  }
  return term;
}
