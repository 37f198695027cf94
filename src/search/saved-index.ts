/**
 * The index as it is saved: parts of some hundred documents, each checked by
 * itself, so that a damaged part costs no more than indexing its documents again.
 */
import { markOf, type SearchDocument } from './document';
import type { TextIndex } from './text-index';

export const savedFormat = 'hypocentre-search';
/** To be raised whenever folding or the cutting into words changes: older parts are then indexed anew. */
export const savedVersion = 2;

export interface SavedPart {
  readonly format: typeof savedFormat;
  readonly version: typeof savedVersion;
  readonly documents: readonly SearchDocument[];
  readonly words: readonly string[];
  /** For each document: how many words, then each word's row in `words` and its packed counts. */
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
    numbers.push(counts.words.length);
    counts.words.forEach((word, i) => {
      let row = rowOf.get(word);
      if (row === undefined) {
        rowOf.set(word, (row = words.length));
        words.push(word);
      }
      numbers.push(row, counts.packed[i]!);
    });
  }
  const counts = Uint32Array.from(numbers);
  const mark = markOfPart(documents, words, counts);
  return { format: savedFormat, version: savedVersion, documents, words, counts, mark };
}

export interface LoadedPart {
  readonly words: readonly string[];
  readonly documents: readonly {
    readonly document: SearchDocument;
    /** Rows of `words` and packed counts in turn. */
    readonly entries: Uint32Array;
  }[];
}

/** What a saved part holds; undefined where it is damaged or of another version. */
export function loadPart(content: unknown): LoadedPart | undefined {
  const part = content as Partial<SavedPart> | null | undefined;
  if (part?.format !== savedFormat || part.version !== savedVersion) return undefined;
  const { documents, words, counts } = part;
  if (!Array.isArray(documents) || !Array.isArray(words) || !(counts instanceof Uint32Array)) {
    return undefined;
  }
  if (markOfPart(documents, words, counts) !== part.mark) return undefined;
  let at = 0;
  const loaded = (documents as readonly SearchDocument[]).map((document) => {
    const from = at + 1;
    at = from + counts[at]! * 2;
    return { document, entries: counts.slice(from, at) };
  });
  return { words: words as readonly string[], documents: loaded };
}

function markOfPart(
  documents: readonly SearchDocument[],
  words: readonly string[],
  counts: Uint32Array,
): string {
  let sum = 0;
  for (const number of counts) sum = Math.imul(sum ^ number, 0x01000193);
  const keys = documents.map(
    ({ key, mark, title, text }) => `${key} ${mark} ${title.length} ${text.length}`,
  );
  return markOf(`${keys.join('\n')}\n${words.join(' ')}\n${counts.length} ${sum >>> 0}`);
}
