/** lunr as it stands, built afresh over all documents: slow, and sure to hold no stale count. */
import lunr from 'lunr';
import type { SearchDocument } from '../../../src/search';
import { tokensOf } from '../../../src/search';

/** Scores by document key, for words that are already folded. */
export function plainLunrScores(
  documents: readonly SearchDocument[],
  terms: readonly { readonly term: string; readonly boost: number }[],
): ReadonlyMap<string, number> {
  const builder = new lunr.Builder();
  builder.ref('key');
  builder.field('title', { boost: 2.5 });
  builder.field('text', { boost: 1 });
  builder.field('links', { boost: 0.6 });
  const split = (text: unknown) =>
    tokensOf(String(text)).map(({ term }) => new lunr.Token(term, {}));
  (builder as unknown as { tokenizer: unknown }).tokenizer = split;
  for (const document of documents) {
    builder.add({ ...document, title: [document.title, ...document.names].join('\n') });
  }
  const results = builder.build().query((query) => {
    for (const { term, boost } of terms) query.term(term, { boost, usePipeline: false });
  });
  return new Map(results.map(({ ref, score }) => [ref, score]));
}
