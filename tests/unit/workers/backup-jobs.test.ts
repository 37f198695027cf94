/** What is handed to the backup worker some records at a time, and what a worker that died makes of it. */
import { expect, it } from 'vitest';
import type { Digest } from '../../../src/formats';
import { backupJobs } from '../../../src/workers/backup-jobs';

const context = { progress: () => undefined, stopped: () => false };
const noDigest = (() => Promise.reject(new Error('not asked for'))) as unknown as Digest;
const rest = { madeAt: Date.UTC(2026, 10, 25), device: 'quay', pictures: [] };

it('W2 writes no backup of the rest where a worker died and took a part of it', async () => {
  const jobs = backupJobs(noDigest);
  await jobs.gather({ backup: 1, kind: 'notes', records: [] }, context);
  // Two records were handed over, one of them to the worker before this one.
  expect(() => jobs.write({ ...rest, gathered: { backup: 1, recordCount: 2 } }, context)).toThrow(
    /lost/,
  );
  expect(() => jobs.write({ ...rest, gathered: { backup: 9, recordCount: 1 } }, context)).toThrow(
    /lost/,
  );
});

it('W2 writes an empty log, of which nothing was handed over', () => {
  const jobs = backupJobs(noDigest);
  expect(jobs.write({ ...rest, gathered: { backup: 1, recordCount: 0 } }, context)).toBeInstanceOf(
    Uint8Array,
  );
});
