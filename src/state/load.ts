/** A value that may not have arrived yet. */
export type Load<T> =
  | { readonly kind: 'loading' }
  | { readonly kind: 'ready'; readonly value: T }
  | { readonly kind: 'failed'; readonly message: string };

export const loading = { kind: 'loading' } as const;
