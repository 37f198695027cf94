/** A few lines of a text round the words that were found, cut but never altered. */
import { tokensOf } from './tokens';

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
 * parts joined are a stretch of the text, letter for letter.
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
  for (const mark of marks) {
    if (mark.start < at || mark.end > end) continue;
    if (mark.start > at) parts.push({ text: text.slice(at, mark.start), marked: false });
    parts.push({ text: text.slice(mark.start, mark.end), marked: true });
    at = mark.end;
  }
  if (at < end) parts.push({ text: text.slice(at, end), marked: false });
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
