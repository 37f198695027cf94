/** Looks for a loop among links that must not have one. */

/**
 * A loop, as the nodes along it in the order of the links, or undefined when there is none.
 *
 * Depth first with a visited set, so each node and link is looked at once.
 *
 * @param linksOf row i: the rows that row i links to; rows out of range are not allowed
 * @param onvisit told each node once, for tests that count
 *
 * @example
 * findLoop([[1], [2], [1]]); // [1, 2]: 1 -> 2 -> 1
 */
export function findLoop(
  linksOf: readonly (readonly number[])[],
  onvisit?: (row: number) => void,
): readonly number[] | undefined {
  const finished = new Set<number>();
  for (let root = 0; root < linksOf.length; root += 1) {
    if (finished.has(root)) continue;
    // An own stack: a map may be deeper than the call stack.
    const path = [{ row: root, next: 0 }];
    const onPath = new Set([root]);
    onvisit?.(root);
    for (let step = path.at(-1); step; step = path.at(-1)) {
      const target = linksOf[step.row]![step.next];
      step.next += 1;
      if (target === undefined) {
        finished.add(step.row);
        onPath.delete(step.row);
        path.pop();
      } else if (onPath.has(target)) {
        const rows = path.map((each) => each.row);
        return rows.slice(rows.indexOf(target));
      } else if (!finished.has(target)) {
        path.push({ row: target, next: 0 });
        onPath.add(target);
        onvisit?.(target);
      }
    }
  }
  return undefined;
}
