/** minisearch in a worker of its own, as Find's index is in one. */
import MiniSearch from 'minisearch';

export interface PeerDocument {
  readonly key: string;
  readonly title: string;
  readonly text: string;
}

export type PeerQuestion =
  | { readonly kind: 'add'; readonly documents: readonly PeerDocument[] }
  | { readonly kind: 'replace'; readonly document: PeerDocument }
  | { readonly kind: 'load'; readonly json: string }
  | { readonly kind: 'save' }
  | { readonly kind: 'search'; readonly typed: string; readonly unfinished: boolean };

export const peerOptions = {
  fields: ['title', 'text'],
  idField: 'key',
  storeFields: ['title', 'text'],
};

let index = new MiniSearch<PeerDocument>(peerOptions);

function answer(question: PeerQuestion): unknown {
  switch (question.kind) {
    case 'add':
      index.addAll(question.documents);
      return null;
    case 'replace':
      index.replace(question.document);
      return null;
    case 'load':
      index = MiniSearch.loadJSON<PeerDocument>(question.json, peerOptions);
      return null;
    case 'save':
      return JSON.stringify(index);
    case 'search': {
      const prefix = (_: string, i: number, all: string[]) => i === all.length - 1;
      const found = index.search(question.typed, question.unfinished ? { prefix } : {});
      // As many as Find shows of one kind.
      return { count: found.length, first: found.slice(0, 6).map(({ id }) => String(id)) };
    }
  }
}

onmessage = ({ data }: MessageEvent<{ id: number; question: PeerQuestion }>) => {
  postMessage({ id: data.id, output: answer(data.question) });
};
