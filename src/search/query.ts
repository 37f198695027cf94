/** What was typed, taken apart: words, "exact phrases", and what a minus leaves out. */

export interface TypedQuery {
  /** As typed, in order; the last may be unfinished. */
  readonly words: readonly string[];
  readonly phrases: readonly string[];
  readonly without: readonly string[];
  /** Whether the last word may go on: nothing stands after it. */
  readonly unfinished: boolean;
}

const parts = /(^|\s)(-?)(?:["“”„]([^"“”„]*)(?:["“”„]|$)|(\S+))/gu;

/**
 * Takes a typed query apart. A quote that is still open runs to the end; a minus
 * counts only before a word, so "beta-blocker" and "5 - 3" are plain.
 *
 * @example
 * parseQuery('"left shift" -fetal haem');
 * // words ["haem"], phrases ["left shift"], without ["fetal"], unfinished true
 */
export function parseQuery(typed: string): TypedQuery {
  const words: string[] = [];
  const phrases: string[] = [];
  const without: string[] = [];
  let unfinished = false;
  for (const match of typed.matchAll(parts)) {
    const [whole, , minus, phrase, word] = match;
    unfinished = false;
    const text = (phrase ?? word ?? '').trim();
    if (!/[\p{L}\p{N}]/u.test(text)) continue;
    if (minus) without.push(text);
    else if (phrase !== undefined) phrases.push(text);
    else {
      words.push(text);
      unfinished = match.index + whole.length === typed.length;
    }
  }
  return { words, phrases, without, unfinished };
}
