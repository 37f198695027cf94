/** What the section shows bright, which links it draws and whose names it makes room for. */
import { findReach } from '../../engine';
import { defaultStrength, type Concept } from '../../model/concept-map';
import type { DrawnLink, Highlight } from '../../mapview/section-view-parts';
import type { RankedRoot } from '../../state/roots.svelte';
import { around, type MapLinks } from './section-model';

export interface Looked {
  readonly concepts: ReadonlyMap<string, Concept>;
  readonly links: MapLinks;
  readonly rootOf: ReadonlyMap<string, Pick<RankedRoot, 'traced'>>;
  readonly chosen: Pick<Concept, 'id'> | undefined;
  /** Concepts of the discipline that is lit; undefined for none. */
  readonly lit: ReadonlySet<string> | undefined;
  /** Rays from the chosen concept, in place of its links; undefined where they are not asked for. */
  readonly rays: readonly DrawnLink[] | undefined;
}

/**
 * Without a choice: the discipline that is lit. With one: the concept with all above and
 * below it and every link between these, or its rays and where they end.
 */
export function highlightOf({ concepts, links, rootOf, chosen, lit, rays }: Looked): Highlight {
  const heaviestFirst = (ids: Iterable<string>) =>
    [...ids].sort((a, b) => (rootOf.get(b)?.traced ?? 0) - (rootOf.get(a)?.traced ?? 0));
  if (!chosen) {
    const wanted = lit ? heaviestFirst(lit) : [];
    return { chosen: undefined, bright: lit, lit, links: [], wanted };
  }
  const id: string = chosen.id;
  if (rays) {
    const widestFirst = [...rays].sort((a, b) => b.width - a.width).map(({ from }) => from);
    const wanted = [id, ...widestFirst];
    return { chosen: id, bright: new Set(wanted), lit, links: rays, wanted };
  }
  const bright = around(links, id);
  const drawn = new Map<string, DrawnLink>();
  const draw = (from: string, to: string) => {
    const link = concepts.get(from)?.restsOn.find(({ concept }) => concept === to);
    const width = 0.8 + 1.8 * (link?.strength ?? defaultStrength);
    drawn.set(`${from} ${to}`, { from, to, width, kind: 'link' });
  };
  for (const from of [id, ...findReach(links.below, id)])
    for (const to of links.below.get(from) ?? []) draw(from, to);
  for (const from of findReach(links.above, id))
    for (const to of links.below.get(from) ?? []) if (bright.has(to)) draw(from, to);
  return {
    chosen: id,
    bright,
    lit,
    links: [...drawn.values()],
    wanted: [
      id,
      ...(links.below.get(id) ?? []),
      ...heaviestFirst(links.above.get(id) ?? []),
      ...heaviestFirst(bright),
    ],
  };
}
