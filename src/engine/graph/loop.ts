/** Loops and order in a directed graph of compressed sparse rows. */

/**
 * The nodes of one loop, in the order of its links, or undefined where there is none.
 *
 * Depth-first with a visited set and a stack of its own: each node is entered
 * once, however many paths lead to it. Time grows with nodes plus links.
 *
 * @param onVisit called with each node as it is entered
 *
 * @example
 * findLoop(Int32Array.of(0, 1, 2), Int32Array.of(1, 0)); // [0, 1]
 */
export function findLoop(
  linkStart: Int32Array,
  linkTarget: Int32Array,
  onVisit?: (node: number) => void,
): number[] | undefined {
  const count = linkStart.length - 1;
  // 0 not seen, 1 on the present path, 2 done.
  const mark = new Uint8Array(count);
  const nextLink = linkStart.slice(0, count);
  const path: number[] = [];
  for (let start = 0; start < count; start++) {
    if (mark[start] !== 0) continue;
    mark[start] = 1;
    path.push(start);
    onVisit?.(start);
    while (path.length > 0) {
      const node = path[path.length - 1]!;
      const link = nextLink[node]!;
      if (link === linkStart[node + 1]) {
        mark[node] = 2;
        path.pop();
        continue;
      }
      nextLink[node] = link + 1;
      const target = linkTarget[link]!;
      if (mark[target] === 1) return path.slice(path.indexOf(target));
      if (mark[target] === 0) {
        mark[target] = 1;
        path.push(target);
        onVisit?.(target);
      }
    }
  }
  return undefined;
}

/**
 * Every node once, each after all it links to: what is rested on comes first. Among those
 * that are free to come, the lowest index comes first only within one round, so that the
 * result depends on the links and indices alone.
 *
 * @throws {RangeError} when there is a loop
 *
 * @example
 * restingOrder(Int32Array.of(0, 1, 1), Int32Array.of(1)); // [1, 0]
 */
export function restingOrder(linkStart: Int32Array, linkTarget: Int32Array): Int32Array {
  const count = linkStart.length - 1;
  const waitingFor = new Int32Array(count);
  // The same links read backwards, to tell those above when a node is placed.
  const aboveStart = new Int32Array(count + 1);
  for (const target of linkTarget) aboveStart[target + 1]! += 1;
  for (let i = 0; i < count; i++) aboveStart[i + 1]! += aboveStart[i]!;
  const above = new Int32Array(linkTarget.length);
  const filled = aboveStart.slice(0, count);
  for (let node = 0; node < count; node++) {
    waitingFor[node] = linkStart[node + 1]! - linkStart[node]!;
    for (let link = linkStart[node]!; link < linkStart[node + 1]!; link++) {
      const target = linkTarget[link]!;
      above[filled[target]!] = node;
      filled[target]! += 1;
    }
  }

  const order = new Int32Array(count);
  let placed = 0;
  for (let node = 0; node < count; node++) if (waitingFor[node] === 0) order[placed++] = node;
  for (let done = 0; done < placed; done++) {
    const node = order[done]!;
    for (let k = aboveStart[node]!; k < aboveStart[node + 1]!; k++) {
      const higher = above[k]!;
      waitingFor[higher]! -= 1;
      if (waitingFor[higher] === 0) order[placed++] = higher;
    }
  }
  if (placed < count)
    throw new RangeError(`restingOrder: got a loop among ${count - placed} nodes; need none`);
  return order;
}
