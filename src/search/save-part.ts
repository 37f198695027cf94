/** Writes a part of the index as `saved-part.ts` reads it. */
import { markOfPart, SavedDocument, savedFormat, savedVersion, type SavedPart } from './saved-part';
import type { TextIndex } from './text-index';
import { fieldsIn } from './word-counts';

const encoder = new TextEncoder();

/** The documents of some keys; a key that the index does not hold is passed over. */
export function savePart(index: TextIndex, keys: readonly string[]): SavedPart {
  const words: string[] = [];
  const holding: number[] = [];
  const placeOf = new Map<number, number>();
  const heads: string[] = [];
  const texts: Uint8Array[] = [];
  const numbers: number[] = [];
  for (const key of keys) {
    const document = index.find(key);
    const entries = index.entriesOf(key);
    if (!document || !entries) continue;
    const text = encoder.encode(
      document instanceof SavedDocument ? document.json : JSON.stringify(document),
    );
    heads.push(key, document.mark);
    texts.push(text);
    numbers.push(text.length, ...index.lengthsOf(key), entries.length / 2);
    for (let i = 0; i < entries.length; i += 2) {
      const [id, packed] = [entries[i]!, entries[i + 1]!];
      let place = placeOf.get(id);
      if (place === undefined) {
        placeOf.set(id, (place = words.length));
        words.push(index.vocabulary.termAt(id));
        holding.push(0);
      }
      holding[place]! += fieldsIn(packed);
      numbers.push(place, packed);
    }
  }
  const head = encoder.encode(JSON.stringify(heads));
  const list = encoder.encode(words.join(' '));
  const content = {
    texts: joined([head, list, ...texts]),
    numbers: Uint32Array.from(
      [texts.length, head.length, list.length, words.length].concat(holding, numbers),
    ),
  };
  return { format: savedFormat, version: savedVersion, ...content, mark: markOfPart(content) };
}

/** One after another, filled up to a multiple of 4 bytes. */
function joined(texts: readonly Uint8Array[]): Uint8Array {
  const length = texts.reduce((sum, text) => sum + text.length, 0);
  const all = new Uint8Array(Math.ceil(length / 4) * 4);
  let at = 0;
  for (const text of texts) {
    all.set(text, at);
    at += text.length;
  }
  return all;
}
