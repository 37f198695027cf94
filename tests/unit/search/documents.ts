/** Documents for tests of search, by hand and by chance. */
import { withMark, type SearchDocument } from '../../../src/search';

export function note(key: string, title: string, text = '', more: Partial<SearchDocument> = {}) {
  return withMark({
    key,
    kind: 'notes',
    title,
    names: [],
    text,
    links: '',
    systems: [],
    disciplines: [],
    concepts: [],
    ...more,
  });
}

export function concept(key: string, title: string, names: readonly string[] = [], text = '') {
  return note(key, title, text, { kind: 'concepts', names });
}

const syllables = [
  'ren',
  'car',
  'lu',
  'osi',
  'gly',
  'pha',
  'tor',
  'ema',
  'dia',
  'cul',
  'bes',
  'nin',
];

/** A document of common and rare words. `random` gives numbers in [0, 1). */
export function randomDocument(key: string, random: () => number): SearchDocument {
  const word = () => {
    const rank = Math.floor(random() ** 3 * 400);
    return `${syllables[rank % 12]}${syllables[Math.floor(rank / 12) % 12]}${syllables[rank % 7]}`;
  };
  const words = (count: number) => Array.from({ length: count }, word).join(' ');
  return note(key, words(1 + Math.floor(random() * 5)), words(Math.floor(random() * 40)), {
    links: words(Math.floor(random() * 6)),
  });
}
