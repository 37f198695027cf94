/** Import cycles, found as strongly connected components. */

/**
 * One cycle for each group of files that reach each other, as a path back to its first file.
 *
 * Source: R. Tarjan, "Depth-First Search and Linear Graph Algorithms", SIAM Journal on Computing
 * 1 (1972), pp. 146-160; each file and each edge is visited once.
 *
 * @example
 * importCycles([{ from: 'a', to: 'b' }, { from: 'b', to: 'a' }]); // [['a', 'b', 'a']]
 */
export function importCycles(edges: readonly { from: string; to: string }[]): string[][] {
  const after = new Map<string, string[]>();
  for (const { from, to } of edges) after.set(from, [...(after.get(from) ?? []), to]);

  const order = new Map<string, number>();
  const stack: string[] = [];
  const groups: string[][] = [];

  const visit = (file: string): number => {
    const mine = order.size;
    order.set(file, mine);
    stack.push(file);
    let lowest = mine;
    for (const next of after.get(file) ?? []) {
      if (!order.has(next)) lowest = Math.min(lowest, visit(next));
      else if (stack.includes(next)) lowest = Math.min(lowest, order.get(next) ?? lowest);
    }
    if (lowest === mine) groups.push(stack.splice(stack.indexOf(file)));
    return lowest;
  };
  for (const file of after.keys()) if (!order.has(file)) visit(file);

  return groups.flatMap((group) => {
    const start = group[0] ?? '';
    const turning = group.length > 1 || (after.get(start) ?? []).includes(start);
    return turning ? [pathBack(start, new Set(group), after)] : [];
  });
}

/** The shortest way from a file back to itself inside its group. */
function pathBack(
  start: string,
  group: ReadonlySet<string>,
  after: ReadonlyMap<string, readonly string[]>,
): string[] {
  const cameFrom = new Map<string, string>();
  const waiting = [start];
  for (let file = waiting.shift(); file !== undefined; file = waiting.shift()) {
    for (const next of after.get(file) ?? []) {
      if (!group.has(next) || cameFrom.has(next)) continue;
      cameFrom.set(next, file);
      waiting.push(next);
    }
  }
  const back = [start];
  let step = cameFrom.get(start);
  while (step !== undefined && step !== start) {
    back.unshift(step);
    step = cameFrom.get(step);
  }
  return [start, ...back];
}
