/** Backups in the life of the app: made when asked, and quietly where a folder was granted. */
import { BackupFolder } from '../state/backup-folder.svelte';
import type { FolderHandle } from '../state/backup-folder';
import type { Keeping } from '../state/context';
import { Safekeeping } from '../state/safekeeping.svelte';
import type { Workspace } from '../state/workspace.svelte';
import type { Store } from '../storage';
import type { BackupJobs } from '../workers/backup-jobs';
import { WorkerClient } from '../workers/client';

/** Between quiet backups, in ms: a lost half hour can be typed again. */
const quietMs = 30 * 60_000;
/** And when the app is put aside, at most this often. */
const hiddenMs = 5 * 60_000;

type Picker = (options: { mode: 'readwrite'; id: string }) => Promise<FolderHandle>;

export async function startKeeping(workspace: Workspace, store: Store): Promise<Keeping> {
  const client = new WorkerClient<BackupJobs>(
    () => new Worker(new URL('../workers/backup.worker.ts', import.meta.url), { type: 'module' }),
  );
  const safekeeping = new Safekeeping(workspace, store, client);
  const folder = new BackupFolder(store, safekeeping, workspace.device, async () => {
    try {
      return await (window as unknown as { showDirectoryPicker: Picker }).showDirectoryPicker({
        mode: 'readwrite',
        id: 'hypocentre-backups',
      });
    } catch (error) {
      if (error instanceof DOMException && error.name === 'AbortError') return undefined;
      throw error;
    }
  });
  await Promise.all([safekeeping.load(), folder.load()]);
  void folder.backUpQuietly();
  void safekeeping.renewSpare();
  setInterval(() => {
    void folder.backUpQuietly();
    void safekeeping.renewSpare();
  }, quietMs);
  // Put aside for now, or for good: on a phone there may be no later moment.
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState !== 'hidden') return;
    if (workspace.now - (safekeeping.last?.at ?? 0) > hiddenMs) void folder.backUpQuietly();
  });
  return { safekeeping, folder };
}
