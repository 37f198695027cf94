/** The demo's records as documents of the text index, made by the app's own code. */
import { readMapParts, readJson } from '../../../seed-data/demo/read-seed';
import type { SearchDocument } from '../../../src/search';
import {
  conceptDocument,
  itemDocument,
  lastLooksOf,
  lineDocument,
  noteDocument,
  readingDocument,
} from '../../../src/state/find-documents';
import { layOut } from '../../../src/state/lay-out';
import type { RecordKind, RecordOf } from '../../../src/model/records';
import type { LocalDay } from '../../../src/model/time';

/** Any day would do: nothing that is searched for depends on it. */
const today = 20_000 as LocalDay;

export interface DemoRecord {
  readonly document: SearchDocument;
  /** Of misses: their missing piece; of all else empty. */
  readonly piece: string;
}

export function demoDocuments(): readonly DemoRecord[] {
  const changes = layOut(
    {
      map: readMapParts('human'),
      readings: readJson('seed-data/readings/human.json'),
      demo: readJson('seed-data/demo/demo.json'),
    },
    today,
    () => 0,
  );
  if (typeof changes === 'string') throw new Error(changes);
  const of = <K extends RecordKind>(kind: K): RecordOf<K>[] =>
    changes.flatMap((change) =>
      change.kind === kind && 'put' in change ? [change.put as unknown as RecordOf<K>] : [],
    );
  const byId = <T extends { readonly id: string }>(records: readonly T[]) =>
    new Map<string, T>(records.map((record) => [record.id, record]));
  const source = {
    concepts: byId(of('concepts')),
    blocks: byId(of('blocks')),
    lastLooks: lastLooksOf(of('looks')),
    pictures: byId(of('pictures')),
  };
  const plain = (document: SearchDocument | undefined) =>
    document ? [{ document, piece: '' }] : [];
  return [
    ...of('concepts').flatMap((concept) => plain(conceptDocument(concept, source))),
    ...of('items').flatMap((item) => {
      const document = itemDocument(item, source);
      return document ? [{ document, piece: item.missingPiece }] : [];
    }),
    ...of('notes').flatMap((note) => plain(noteDocument(note, source))),
    ...of('readings').flatMap((reading) => plain(readingDocument(reading, source))),
    ...of('lines').flatMap((line) => plain(lineDocument(line, source))),
  ];
}
