/** How often each folded word stands in each field of a document. */
import { searchFields, type SearchDocument } from './document';
import { tokensOf } from './tokens';

export interface WordCounts {
  /** Each word once. */
  readonly words: readonly string[];
  /** One number for each word: see `packCounts`. */
  readonly packed: Uint32Array;
}

/**
 * Most that is counted in title, text and links: three counts fit one small integer,
 * which engines keep without a box, and beyond these BM25 no longer tells them apart.
 */
const mostCounted = [127, 65_535, 127] as const;

/** Three counts in one number of 30 bits: links, text, title from the top. */
export function packCounts(title: number, text: number, links: number): number {
  return (
    Math.min(title, mostCounted[0]) |
    (Math.min(text, mostCounted[1]) << 7) |
    (Math.min(links, mostCounted[2]) << 23)
  );
}

/** The count of one field (by its place in `searchFields`) in a packed number. */
export function countIn(packed: number, field: number): number {
  if (field === 0) return packed & 127;
  return field === 1 ? (packed >> 7) & 65_535 : packed >> 23;
}

/** In how many fields the word stands. */
export function fieldsIn(packed: number): number {
  return (
    ((packed & 127) > 0 ? 1 : 0) +
    (((packed >> 7) & 65_535) > 0 ? 1 : 0) +
    (packed >> 23 > 0 ? 1 : 0)
  );
}

export function countsIn(document: SearchDocument): WordCounts {
  const places = new Map<string, number>();
  const words: string[] = [];
  const counts: number[] = [];
  const texts = [
    [document.title, ...document.names].join('\n'),
    document.text,
    document.links,
  ] as const;
  searchFields.forEach((_, field) => {
    for (const { term } of tokensOf(texts[field]!)) {
      let place = places.get(term);
      if (place === undefined) {
        places.set(term, (place = words.length));
        words.push(term);
        counts.push(0, 0, 0);
      }
      counts[place * 3 + field]! += 1;
    }
  });
  const packed = Uint32Array.from(words, (_, i) =>
    packCounts(counts[i * 3]!, counts[i * 3 + 1]!, counts[i * 3 + 2]!),
  );
  return { words, packed };
}
