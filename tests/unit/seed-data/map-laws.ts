/** What must hold of any map's links, computed from the definitions; small maps only. */
import type { SeedConcept } from './map-files';

/** All concepts below each concept along *rests on*; visits each pair once. */
export function closures(concepts: readonly SeedConcept[]): Map<string, ReadonlySet<string>> {
  const linksOf = new Map<string, readonly string[]>(
    concepts.map((concept) => [concept.id, concept.restsOn.map((link) => link.concept)]),
  );
  const below = new Map<string, ReadonlySet<string>>();
  for (const { id } of concepts) {
    const seen = new Set<string>();
    const open = [...(linksOf.get(id) ?? [])];
    for (let next = open.pop(); next !== undefined; next = open.pop()) {
      if (seen.has(next)) continue;
      seen.add(next);
      open.push(...(linksOf.get(next) ?? []));
    }
    below.set(id, seen);
  }
  return below;
}

/** Ids that lie below themselves: empty where there is no cycle. */
export function idsOnCycles(concepts: readonly SeedConcept[]): string[] {
  return [...closures(concepts)].filter(([id, below]) => below.has(id)).map(([id]) => id);
}

/** Links on the longest path of a map without cycles. */
export function longestPath(concepts: readonly SeedConcept[]): number {
  // Peel off what rests on nothing that is left: as many rounds as the longest path has concepts.
  let left = concepts;
  let rounds = 0;
  while (left.length > 0) {
    const here = new Set<string>(left.map((concept) => concept.id));
    const rest = left.filter((concept) => concept.restsOn.some((link) => here.has(link.concept)));
    if (rest.length === left.length) throw new RangeError('longestPath: got a cycle; need none');
    left = rest;
    rounds++;
  }
  return rounds - 1;
}

/** The parts that no link joins, largest first, links taken in both directions. */
export function connectedParts(concepts: readonly SeedConcept[]): string[][] {
  const parts: Set<string>[] = concepts.map((concept) => new Set<string>([concept.id]));
  for (const concept of concepts) {
    for (const link of concept.restsOn) {
      const here = parts.findIndex((part) => part.has(concept.id));
      const there = parts.findIndex((part) => part.has(link.concept));
      if (here === there || here === -1 || there === -1) continue;
      for (const id of parts[there] ?? []) parts[here]?.add(id);
      parts.splice(there, 1);
    }
  }
  return parts.map((part) => [...part]).sort((a, b) => b.length - a.length);
}

/** Links "a -> c" that state no strength although a longer path leads from a to c. */
export function unmeantShortcuts(concepts: readonly SeedConcept[]): string[] {
  const below = closures(concepts);
  return concepts.flatMap((concept) =>
    concept.restsOn
      .filter((link) => link.strength === undefined)
      .filter((link) =>
        concept.restsOn.some(
          (other) => other !== link && below.get(other.concept)?.has(link.concept) === true,
        ),
      )
      .map((link) => `${concept.id} -> ${link.concept}`),
  );
}
