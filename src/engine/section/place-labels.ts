/** Which labels there is room for. */

export interface LabelBox {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/**
 * Indices of the boxes that can be shown together without touching: each box, in
 * the order given, unless it meets one that was taken before it.
 *
 * A grid as coarse as the largest box keeps the work near linear.
 *
 * @param boxes most wanted first
 *
 * @example
 * const box = (left: number) => ({ left, right: left + 10, top: 0, bottom: 5 });
 * placeLabels([box(0), box(5), box(20)]); // [0, 2]
 */
export function placeLabels(boxes: readonly LabelBox[]): readonly number[] {
  const width = Math.max(1e-9, ...boxes.map((box) => box.right - box.left));
  const height = Math.max(1e-9, ...boxes.map((box) => box.bottom - box.top));
  const cells = new Map<string, LabelBox[]>();
  return boxes.flatMap((box, index) => {
    const column = Math.floor(box.left / width);
    const row = Math.floor(box.top / height);
    for (let x = column - 1; x <= column + 1; x++)
      for (let y = row - 1; y <= row + 1; y++)
        if (cells.get(`${x} ${y}`)?.some((other) => meet(box, other))) return [];
    const key = `${column} ${row}`;
    const cell = cells.get(key);
    if (cell) cell.push(box);
    else cells.set(key, [box]);
    return [index];
  });
}

function meet(one: LabelBox, other: LabelBox): boolean {
  return (
    one.left < other.right &&
    other.left < one.right &&
    one.top < other.bottom &&
    other.top < one.bottom
  );
}
