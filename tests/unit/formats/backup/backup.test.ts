import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { crc32 } from '../../../../src/formats/backup/crc32';
import { readBackup } from '../../../../src/formats/backup/read-backup';
import { writeBackup, type BackupContent } from '../../../../src/formats/backup/write-backup';
import { recordKinds } from '../../../../src/model/records';
import { backupSchema } from '../../../fixtures/backup-schema';
import { backups, digest } from './content';
import { damaged, damages, hostileFiles, wrongWith } from './damage';

const schemaFile = new URL('../../../../src/formats/backup/backup.schema.json', import.meta.url);

async function requireReading(bytes: Uint8Array) {
  const reading = await readBackup(bytes, digest);
  if (reading.kind === 'fault') throw new Error(reading.message);
  return reading;
}

/** A whole number generator: mulberry32, from memory; any would do here. */
function draws(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) % Math.max(1, below);
  };
}

describe('a backup', () => {
  it('comes back as it was written, over random logs, and equal logs give equal files', async () => {
    await fc.assert(
      fc.asyncProperty(backups(12), async (content) => {
        const file = writeBackup(content);
        const reading = await requireReading(file);
        expect(reading.faults).toEqual([]);
        expect(reading.records).toEqual(content.records);
        expect(reading.pictures.map(({ hash, bytes }) => [hash, [...bytes]])).toEqual(
          content.pictures.map(({ hash, bytes }) => [hash, [...bytes]]),
        );
        expect([reading.madeAt, reading.device, reading.version]).toEqual([
          content.madeAt,
          content.device,
          1,
        ]);
        const again = writeBackup({
          ...content,
          records: reading.records,
          pictures: reading.pictures,
        });
        const hashOf = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');
        expect(hashOf(again)).toBe(hashOf(file));
      }),
      { numRuns: 60, seed: 7 },
    );
  });

  it('splits a long log into documents and puts it together again', async () => {
    const notes = Array.from({ length: 1_203 }, (_, i) => ({
      id: `note-${String(i).padStart(5, '0')}`,
      title: `Note ${i}`,
      text: 'x',
      concepts: [],
      disciplines: [],
      systems: [],
      stamp: {
        origin: 'quay',
        revision: { quay: 1 },
        changedAt: 1_770_000_000_000,
        deleted: false,
      },
    }));
    const content = { madeAt: 1_770_000_000_000, device: 'quay', records: { notes }, pictures: [] };
    const file = writeBackup(content as unknown as BackupContent);
    expect(Object.keys(unzipSync(file)).filter((name) => name.startsWith('records/'))).toEqual([
      'records/notes-0001.json',
      'records/notes-0002.json',
      'records/notes-0003.json',
    ]);
    expect((await requireReading(file)).records.notes).toHaveLength(1_203);
  });

  it('holds to its published JSON Schema, which is the one made from the model (checked by ajv)', async () => {
    const published = JSON.parse(await readFile(schemaFile, 'utf8')) as {
      $defs: Record<string, object>;
    };
    // When this fails: npx tsx tests/fixtures/write-backup-schema.ts
    expect(published).toEqual(JSON.parse(JSON.stringify(backupSchema())));
    expect(Object.keys(published.$defs).sort()).toEqual(['manifest', ...recordKinds].sort());
    const ajv = new Ajv2020({ strict: false });
    ajv.addSchema(published, 'backup');
    const check = (name: string, document: unknown) => {
      ajv.validate(`backup#/$defs/${name}`, document);
      return ajv.errors ?? [];
    };
    for (const content of fc.sample(backups(8), { numRuns: 20, seed: 3 })) {
      for (const [name, bytes] of Object.entries(unzipSync(writeBackup(content)))) {
        const kind = name.startsWith('manifest') ? 'manifest' : /records\/(\w+)-/.exec(name)?.[1];
        if (!kind) continue;
        expect(check(kind, JSON.parse(new TextDecoder().decode(bytes))), name).toEqual([]);
      }
    }
    expect(check('notes', [{ id: 'n' }])).not.toEqual([]); // or it would pass anything
  });

  it('of format 1, as it was first written, is still read', async () => {
    const file = await readFile(new URL('../../../fixtures/backup/v1.zip', import.meta.url));
    const expected = JSON.parse(
      await readFile(new URL('../../../fixtures/backup/v1.json', import.meta.url), 'utf8'),
    ) as { records: unknown };
    const reading = await requireReading(new Uint8Array(file));
    expect(reading.faults).toEqual([]);
    expect(reading.records).toEqual(expected.records);
    expect(reading.pictures).toHaveLength(1);
  });
});

describe('a damaged backup', () => {
  const [content] = fc.sample(backups(30), { numRuns: 1, seed: 11 });
  if (!content) throw new Error('no sample');
  const file = writeBackup(content);

  it.each(damages)(
    'never brings back a changed record and never loses one in silence: %s',
    async (damage) => {
      const draw = draws(damage.length);
      for (let run = 0; run < 60; run++) {
        const copy = damaged(file, damage, draw);
        expect(await wrongWith(copy, content), `${damage}, run ${run}`).toBeUndefined();
      }
    },
  );

  it('gives back most of it when one spot in the middle is hit', async () => {
    const whole = await requireReading(file);
    const count = Object.values(whole.records).flat().length;
    expect(count).toBeGreaterThan(40);
    const middle = file.slice();
    const at = Math.floor(file.length / 2);
    middle[at] = (middle[at] ?? 0) ^ 0x10;
    const reading = await requireReading(middle);
    expect(reading.faults.length).toBeGreaterThan(0);
    expect(Object.values(reading.records).flat().length).toBeGreaterThan(count / 2);
  });

  it.each(Object.entries(hostileFiles()))('does no harm: %s', async (name, hostile) => {
    const reading = await readBackup(hostile, digest);
    expect(({} as Record<string, unknown>)['polluted'], name).toBeUndefined();
    if (reading.kind === 'fault') expect(reading.mend).not.toBe('');
    else {
      expect(Object.values(reading.records).flat()).toEqual([]);
      if (name !== 'ten thousand documents') expect(reading.faults).not.toEqual([]);
    }
  });

  it('of a newer version is refused with the reason, and nothing is read from it', async () => {
    const reading = await readBackup(hostileFiles()['a newer version']!, digest);
    expect(reading).toMatchObject({ kind: 'fault', message: /newer version/ });
  });
});

describe('crc32', () => {
  it('gives the check value of the CRC catalogue and of an empty text', () => {
    // CRC-32/ISO-HDLC, check value for "123456789": Cook, "Catalogue of parametrised CRC algorithms" (from memory).
    expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926);
    expect(crc32(new Uint8Array(0))).toBe(0);
  });
});
