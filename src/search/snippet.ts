/** A few lines of a text round the words that were found, cut but never altered. */
import { addressesIn, tokensOf } from './tokens';

export interface SnippetPart {
  readonly text: string;
  readonly marked: boolean;
}

export interface Snippet {
  readonly parts: readonly SnippetPart[];
  /** Whether text was left out before and after. */
  readonly cutBefore: boolean;
  readonly cutAfter: boolean;
}

/**
 * The stretch of a text that holds most different words, with those marked. The
 * parts joined are a stretch of the text, letter for letter, without the addresses
 * of links inside the app.
 *
 * @param length about how many UTF-16 units to show
 *
 * @example
 * snippetOf('Renal oedema', new Set(['edema']), 100).parts;
 * // [{ text: 'Renal ', marked: false }, { text: 'oedema', marked: true }]
 */
export function snippetOf(text: string, terms: ReadonlySet<string>, length: number): Snippet {
  const marks = tokensOf(text).filter(({ term }) => terms.has(term));
  let start = 0;
  let most = 0;
  for (const [i, mark] of marks.entries()) {
    const seen = new Set<string>();
    for (let j = i; j < marks.length && marks[j]!.end <= mark.start + length; j += 1) {
      seen.add(marks[j]!.term);
    }
    if (seen.size <= most) continue;
    most = seen.size;
    start = mark.start;
  }
  // Some words of what stands before make the rest readable.
  start = text.length <= length ? 0 : wordStart(text, Math.max(0, start - Math.floor(length / 4)));
  const end = wordEnd(text, Math.min(text.length, start + length));

  const parts: SnippetPart[] = [];
  let at = start;
  const addUpTo = (to: number, marked: boolean): void => {
    if (to > at) parts.push({ text: text.slice(at, to), marked });
    at = Math.max(at, to);
  };
  const breaks = [
    ...marks.map((mark) => ({ from: mark.start, to: mark.end, marked: true })),
    ...addressesIn(text).map(([from, to]) => ({ from, to, marked: false })),
  ].sort((one, other) => one.from - other.from);
  for (const { from, to, marked } of breaks) {
    if (to <= start || from >= end || (marked && (from < at || to > end))) continue;
    addUpTo(Math.min(from, end), false);
    if (marked) addUpTo(to, true);
    else at = Math.max(at, to);
  }
  addUpTo(end, false);
  return { parts, cutBefore: start > 0, cutAfter: end < text.length };
}

/** Moves back to a space, at most 30 units, so that no word is cut. */
function wordStart(text: string, from: number): number {
  const space = text.lastIndexOf(' ', from);
  return from > 0 && space > from - 30 ? space + 1 : from;
}

function wordEnd(text: string, from: number): number {
  const space = text.indexOf(' ', from);
  if (from >= text.length) return text.length;
  if (space < 0) return text.length - from < 30 ? text.length : from;
  return space - from < 30 ? space : from;
}
