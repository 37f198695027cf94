/**
 * The index as it is saved: parts of some hundred documents, each checked by
 * itself, so that a damaged part costs no more than indexing its documents again.
 */
import { markOf, type SearchDocument } from './document';
import type { TextIndex } from './text-index';

export const savedFormat = 'hypocentre-search';
/** To be raised whenever folding or the cutting into words changes: older parts are then indexed anew. */
export const savedVersion = 3;

export interface SavedPart {
  readonly format: typeof savedFormat;
  readonly version: typeof savedVersion;
  /** JSON of the documents: one long text is read and handed on far sooner than many small objects. */
  readonly documents: string;
  /** Each word of them once, parted by spaces. */
  readonly words: string;
  /** For each document: how many words, then each word's row in `words` and its packed counts. */
  readonly counts: Uint32Array;
  /** Of everything above. */
  readonly mark: string;
}

export function savePart(index: TextIndex, keys: readonly string[]): SavedPart {
  const words: string[] = [];
  const rowOf = new Map<number, number>();
  const numbers: number[] = [];
  const documents: SearchDocument[] = [];
  for (const key of keys) {
    const document = index.find(key);
    const entries = index.entriesOf(key);
    if (!document || !entries) continue;
    documents.push(document);
    numbers.push(entries.length / 2);
    for (let i = 0; i < entries.length; i += 2) {
      let row = rowOf.get(entries[i]!);
      if (row === undefined) {
        rowOf.set(entries[i]!, (row = words.length));
        words.push(index.vocabulary.termAt(entries[i]!));
      }
      numbers.push(row, entries[i + 1]!);
    }
  }
  const content = {
    documents: JSON.stringify(documents),
    words: words.join(' '),
    counts: Uint32Array.from(numbers),
  };
  return { format: savedFormat, version: savedVersion, ...content, mark: markOfPart(content) };
}

export interface LoadedPart {
  readonly words: readonly string[];
  readonly documents: readonly {
    readonly document: SearchDocument;
    /** Rows of `words` and packed counts in turn; a view that may be written to. */
    readonly entries: Uint32Array;
  }[];
}

/** What a saved part holds; undefined where it is damaged or of another version. */
export function loadPart(content: unknown): LoadedPart | undefined {
  const part = content as Partial<SavedPart> | null | undefined;
  if (part?.format !== savedFormat || part.version !== savedVersion) return undefined;
  const { documents, words, counts } = part;
  if (typeof documents !== 'string' || typeof words !== 'string') return undefined;
  if (!(counts instanceof Uint32Array)) return undefined;
  if (markOfPart({ documents, words, counts }) !== part.mark) return undefined;
  let at = 0;
  // The mark vouches for the text: it is what was written.
  const loaded = (JSON.parse(documents) as readonly SearchDocument[]).map((document) => {
    const from = at + 1;
    at = from + counts[at]! * 2;
    return { document, entries: counts.subarray(from, at) };
  });
  return { words: words.split(' '), documents: loaded };
}

function markOfPart({
  documents,
  words,
  counts,
}: Pick<SavedPart, 'documents' | 'words' | 'counts'>): string {
  let sum = 0;
  for (const number of counts) sum = Math.imul(sum ^ number, 0x01000193);
  return `${markOf(documents)} ${markOf(words)} ${counts.length} ${sum >>> 0}`;
}
