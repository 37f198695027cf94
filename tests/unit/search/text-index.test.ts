import { describe, expect, it } from 'vitest';
import { TextIndex, tokensOf, type SearchDocument } from '../../../src/search';
import { plainLunrScores } from '../../oracles/search/plain-lunr';
import { note, randomDocument } from './documents';

/** A small seeded generator (mulberry32), enough to shuffle test data. */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const scoresOf = (index: TextIndex, terms: readonly { term: string; boost: number }[]) =>
  new Map(index.query(terms).map(({ row, score }) => [index.documentAt(row)!.key, score]));

/** Some words of some document, each once, with unequal boosts. */
function someTerms(documents: readonly SearchDocument[], random: () => number, most: number) {
  const words = new Set<string>();
  for (let i = 0; i < most; i += 1) {
    const document = documents[Math.floor(random() * documents.length)]!;
    const tokens = tokensOf(`${document.title} ${document.text}`);
    words.add(tokens[Math.floor(random() * tokens.length)]!.term);
  }
  return [...words].map((term, i) => ({ term, boost: 1 - i * 0.07 }));
}

describe('the text index', () => {
  it('scores every document as an index built afresh does, after any run of edits', () => {
    for (const seed of [3, 17]) {
      const random = seeded(seed);
      const held = new Map<string, SearchDocument>();
      const index = new TextIndex();
      for (let step = 0; step < 120; step += 1) {
        const key = `notes:${Math.floor(random() * 60)}`;
        if (random() < 0.25) {
          held.delete(key);
          index.remove(key);
        } else {
          const document = randomDocument(key, random);
          held.set(key, document);
          index.put(document);
        }
        // Packing at odd moments must change nothing.
        if (step % 31 === 30) index.freezeIfLoose();
        if (step % 53 === 52) index.freeze();
        if (step % 40 !== 39) continue;
        const documents = [...held.values()];
        const fresh = new TextIndex();
        for (const document of documents.toReversed()) fresh.put(document);
        for (let i = 0; i < 4; i += 1) {
          const terms = someTerms(documents, random, 1 + Math.floor(random() * 6));
          const ours = scoresOf(index, terms);
          expect(ours).toEqual(scoresOf(fresh, terms)); // no difference at all
          const plain = plainLunrScores(documents, terms);
          const rows = index.query(terms).map(({ row }) => row);
          const byLunr = index.lunrScores(rows, terms);
          for (const row of rows) {
            const score = ours.get(index.documentAt(row)!.key)!;
            expect(Math.abs(byLunr.get(row)!.score - score)).toBeLessThanOrEqual(1e-12 * score);
          }
          expect([...ours.keys()].sort()).toEqual([...plain.keys()].sort());
          for (const [found, score] of plain) {
            // lunr adds the same products in the order it first met the words: one rounding apart.
            expect(Math.abs(ours.get(found)! - score)).toBeLessThanOrEqual(1e-12 * score);
          }
        }
      }
    }
  });

  it('forgets the words of a document that is gone', () => {
    const index = new TextIndex();
    index.put(note('notes:1', 'Aldosterone', 'escape and escape'));
    index.put(note('notes:2', 'Renin', 'escape'));
    index.remove('notes:1');
    expect(index.size).toBe(1);
    expect(index.vocabulary.has('aldosterone')).toBe(false);
    expect(index.vocabulary.countOf('escape')).toBe(1);
    expect(index.query([{ term: 'aldosterone', boost: 1 }])).toEqual([]);
  });

  it('finds a word named like a part of every object', () => {
    const index = new TextIndex();
    index.put(note('notes:1', 'constructor toString', '__proto__ valueOf'));
    for (const term of tokensOf('constructor toString __proto__ valueOf')) {
      expect(index.query([{ term: term.term, boost: 1 }]), term.term).toHaveLength(1);
    }
  });
});
