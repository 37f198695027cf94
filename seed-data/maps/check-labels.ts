/**
 * Looks every label and alias of a map up in open vocabularies, one by one.
 *
 *   npx tsx seed-data/maps/check-labels.ts human LIST [LIST ...]
 *
 * A LIST is a text file whose lines begin with an entry: a plain word list, or an index
 * of WordNet (`index.noun`, its entries with underscores for blanks). None is shipped
 * with the project; README.md says which were used, and what came of it.
 *
 * A label counts as found as a whole, in either spelling, or else by all its words.
 */
import { readFileSync } from 'node:fs';
import { foldName } from '../../src/model/fold-name';
import { conceptsOf, readMapParts } from '../demo/read-seed';

/** Words that join others and are in no medical list. */
const joining = new Set([
  'a',
  'an',
  'and',
  'at',
  'by',
  'for',
  'from',
  'in',
  'of',
  'on',
  'or',
  'the',
  'to',
  'with',
  'without',
]);

export interface LabelCheck {
  readonly wholeLabels: number;
  readonly byWords: number;
  /** Labels with the words that no list has. */
  readonly notFound: readonly { readonly label: string; readonly words: readonly string[] }[];
}

/** The folded entries of a list's text. */
export function entriesOf(text: string): string[] {
  return text.split('\n').flatMap((line) => {
    // The head of a WordNet file is indented; a hash begins a comment.
    if (line.startsWith(' ') || line.startsWith('#')) return [];
    const entry = line.split(' ')[0]?.replaceAll('_', ' ').trim();
    return entry ? [foldName(entry)] : [];
  });
}

/** @param entries folded, as `entriesOf` gives them */
export function checkLabels(labels: readonly string[], entries: ReadonlySet<string>): LabelCheck {
  let wholeLabels = 0;
  let byWords = 0;
  const notFound: { label: string; words: string[] }[] = [];
  for (const label of labels) {
    if (entries.has(foldName(label))) {
      wholeLabels += 1;
      continue;
    }
    const words = label
      .split(/[^\p{L}\p{N}]+/u)
      .filter((word) => word.length > 1 && !/^\d/.test(word) && !joining.has(word.toLowerCase()))
      .filter((word) => !entries.has(foldName(word)));
    if (words.length === 0) byWords += 1;
    else notFound.push({ label, words });
  }
  return { wholeLabels, byWords, notFound };
}

if (process.argv[1]?.endsWith('check-labels.ts')) {
  const [map = 'human', ...lists] = process.argv.slice(2);
  const concepts = conceptsOf(readMapParts(map)) as unknown as {
    readonly name: string;
    readonly aliases: readonly string[];
  }[];
  const labels = concepts.flatMap(({ name, aliases }) => [name, ...aliases]);
  const entries = new Set(lists.flatMap((path) => entriesOf(readFileSync(path, 'utf8'))));
  const { wholeLabels, byWords, notFound } = checkLabels(labels, entries);
  console.log(`${labels.length} labels, ${entries.size} entries`);
  console.log(`${wholeLabels} found whole, ${byWords} by their words, ${notFound.length} not`);
  for (const { label, words } of notFound) console.log(`${label}: ${words.join(', ')}`);
}
