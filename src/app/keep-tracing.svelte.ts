/** Keeps the ranking in step with the log: every saved change traces again. */
import type { Roots } from '../state/roots.svelte';
import type { Workspace } from '../state/workspace.svelte';

/** Pause after the last change in ms: a burst of saves is traced once. */
const pauseMs = 60;

export function keepTracing(workspace: Workspace, roots: Roots): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  $effect.root(() => {
    // The worker stands outside Svelte; these reads say what it depends on.
    $effect(() => {
      for (const kind of ['concepts', 'blocks', 'items', 'readings', 'readingEvents'] as const) {
        void workspace.of(kind).live;
      }
      clearTimeout(timer);
      timer = setTimeout(() => whenIdle(() => void roots.retrace()), pauseMs);
    });
  });
}

/** Runs between keystrokes and frames, and no later than in half a second. */
function whenIdle(work: () => void): void {
  if ('requestIdleCallback' in globalThis) requestIdleCallback(work, { timeout: 500 });
  else work(); // Safari has none
}
