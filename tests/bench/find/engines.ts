/** Find and its peers over the same documents, each as its manual has it. */
import lunr from 'lunr';
import MiniSearch from 'minisearch';
import { NamesTable, rank, TextIndex, type SearchDocument } from '../../../src/search';
import type { Engine } from './quality';

const mostKept = 50;

/** Find's own order, all kinds together by score. */
export function find(documents: readonly SearchDocument[]): Engine {
  const index = new TextIndex();
  const names = new NamesTable();
  for (const document of documents) {
    index.put(document);
    names.put(document);
  }
  return {
    label: 'Find',
    search: (typed) =>
      rank(index, names, typed, {}, mostKept)
        .kinds.flatMap(({ first }) => first)
        .sort((one, other) => other.score - one.score)
        .map(({ row }) => index.documentAt(row)!.key),
  };
}

const fieldsOf = ({ key, title, names, text, links }: SearchDocument) => ({
  key,
  title: [title, ...names].join('\n'),
  text,
  links,
});

/** Characters that are orders in lunr's question language and would be refused where they stand. */
const orders = /[-+~^:*]/g;

export function plainLunr(documents: readonly SearchDocument[], lastAsBeginning: boolean): Engine {
  const index = lunr(function () {
    this.ref('key');
    for (const field of ['title', 'text', 'links']) this.field(field);
    for (const document of documents) this.add(fieldsOf(document));
  });
  return {
    label: lastAsBeginning ? 'lunr, last word with a star' : 'lunr with its defaults',
    search: (typed) => {
      const plain = typed.replace(orders, ' ').trim();
      const asked = lastAsBeginning ? `${plain}*` : plain;
      return index
        .search(asked)
        .slice(0, mostKept)
        .map(({ ref }) => ref);
    },
  };
}

export function miniSearch(documents: readonly SearchDocument[], generous: boolean): Engine {
  const index = new MiniSearch({ fields: ['title', 'text', 'links'], idField: 'key' });
  index.addAll(documents.map(fieldsOf));
  const options = generous
    ? { prefix: (_: string, i: number, all: string[]) => i === all.length - 1, fuzzy: 0.2 }
    : {};
  return {
    label: generous
      ? 'minisearch, last word a beginning, fuzzy 0.2'
      : 'minisearch with its defaults',
    search: (typed) =>
      index
        .search(typed, options)
        .slice(0, mostKept)
        .map(({ id }) => String(id)),
  };
}
