/** Whole words: every document that minisearch 7.2.0 finds in the demo, Find finds. */
import MiniSearch from 'minisearch';
import { describe, expect, it } from 'vitest';
import { NamesTable, rank, TextIndex } from '../../../src/search';
import { demoDocuments } from '../../bench/find/demo-documents';

/** Its own default way of cutting a text into words: at spaces and punctuation (documentation, "tokenize"). */
const cut = (text: string) =>
  text
    .toLowerCase()
    .split(/[\n\r\p{Z}\p{P}]+/u)
    .filter((word) => word !== '');

describe('whole words', () => {
  const documents = demoDocuments()
    .map(({ document }) => document)
    // Addresses of links are nobody's words: Find passes them over, minisearch would not.
    .map((each) => ({ ...each, text: each.text.replace(/\]\(#\/[^)]*\)/g, ']') }));
  const index = new TextIndex();
  const names = new NamesTable();
  for (const document of documents) {
    index.put(document);
    names.put(document);
  }
  const mini = new MiniSearch({ fields: ['title', 'names', 'text', 'links'], idField: 'key' });
  mini.addAll(documents.map((each) => ({ ...each, names: each.names.join('\n') })));
  const ours = (typed: string) =>
    new Set(
      rank(index, names, typed, {}, 10_000).kinds.flatMap(({ first }) =>
        first.map(({ row }) => index.documentAt(row)!.key),
      ),
    );
  const words = [
    ...new Set(
      documents.flatMap(({ title, names: others, text, links }) =>
        cut([title, ...others, text, links].join(' ')),
      ),
    ),
  ]
    // One letter left over by an apostrophe ("the patient's", "B'") is no whole word.
    .filter((word) => word.length > 1 && /[\p{L}\p{N}]/u.test(word));

  it('are found one by one wherever minisearch finds them', () => {
    expect(words.length).toBeGreaterThan(3_000);
    const lost: string[] = [];
    for (const word of words.filter((_, i) => i % 4 === 0)) {
      const found = ours(`${word} `);
      for (const { id } of mini.search(word)) {
        if (!found.has(String(id))) lost.push(`${word}: ${String(id)}`);
      }
    }
    expect(lost).toEqual([]);
  });

  it('are found two by two wherever minisearch finds either', () => {
    const lost: string[] = [];
    for (let i = 0; i < words.length; i += 29) {
      const pair = `${words[i]!} ${words[(i * 31 + 17) % words.length]!}`;
      const found = ours(`${pair} `);
      for (const { id } of mini.search(pair)) {
        if (!found.has(String(id))) lost.push(`${pair}: ${String(id)}`);
      }
    }
    expect(lost).toEqual([]);
  });
});
