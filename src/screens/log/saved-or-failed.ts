import type { CommitResult } from '../../state/workspace.svelte';

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
      return { kind: 'failed', message: 'another tab changed this record just now' };
    case 'stopped':
      return { kind: 'failed', message: 'saving was stopped' };
  }
}
