/** What lies above and below a concept, as far as links lead. */

/** For each id, the ids one link away. */
export type Neighbours = ReadonlyMap<string, readonly string[]>;

/**
 * Ids reached from one, itself left out, nearest first.
 *
 * A visited set: each id is entered once, however many paths lead to it.
 *
 * @param onVisit called with each id as it is entered
 *
 * @example
 * findReach(new Map([['a', ['b', 'c']], ['b', ['d']], ['c', ['d']]]), 'a'); // ['b', 'c', 'd']
 */
export function findReach(
  neighbours: Neighbours,
  from: string,
  onVisit?: (id: string) => void,
): readonly string[] {
  const visited = new Set([from]);
  // A set keeps the order of adding and may grow while it is read.
  for (const id of visited) {
    onVisit?.(id);
    for (const next of neighbours.get(id) ?? []) visited.add(next);
  }
  visited.delete(from);
  return [...visited];
}

/**
 * The shortest way along links from one id to another, both included; undefined if there is none.
 *
 * @example
 * findWay(new Map([['a', ['b']], ['b', ['c']]]), 'a', 'c'); // ['a', 'b', 'c']
 */
export function findWay(
  neighbours: Neighbours,
  from: string,
  to: string,
): readonly string[] | undefined {
  const cameFrom = new Map<string, string | undefined>([[from, undefined]]);
  for (const id of cameFrom.keys()) {
    if (id === to) {
      const way: string[] = [];
      for (let at: string | undefined = id; at !== undefined; at = cameFrom.get(at)) way.push(at);
      return way.reverse();
    }
    for (const next of neighbours.get(id) ?? []) if (!cameFrom.has(next)) cameFrom.set(next, id);
  }
  return undefined;
}

/** The same links read the other way. */
export function turned(neighbours: Neighbours): Neighbours {
  const back = new Map<string, string[]>();
  for (const [from, list] of neighbours)
    for (const to of list) {
      const known = back.get(to);
      if (known) known.push(from);
      else back.set(to, [from]);
    }
  return back;
}
