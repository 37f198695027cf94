import type { JobResult } from '../workers/protocol';

/** A value that may not have arrived yet. */
export type Load<T> =
  | { readonly kind: 'loading' }
  | { readonly kind: 'ready'; readonly value: T }
  | { readonly kind: 'failed'; readonly message: string };

export const loading = { kind: 'loading' } as const;

/** A job's end as screens see it; one that was overtaken loads on, since its asker has moved on. */
export function loadOf<T>(result: JobResult<T>): Load<T> {
  if (result.kind === 'done') return { kind: 'ready', value: result.output };
  if (result.kind === 'failed') return { kind: 'failed', message: result.message };
  return loading;
}
