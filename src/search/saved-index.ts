/**
 * The index as it is saved: parts of some hundred documents, each checked by
 * itself, so that a damaged part costs no more than indexing its documents again.
 */
import { markOf, searchFields, type SearchDocument, type SearchField } from './document';
import type { FieldCounts, TextIndex } from './text-index';

export const savedFormat = 'hypocentre-search';
/** To be raised whenever folding or the cutting into words changes: older parts are then indexed anew. */
export const savedVersion = 1;

export interface SavedPart {
  readonly format: typeof savedFormat;
  readonly version: typeof savedVersion;
  readonly documents: readonly SearchDocument[];
  readonly words: readonly string[];
  /** For each document and field: how many words, then each word's row in `words` and its count. */
  readonly counts: Uint32Array;
  /** Of everything above. */
  readonly mark: string;
}

export function savePart(index: TextIndex, keys: readonly string[]): SavedPart {
  const words: string[] = [];
  const rowOf = new Map<string, number>();
  const numbers: number[] = [];
  const documents: SearchDocument[] = [];
  for (const key of keys) {
    const document = index.find(key);
    const counts = index.countsOf(key);
    if (!document || !counts) continue;
    documents.push(document);
    for (const field of searchFields) {
      numbers.push(counts[field].size);
      for (const [word, count] of counts[field]) {
        let row = rowOf.get(word);
        if (row === undefined) {
          rowOf.set(word, (row = words.length));
          words.push(word);
        }
        numbers.push(row, count);
      }
    }
  }
  const counts = Uint32Array.from(numbers);
  const mark = markOfPart(documents, words, counts);
  return { format: savedFormat, version: savedVersion, documents, words, counts, mark };
}

export interface LoadedDocument {
  readonly document: SearchDocument;
  readonly counts: FieldCounts;
}

/** The documents of a saved part; undefined where it is damaged or of another version. */
export function loadPart(content: unknown): readonly LoadedDocument[] | undefined {
  const part = content as Partial<SavedPart> | null | undefined;
  if (part?.format !== savedFormat || part.version !== savedVersion) return undefined;
  const { documents, words, counts } = part;
  if (!Array.isArray(documents) || !Array.isArray(words) || !(counts instanceof Uint32Array)) {
    return undefined;
  }
  if (markOfPart(documents, words, counts) !== part.mark) return undefined;
  let at = 0;
  const loaded: LoadedDocument[] = [];
  for (const document of documents as readonly SearchDocument[]) {
    const fields: Partial<Record<SearchField, Map<string, number>>> = {};
    for (const field of searchFields) {
      const map = new Map<string, number>();
      const size = counts[at++] ?? 0;
      for (let i = 0; i < size; i += 1) {
        map.set(words[counts[at]!] as string, counts[at + 1]!);
        at += 2;
      }
      fields[field] = map;
    }
    loaded.push({ document, counts: fields as FieldCounts });
  }
  return loaded;
}

function markOfPart(
  documents: readonly SearchDocument[],
  words: readonly string[],
  counts: Uint32Array,
): string {
  let sum = 0;
  for (const number of counts) sum = Math.imul(sum ^ number, 0x01000193);
  const keys = documents.map((document) => `${document.key} ${document.mark}`);
  return markOf(`${keys.join('\n')}\n${words.join(' ')}\n${counts.length} ${sum >>> 0}`);
}
