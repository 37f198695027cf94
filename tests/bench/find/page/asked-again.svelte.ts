import type { Finder } from '../../../../src/state/find.svelte';

/** Resolves when a screen would ask again: its effect runs once the index says that it has changed. */
export function askedAgain(finder: Finder): Promise<void> {
  return new Promise((resolve) => {
    const stop = $effect.root(() => {
      $effect(() => {
        if (finder.version === 0) return;
        resolve();
        stop();
      });
    });
  });
}
