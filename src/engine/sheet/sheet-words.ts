/** The words and signs of a line, as a comparison sees them. */
import { greekNames } from '../../model/fold-name';

/** Words that carry no content of a line: leaving one out loses nothing. */
const small = new Set(
  'a an and are as at be by for from in is it of on or that the then to with'.split(' '),
);

/** TeX and Unicode signs to what one types for them on a plain keyboard. */
const signs: readonly (readonly [RegExp, string])[] = [
  [/\\(?:text|mathrm|operatorname|mathbf|mathit)\s*\{([^{}]*)\}/g, ' $1 '],
  [/\\d?frac\s*\{([^{}]*)\}\s*\{([^{}]*)\}/g, ' $1 / $2 '],
  [/\\(?:left|right|displaystyle|quad|qquad)(?![a-zA-Z])/g, ' '],
  [/\\(?:cdot|times|ast)(?![a-zA-Z])|[×·∙⋅]/g, ' * '],
  [/\\div(?![a-zA-Z])|÷/g, ' / '],
  [/\\(?:rightarrow|to|Rightarrow)(?![a-zA-Z])|->|=>|[→⇒]/g, ' → '],
  [/\\uparrow(?![a-zA-Z])|↑/g, ' up '],
  [/\\downarrow(?![a-zA-Z])|↓/g, ' down '],
  [/\\(?:le|leq)(?![a-zA-Z])|<=|≤/g, ' ≤ '],
  [/\\(?:ge|geq)(?![a-zA-Z])|>=|≥/g, ' ≥ '],
  [/\\(?:approx|sim)(?![a-zA-Z])|[≈~]/g, ' ≈ '],
  [/\\pm(?![a-zA-Z])/g, ' ± '],
  [/[−–—]/g, '-'],
  // Between digits a dot or comma is a decimal mark.
  [/(\d),(?=\d)/g, '$1.'],
  [/\\([a-zA-Z]+)/g, ' $1 '],
];

/**
 * Lower-case words, numbers and signs in order. Diacritics, Greek letters, TeX, sub- and
 * superscripts and British spellings of oe and ae meet their plain forms; brackets and
 * punctuation are dropped.
 *
 * @example
 * sheetWords('$\\frac{V}{k_e}$ is α'); // ['v', '/', 'ke', 'alpha']
 */
export function sheetWords(text: string): string[] {
  let plain = text.normalize('NFKC');
  for (const [sign, typed] of signs) plain = plain.replace(sign, typed);
  plain = plain
    .normalize('NFD')
    .replace(/\p{Mn}/gu, '')
    .toLowerCase()
    .replace(/[α-ως]/g, (letter) => greekNames[letter] ?? letter)
    .replace(/[_^{}$\\]/g, '')
    .replace(/[æœ]/g, 'e')
    .replace(/(?<=\p{L})[ao]e(?=\p{L})|^[ao]e(?=\p{L})|(?<=\s)[ao]e(?=\p{L})/gu, 'e');
  const words = plain.match(/\d+(?:\.\d+)?|\p{L}[\p{L}\d]*|[=+*/<>≤≥≈±→%-]/gu) ?? [];
  // A hyphen between words only joins them; a minus has meaning where there is a formula.
  const formula = words.some((word) => /^[=+*/<>≤≥≈]$/.test(word));
  return words.filter((word) => !small.has(word) && (formula || word !== '-'));
}
