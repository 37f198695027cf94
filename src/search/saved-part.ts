/**
 * The index as it is saved: parts of some hundred documents, each checked by
 * itself, so that a damaged part costs no more than indexing its documents again.
 *
 * Everything lies in two flat arrays, which are checked and handed on at a fraction of the cost of
 * the objects in them; a document's own text is read only when a result shows it.
 *
 *   texts    heads (JSON: key and mark of each document), words (parted by spaces),
 *            then each document as JSON; UTF-8, filled up with zeros to a multiple of 4 bytes
 *   numbers  documents, bytes of heads, bytes of words, words;
 *            for each word: fields of the part's documents that hold it;
 *            for each document: bytes, words in its title, text and links, different words,
 *            then each of those: its place in the list of words and its packed counts
 */
import type { SearchDocument, SearchKind } from './document';

export const savedFormat = 'hypocentre-search';
/** To be raised whenever folding or the cutting into words changes: older parts are then indexed anew. */
export const savedVersion = 4;

export interface SavedPart {
  readonly format: typeof savedFormat;
  readonly version: typeof savedVersion;
  readonly texts: Uint8Array;
  readonly numbers: Uint32Array;
  /** Of both arrays. */
  readonly mark: number;
}

export interface LoadedDocument {
  readonly document: SearchDocument;
  /** Words in its title, text and links. */
  readonly lengths: readonly [number, number, number];
  /** Places in the part's words and packed counts in turn; a view that may be written to. */
  readonly entries: Uint32Array;
}

export interface LoadedPart {
  readonly words: readonly string[];
  /** By word: fields of the documents that hold it. */
  readonly holding: Uint32Array;
  readonly documents: readonly LoadedDocument[];
}

const headNumbers = 4;
const documentNumbers = 5;

/** What a saved part holds; undefined where it is damaged or of another version. */
export function loadPart(content: unknown): LoadedPart | undefined {
  const part = content as Partial<SavedPart> | null | undefined;
  if (part?.format !== savedFormat || part.version !== savedVersion) return undefined;
  const { texts, numbers } = part;
  if (!(texts instanceof Uint8Array) || !(numbers instanceof Uint32Array)) return undefined;
  if (texts.length % 4 !== 0 || markOfPart({ texts, numbers }) !== part.mark) return undefined;
  // The mark vouches for what follows: it is what was written.
  const [count, headBytes, wordBytes, wordCount] = numbers as unknown as number[];
  let byte = headBytes! + wordBytes!;
  const heads = JSON.parse(decoder.decode(texts.subarray(0, headBytes))) as readonly string[];
  const words = decoder.decode(texts.subarray(headBytes, byte));
  let at = headNumbers + wordCount!;
  const documents: LoadedDocument[] = [];
  for (let i = 0; i < count!; i += 1) {
    const bytes = numbers[at]!;
    const lengths = [numbers[at + 1]!, numbers[at + 2]!, numbers[at + 3]!] as const;
    const from = at + documentNumbers;
    at = from + numbers[at + 4]! * 2;
    const text = texts.subarray(byte, (byte += bytes));
    documents.push({
      document: new SavedDocument(heads[i * 2]!, heads[i * 2 + 1]!, text),
      lengths,
      entries: numbers.subarray(from, at),
    });
  }
  return {
    words: wordCount === 0 ? [] : words.split(' '),
    holding: numbers.subarray(headNumbers, headNumbers + wordCount!),
    documents,
  };
}

/** A document whose text is read when it is first asked for. */
export class SavedDocument implements SearchDocument {
  readonly key: string;
  readonly kind: SearchKind;
  readonly mark: string;
  readonly #text: Uint8Array;
  #read: SearchDocument | undefined;

  constructor(key: string, mark: string, text: Uint8Array) {
    this.key = key;
    this.kind = key.slice(0, key.indexOf(':')) as SearchKind;
    this.mark = mark;
    this.#text = text;
  }

  get json(): string {
    return decoder.decode(this.#text);
  }

  get #whole(): SearchDocument {
    return (this.#read ??= JSON.parse(this.json) as SearchDocument);
  }

  get title(): string {
    return this.#whole.title;
  }

  get names(): readonly string[] {
    return this.#whole.names;
  }

  get text(): string {
    return this.#whole.text;
  }

  get links(): string {
    return this.#whole.links;
  }

  get systems(): readonly string[] {
    return this.#whole.systems;
  }

  get disciplines(): readonly string[] {
    return this.#whole.disciplines;
  }

  get concepts(): readonly string[] {
    return this.#whole.concepts;
  }

  get day(): number | undefined {
    return this.#whole.day;
  }

  get settled(): boolean | undefined {
    return this.#whole.settled;
  }
}

const decoder = new TextDecoder();

/**
 * A mark of both arrays: every single change of a number or of four letters shows, others all but surely.
 *
 * Source: Fowler, Noll and Vo's FNV-1a (RFC 9923), 32 bits at a step, with a shift after each so
 * that the upper bits of a number reach the lower ones of the mark.
 */
export function markOfPart({ texts, numbers }: Pick<SavedPart, 'texts' | 'numbers'>): number {
  const letters = new Uint32Array(texts.buffer, texts.byteOffset, texts.length / 4);
  let sum = 0x811c9dc5 ^ letters.length;
  for (const words of [letters, numbers]) {
    for (let i = 0; i < words.length; i += 1) {
      sum = Math.imul(sum ^ words[i]!, 0x01000193);
      sum ^= sum >>> 15;
    }
  }
  return sum >>> 0;
}
