/** Walking the points of a drawing by key: one of them takes the Tab key, the arrows go on from it. */

/**
 * The point a key leads to, or undefined for a key that leads nowhere.
 *
 * @param index the point in hand
 * @param count how many there are, at least 1
 *
 * @example
 * pointAfterKey('ArrowRight', 3, 4); // 3: the last one stays
 */
export function pointAfterKey(key: string, index: number, count: number): number | undefined {
  switch (key) {
    case 'ArrowRight':
    case 'ArrowDown':
      return Math.min(count - 1, index + 1);
    case 'ArrowLeft':
    case 'ArrowUp':
      return Math.max(0, index - 1);
    case 'Home':
      return 0;
    case 'End':
      return count - 1;
    default:
      return undefined;
  }
}
