/**
 * Names folded to keys, so that two ways of writing one name meet.
 *
 * Folded away: case, diacritics, ligatures, sub- and superscripts, Greek
 * letters against their names, British against American spelling, hyphens and
 * spaces, punctuation, possessives, plurals. Spelling pairs are common
 * practice, no one source. Not folded: synonyms and abbreviations (aliases do
 * that), Roman numerals, word order.
 */
import { singularOf } from './fold-plural';

/** Greek letters by the names they are spelled with; the final sigma too. */
export const greekNames: Readonly<Record<string, string>> = {
  α: 'alpha',
  β: 'beta',
  γ: 'gamma',
  δ: 'delta',
  ε: 'epsilon',
  ζ: 'zeta',
  η: 'eta',
  θ: 'theta',
  ι: 'iota',
  κ: 'kappa',
  λ: 'lambda',
  μ: 'mu',
  ν: 'nu',
  ξ: 'xi',
  ο: 'omicron',
  π: 'pi',
  ρ: 'rho',
  σ: 'sigma',
  ς: 'sigma',
  τ: 'tau',
  υ: 'upsilon',
  φ: 'phi',
  χ: 'chi',
  ψ: 'psi',
  ω: 'omega',
};

/** Letters that compatibility decomposition leaves whole, and signs that carry meaning. */
const spelledOut: Readonly<Record<string, string>> = {
  æ: 'ae',
  œ: 'oe',
  ß: 'ss',
  ø: 'o',
  đ: 'd',
  ð: 'd',
  ł: 'l',
  þ: 'th',
  ı: 'i',
  '&': ' and ',
  '%': ' percent ',
  '<': ' under ',
  '>': ' over ',
  '≤': ' under ',
  '≥': ' over ',
  '↑': ' up ',
  '↓': ' down ',
};

/** British (or older) spelling -> the one key. Tried on the joined name, so compounds are met too. */
const spellings: readonly (readonly [RegExp, string])[] = [
  [/manoeuvre/g, 'maneuver'],
  [/(tum|col|behavi|hum|flav|lab|od|vap|rig|fav|hon|harb|neighb|sav|arm)our/g, '$1or'],
  [/(cent|fib|lit|met|calib|tit|goit|theat|lust)re/g, '$1er'],
  [/iz/g, 'is'],
  [/yz/g, 'ys'],
  [/sulph/g, 'sulf'],
  [/leuc/g, 'leuk'],
  [/(signal|label|model|counsel|cancel|channel|travel|level)l(ing|ed|er)/g, '$1$2'],
  [/(licen|defen|offen)ce/g, '$1se'],
  [/practis/g, 'practic'],
  [/programme/g, 'program'],
  [/ageing/g, 'aging'],
  [/judgement/g, 'judgment'],
  [/artefact/g, 'artifact'],
  [/aluminium/g, 'aluminum'],
  [/dietician/g, 'dietitian'],
  [/c(a?e)sarian/g, 'c$1sarean'],
  [/mould/g, 'mold'],
];

/** True of every text that a rule above could change: most names pass it at once. */
const maybeBritish =
  /manoeu|our|(?:nt|ib|it|et|st|at)re|[iy]z|sulph|leuc|ll(?:ing|ed|er)|nce|practis|programme|ageing|dgement|artef|aluminium|dietic|sarian|mould/;

/** Whole words only: inside longer words these letters are something else. */
const wordSpellings: ReadonlyMap<string, string> = new Map([
  ['grey', 'gray'],
  ['disc', 'disk'],
  ['haem', 'hem'],
  ['gramme', 'gram'],
]);

/** Combining marks of European scripts; those of other scripts are letters in their own right. */
const diacritics = /[\u0300-\u036f]/g;
const isAscii = /^[ -~]*$/;
const words = /[\p{L}\p{N}\p{M}]+/gu;

/** Stands for a vowel of a short word that the digraph rule must not touch ("toe", "PAE"). */
const guards: Readonly<Record<string, string>> = { a: '\ue000', o: '\ue001' };

/**
 * The words of a text, each folded on its own: for an index of words.
 *
 * @example
 * foldWords('Oedema of the β-cells'); // ["edema", "of", "the", "beta", "cell"]
 */
export function foldWords(text: string): readonly string[] {
  return wordsOf(text).map(spellingFolded);
}

/** One word folded as `foldWords` does; empty when the text holds no letter or digit. */
export function foldWord(word: string): string {
  return foldWords(word).join('');
}

/**
 * The key under which a name is matched; two names with one key are one name.
 *
 * Spaces and hyphens are gone from the key, so "beta-blocker", "beta blocker"
 * and "betablocker" meet. Empty when the text holds no letter or digit. Linear
 * in the length of the text.
 *
 * @example
 * foldName('β-Blockers'); // "betablocker"
 * foldName('Oesophageal varices') === foldName('esophageal varix'); // true
 * foldName('ileum') === foldName('ilium'); // false
 */
export function foldName(text: string): string {
  let joined = '';
  for (const word of wordsOf(text)) {
    // A dot keeps "1,25" and "125" apart.
    joined += /\d$/.test(joined) && /^\d/.test(word) ? `.${word}` : word;
  }
  return spellingFolded(joined);
}

/** Words in lower case, singular, with Greek letters named; spelling not yet folded. */
function wordsOf(text: string): readonly string[] {
  let plain = text
    // "MIs": the plural of a short abbreviation shows only by its case.
    .replace(/\b([A-Z]{2,})s\b/g, '$1')
    .replace(/['’‘`ʼ´](s\b)?/gi, '');
  // Most names are plain ASCII, on which the next steps have no effect.
  if (!isAscii.test(plain)) plain = plain.normalize('NFKD').replace(diacritics, '');
  plain = plain.toLowerCase();
  if (!isAscii.test(plain)) {
    plain = plain
      // Once more after lower case: "İ" leaves a mark behind.
      .replace(diacritics, '')
      .replace(/[α-ω]/g, (letter) => ` ${greekNames[letter] ?? letter} `);
  }
  if (plain.includes('+')) {
    plain = plain
      .replace(/([a-z])\+\+(?!\+)/g, '$12') // Ca++ is Ca2+
      .replace(/([a-z])\+(\d)(?![\d.,])/g, '$1$2'); // and so is Ca+2
  }
  plain = plain.replace(/[æœßøđðłþı&%<>≤≥↑↓]/g, (sign) => spelledOut[sign] ?? sign);
  return (plain.match(words) ?? []).map((word) => {
    const singular = singularOf(word);
    return guarded(wordSpellings.get(singular) ?? singular);
  });
}

/** Short words keep their "ae" and "oe": there these letters are no digraph. */
function guarded(word: string): string {
  if (word.length > 3 || !/[ao]e/.test(word)) return word;
  return word.replace(/[ao](?=e)/g, (vowel) => guards[vowel] ?? vowel);
}

function spellingFolded(text: string): string {
  let folded = text;
  if (maybeBritish.test(folded)) {
    for (const [variant, key] of spellings) folded = folded.replace(variant, key);
  }
  // Haem, oedema, gastro-oesophageal, para-oesophageal: the vowels before the "e" go,
  // on both sides of the pair, so that "gastroesophageal" arrives at the same key.
  folded = folded.replace(/[ao]+e/g, 'e');
  return folded.replace(/[\ue000\ue001]/g, (guard) => (guard === guards['a'] ? 'a' : 'o'));
}
