/** At a start that finds nothing stored: looks whether there is a spare copy, and puts it back. */
import { putBack, type PutBackResult } from '../state/put-back';
import { findSpareFolder, readSpare, type Store } from '../storage';
import type { BackupJobs } from '../workers/backup-jobs';
import { WorkerClient } from '../workers/client';

export async function putBackSpare(store: Store): Promise<PutBackResult> {
  const folder = await findSpareFolder();
  if (!folder) return { kind: 'none' };
  const spare = await readSpare(folder);
  const client = new WorkerClient<BackupJobs>(
    () => new Worker(new URL('../workers/backup.worker.ts', import.meta.url), { type: 'module' }),
  );
  try {
    return await putBack(store, spare, client);
  } finally {
    client.close();
  }
}
