/** Invented logs for the tests of backups: random, of every kind, with odd text in them. */
import { createHash } from 'node:crypto';
import fc from 'fast-check';
import {
  parseRecord,
  recordKinds,
  type AnyRecord,
  type RecordKind,
} from '../../../../src/model/records';
import type { BackupContent } from '../../../../src/formats/backup/write-backup';
import type { Digest } from '../../../../src/formats/backup/read-backup';

export const digest: Digest = (bytes) =>
  Promise.resolve(createHash('sha256').update(bytes).digest('hex'));

const stamp = fc.record({
  origin: fc.constantFrom('quay', 'cabin', 'constructor'),
  revision: fc.dictionary(fc.constantFrom('quay', 'cabin', 'hut'), fc.integer({ min: 1, max: 9 }), {
    minKeys: 1,
  }),
  changedAt: fc.integer({ min: 1_770_000_000_000, max: 1_780_000_000_000 }),
  deleted: fc.boolean(),
});

const text = fc.oneof(
  fc.string({ unit: 'binary' }),
  fc.constantFrom(
    '',
    'K⁺ → Na⁺',
    '"},\n{"id":',
    '=1+1',
    '<script>alert(1)</script>',
    '\u2028水',
    ']\n[',
  ),
);
const id = fc.uuid();
const ids = fc.array(fc.constantFrom('starling-forces', 'oedema', '__proto'), { maxLength: 3 });

const byKind: { readonly [K in RecordKind]?: fc.Arbitrary<Record<string, unknown>> } = {
  notes: fc.record({
    id,
    title: fc.constant('A title'),
    text,
    concepts: ids,
    disciplines: ids,
    systems: ids,
    stamp,
  }),
  items: fc.record({
    id,
    block: fc.constantFrom('dawn', 'dusk'),
    position: fc.integer({ min: 1, max: 40 }),
    outcome: fc.constantFrom('right', 'guessed-right', 'missed'),
    topics: ids,
    causes: ids,
    missingPiece: text,
    optionTurns: fc.array(fc.record({ option: fc.constant('C'), turn: text }), { maxLength: 2 }),
    stamp,
  }),
  blocks: fc.record({
    id,
    day: fc.integer({ min: 20_000, max: 21_000 }),
    itemCount: fc.nat(40),
    source: text,
    stamp,
  }),
  looks: fc.record({
    id,
    item: id,
    at: fc.constant(1_770_000_000_000),
    outcome: fc.constantFrom('had-it', 'not-yet'),
    stamp,
  }),
  lines: fc.record({ id, text, concepts: ids, timesNeeded: fc.nat(9), stamp }),
};

/** Records as the app would hold them: what the model itself makes of the generated ones. */
function sound(kind: RecordKind, inputs: readonly Record<string, unknown>[]): AnyRecord[] {
  const byId = new Map<string, AnyRecord>();
  for (const input of inputs) {
    const checked = parseRecord(kind, input);
    if (checked.kind === 'ok') byId.set(checked.value.id, checked.value);
  }
  return [...byId.values()].sort((a, b) => (a.id < b.id ? -1 : 1));
}

/** @param mostOfAKind records of one kind; at least half as many are made */
export function backups(mostOfAKind: number): fc.Arbitrary<BackupContent> {
  return fc
    .record({
      madeAt: fc.integer({ min: 1_770_000_000_000, max: 1_780_000_000_000 }),
      device: fc.constantFrom('quay', 'cabin'),
      records: fc.record(
        Object.fromEntries(
          Object.entries(byKind).map(([kind, record]) => [
            kind,
            fc.array(record, { minLength: Math.floor(mostOfAKind / 2), maxLength: mostOfAKind }),
          ]),
        ),
      ),
      pictures: fc.array(fc.uint8Array({ minLength: 1, maxLength: 400 }), { maxLength: 3 }),
    })
    .map(({ records, pictures, ...rest }) => ({
      ...rest,
      records: Object.fromEntries(
        recordKinds.flatMap((kind) => {
          const kept = sound(kind, records[kind] ?? []);
          return kept.length > 0 ? [[kind, kept]] : [];
        }),
      ),
      pictures: [
        ...new Map(pictures.map((bytes) => [Buffer.from(bytes).toString('hex'), bytes])).values(),
      ]
        .map((bytes) => ({ hash: createHash('sha256').update(bytes).digest('hex'), bytes }))
        .sort((a, b) => (a.hash < b.hash ? -1 : 1)),
    }));
}
