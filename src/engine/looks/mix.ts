/**
 * Mixes organ systems: practice that changes topic is remembered better than practice in blocks
 * (interleaving: D. Rohrer & K. Taylor, 2007, Instructional Science 35:481-498, from memory).
 */

/**
 * The looks so that neighbours differ in system wherever that is possible. Within a system the order
 * stays as given.
 *
 * @param systemOf the system of a look; undefined ones count as one group
 *
 * @example
 * mixSystems(['h1', 'h2', 'k1'], (id) => id[0]); // ['h1', 'k1', 'h2']
 */
export function mixSystems<T>(looks: readonly T[], systemOf: (look: T) => string | undefined): T[] {
  const groups = new Map<string | undefined, T[]>();
  for (const look of looks) {
    const system = systemOf(look);
    const group = groups.get(system);
    if (group) group.push(look);
    else groups.set(system, [look]);
  }
  // The largest group that is not the last one's: so none is left over in a row at the end.
  const queues = [...groups.values()].map((group) => ({ group, next: 0 }));
  const left = (queue: (typeof queues)[number]) => queue.group.length - queue.next;
  const mixed: T[] = [];
  let last: (typeof queues)[number] | undefined;
  while (mixed.length < looks.length) {
    let chosen: (typeof queues)[number] | undefined;
    for (const queue of queues) {
      if (queue === last || left(queue) === 0) continue;
      if (!chosen || left(queue) > left(chosen)) chosen = queue;
    }
    chosen ??= last!;
    mixed.push(chosen.group[chosen.next]!);
    chosen.next += 1;
    last = chosen;
  }
  return mixed;
}
