/** Exact phrases: words that stand one after another. */
import type { SearchDocument } from './document';
import type { TextIndex } from './text-index';
import { tokensOf } from './tokens';

/** Whether the words stand in the document one after another; one word: whether it stands there. */
export function holdsPhrase(
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
