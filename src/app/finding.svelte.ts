/** Starts what Find needs when it is first asked for: its worker and the saved index. */
import { Finder } from '../state/find.svelte';
import type { Workspace } from '../state/workspace.svelte';
import type { Store } from '../storage';
import { WorkerClient } from '../workers/client';
import type { SearchJobs } from '../workers/search-jobs';

export function startFinding(workspace: Workspace, store: Store): Finder {
  const client = new WorkerClient<SearchJobs>(
    () => new Worker(new URL('../workers/search.worker.ts', import.meta.url), { type: 'module' }),
    () => finder.forgetSent(),
  );
  const finder: Finder = new Finder(workspace, store, client);
  // For the life of the page: the index follows every change, whatever screen is open.
  $effect.root(() => {
    $effect(() => finder.follow());
  });
  return finder;
}
