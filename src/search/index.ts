/** The public door of search: the only code that knows lunr is behind it. */
export {
  markOf,
  searchFields,
  searchKinds,
  withMark,
  type SearchDocument,
  type SearchKind,
} from './document';
export { find, rank, type Filters, type Found, type FoundDocument, type FoundGroup } from './find';
export { NamesTable } from './names-table';
export { parseQuery } from './query';
export { loadPart, savePart, type SavedPart } from './saved-index';
export { snippetOf, type Snippet } from './snippet';
export { TextIndex } from './text-index';
export { tokensOf } from './tokens';
