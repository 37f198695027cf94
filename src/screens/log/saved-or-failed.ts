import type { CommitResult } from '../../state/workspace.svelte';
import { texts } from './texts';

/** What a field that saves itself needs to know of how its save ended. */
export function savedOrFailed(
  result: CommitResult,
): { readonly kind: 'saved' } | { readonly kind: 'failed'; readonly message: string } {
  switch (result.kind) {
    case 'saved':
      return { kind: 'saved' };
    case 'failed':
      return result;
    case 'conflict':
      return { kind: 'failed', message: texts.savedOrFailed.anotherTabChangedThisRecord };
    case 'stopped':
      return { kind: 'failed', message: texts.savedOrFailed.savingWasStopped };
  }
}
