/** A text cut into folded words that know where they stand in it. */
import { foldName, foldWords } from '../model/fold-name';

export interface Token {
  readonly term: string;
  /** UTF-16 units of the text as it was written: [start, end). */
  readonly start: number;
  readonly end: number;
  /** Place among the words: parts of a hyphenated word follow each other. */
  readonly position: number;
}

/** Letters, digits, marks, the signs of ions and possessives, and hyphens between them. */
const chunks =
  /[\p{L}\p{N}\p{M}][\p{L}\p{N}\p{M}+⁺⁻'’]*(?:[-‐‑–][\p{L}\p{N}\p{M}][\p{L}\p{N}\p{M}+⁺⁻'’]*)*/gu;
const hyphen = /[-‐‑–]/;

/** Folding is the dear part of indexing, and most words of a log come again and again. */
const foldedBefore = new Map<string, readonly string[]>();
const mostRemembered = 60_000;

function folded(word: string): readonly string[] {
  const known = foldedBefore.get(word);
  if (known) return known;
  const terms = foldWords(word);
  if (foldedBefore.size >= mostRemembered) foldedBefore.clear();
  foldedBefore.set(word, terms);
  return terms;
}

/** The address of a link inside the app, as Markdown writes it: nobody's words. */
const addresses = /\]\(#\/[^)\s]*\)/g;

/** Where a text has addresses of links: [start, end) in UTF-16 units, in order. */
export function addressesIn(text: string): readonly (readonly [number, number])[] {
  if (!text.includes('](#/')) return [];
  return Array.from(text.matchAll(addresses), ({ index, 0: whole }) => [
    index + 1,
    index + whole.length,
  ]);
}

/** The text with the addresses of links blotted out, every other letter in its place. */
function withoutAddresses(text: string): string {
  if (!text.includes('](#/')) return text;
  return text.replace(addresses, (whole) => ' '.repeat(whole.length));
}

/**
 * The folded words of a text with their places; addresses of links are passed over. A word with hyphens gives its
 * parts and, over the same letters, the whole without hyphens.
 *
 * @example
 * tokensOf('β-Blockers help').map((token) => token.term);
 * // ["beta", "blocker", "betablocker", "help"]
 */
export function tokensOf(text: string): readonly Token[] {
  const tokens: Token[] = [];
  let position = 0;
  for (const match of withoutAddresses(text).matchAll(chunks)) {
    const chunk = match[0];
    const from = match.index;
    if (!hyphen.test(chunk)) {
      for (const term of folded(chunk)) {
        tokens.push({ term, start: from, end: from + chunk.length, position: position++ });
      }
      continue;
    }
    let offset = 0;
    let parts = 0;
    const first = position;
    for (const part of chunk.split(hyphen)) {
      for (const term of folded(part)) {
        const start = from + offset;
        tokens.push({ term, start, end: start + part.length, position: position++ });
        parts += 1;
      }
      offset += part.length + 1;
    }
    const whole = foldName(chunk);
    if (parts > 1 && whole !== '' && !whole.includes('.')) {
      tokens.push({ term: whole, start: from, end: from + chunk.length, position: first });
    }
  }
  return tokens;
}

/**
 * A half-typed word as a beginning to look up: spelling folded, but not brought to
 * the singular ("arteri" is no plural).
 *
 * @example
 * foldBeginning('oed'); // "ed"
 */
export function foldBeginning(word: string): string {
  // A letter that ends no plural keeps the singular rules away.
  const guarded = foldWords(`${word}q`).join('');
  return guarded.endsWith('q') ? guarded.slice(0, -1) : guarded;
}
