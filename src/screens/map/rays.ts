/** Rays from a root up to the misses it explains, gathered by what each miss was about. */
import type { ConceptId } from '../../model/ids';
import type { Item } from '../../model/log';
import type { DrawnLink } from '../../mapview/section-view-parts';
import type { Roots } from '../../state/roots.svelte';

/** The widest ray, in units of the drawing plane; the others are as much narrower as their share. */
const widest = 11;

/**
 * One ray a topic, its width the share of the root's traced misses that lie there.
 * Empty while the evidence has not arrived or where there is none.
 */
export async function raysOf(
  id: ConceptId,
  roots: Roots,
  items: ReadonlyMap<string, Item>,
): Promise<readonly DrawnLink[]> {
  const evidence = await roots.evidenceFor(id);
  if (evidence.kind !== 'ready') return [];
  const shares = new Map<string, number>();
  for (const { itemId, share, weight } of evidence.value) {
    const topics = (items.get(itemId)?.topics ?? []).filter((topic) => topic !== id);
    for (const topic of topics) {
      shares.set(topic, (shares.get(topic) ?? 0) + (share * weight) / topics.length);
    }
  }
  const most = Math.max(...shares.values());
  return [...shares].map(([from, share]) => ({
    from,
    to: id,
    width: Math.max(0.8, (widest * share) / most),
    kind: 'ray',
  }));
}
