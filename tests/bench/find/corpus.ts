/**
 * Documents and queries made by chance for the speed of Find: 40 to 120 words each, drawn from a
 * vocabulary whose word frequencies follow Zipf's law (rank r has weight 1 / r), as in a candidate's notes.
 */
import { uniformStream } from '../roots/generator/random';
import { withMark, type SearchDocument } from '../../../src/search';

/** Different words a year's texts may hold. */
const vocabularySize = 12_000;

export interface Corpus {
  readonly documents: readonly SearchDocument[];
  /** Every prefix of one word, as it is typed, and two words with the second half typed. */
  readonly prefixes: readonly string[];
  readonly twoWords: readonly string[];
  /** Two whole words. */
  readonly wholeWords: readonly string[];
}

const onsets = 'b c d f g h l m n p r s t v br cl dr gl pr st tr ph th'.split(' ');
const vowels = 'a e i o u ia io ea'.split(' ');

/**
 * @param count documents
 * @param queryCount queries of each sort
 */
export function drawCorpus(seed: number, count: number, queryCount: number): Corpus {
  const random = uniformStream(seed, 'find corpus');
  const words = drawWords(random);
  const draw = zipf(words, random);
  const text = (least: number, most: number) =>
    Array.from({ length: least + Math.floor(random() * (most - least + 1)) }, draw).join(' ');
  const documents = Array.from({ length: count }, (_, i) =>
    withMark({
      key: `notes:${i}`,
      kind: 'notes',
      title: text(2, 6),
      names: [],
      text: text(38, 114),
      links: '',
      systems: [],
      disciplines: [],
      concepts: [],
    }),
  );
  const begin = (word: string) => word.slice(0, 1 + Math.floor(random() * word.length));
  const many = (make: () => string) => Array.from({ length: queryCount }, make);
  return {
    documents,
    prefixes: many(() => begin(draw())),
    twoWords: many(() => `${draw()} ${begin(draw())}`),
    wholeWords: many(() => `${draw()} ${draw()} `),
  };
}

function drawWords(random: () => number): readonly string[] {
  const found = new Set<string>();
  const pick = (from: readonly string[]) => from[Math.floor(random() * from.length)]!;
  while (found.size < vocabularySize) {
    let word = '';
    const syllables = 1 + Math.floor(random() * 4);
    for (let i = 0; i < syllables; i += 1) word += pick(onsets) + pick(vowels);
    // A letter that ends no plural, so that folding leaves the word alone.
    found.add(`${word}n`);
  }
  return [...found];
}

function zipf(words: readonly string[], random: () => number): () => string {
  const sums: number[] = [];
  let sum = 0;
  for (let rank = 1; rank <= words.length; rank += 1) sums.push((sum += 1 / rank));
  return () => {
    const wanted = random() * sum;
    let low = 0;
    let high = sums.length - 1;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (sums[middle]! < wanted) low = middle + 1;
      else high = middle;
    }
    return words[low]!;
  };
}
