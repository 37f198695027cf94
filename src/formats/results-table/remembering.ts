/**
 * The same function, asking each text only once: the cells of a column repeat themselves.
 *
 * @param read a pure function
 */
export function remembering<T>(read: (cell: string) => T): (cell: string) => T {
  const before = new Map<string, { readonly value: T }>();
  return (cell) => {
    const known = before.get(cell);
    if (known) return known.value;
    const value = read(cell);
    before.set(cell, { value });
    return value;
  };
}
