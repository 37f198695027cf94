/** The public door of search: the only code that knows lunr is behind it. */
export {
  markOf,
  searchFields,
  searchKinds,
  withMark,
  type SearchDocument,
  type SearchKind,
} from './document';
export type { Filters } from './filters';
export { find, type Found, type FoundDocument, type FoundGroup, type NothingFound } from './find';
export { NamesTable } from './names-table';
export { nearestTo } from './nearest';
export { otherWordsFor } from './other-words';
export { parseQuery } from './query';
export { savePart } from './save-part';
export { loadPart, type SavedPart } from './saved-part';
export { rank } from './rank';
export { snippetOf, type Snippet } from './snippet';
export { TextIndex } from './text-index';
export { tokensOf } from './tokens';
