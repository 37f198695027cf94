/** Loops of *rests on* in foreign files, taken apart. */
import type { ConceptContent } from '../map-file';

/**
 * The concepts without the links that close a loop, and these links in words.
 *
 * Depth-first, each concept entered once: a link back to a concept on the present
 * path closes a loop and is left out. Which link of a loop that is depends on the
 * order of the concepts.
 */
export function breakLoops(concepts: readonly ConceptContent[]): {
  readonly kept: readonly ConceptContent[];
  readonly broken: readonly string[];
} {
  const rowOf = new Map(concepts.map(({ id }, row) => [id, row]));
  // 0 not seen, 1 on the present path, 2 done.
  const mark = new Uint8Array(concepts.length);
  const closing = new Map<number, Set<string>>();
  for (let start = 0; start < concepts.length; start++) {
    if (mark[start] !== 0) continue;
    const path: { row: number; next: number }[] = [{ row: start, next: 0 }];
    mark[start] = 1;
    while (path.length > 0) {
      const at = path.at(-1)!;
      const link = concepts[at.row]!.restsOn[at.next++];
      if (!link) {
        mark[at.row] = 2;
        path.pop();
        continue;
      }
      const below = rowOf.get(link.concept);
      if (below === undefined) continue;
      if (mark[below] === 1) {
        if (!closing.has(at.row)) closing.set(at.row, new Set());
        closing.get(at.row)!.add(link.concept);
      } else if (mark[below] === 0) {
        mark[below] = 1;
        path.push({ row: below, next: 0 });
      }
    }
  }
  const broken: string[] = [];
  const kept = concepts.map((concept, row) => {
    const cut = closing.get(row);
    if (!cut) return concept;
    for (const id of cut)
      broken.push(`${concept.name} on ${concepts[rowOf.get(id as never)!]?.name ?? id}`);
    return { ...concept, restsOn: concept.restsOn.filter((link) => !cut.has(link.concept)) };
  });
  return { kept, broken };
}
