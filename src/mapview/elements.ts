/** The section as elements of cytoscape. */
import type cytoscape from 'cytoscape';
import type { SectionBar } from '../engine';
import type { Colours } from './colours';
import { boxOf, outlineOf, type Geometry } from './geometry';
import { edgeOf, fillShare, type Picture } from './picture';

/** One node a concept, for the bars of these indices; links are added when they are asked for. */
export function barElements(
  picture: Picture,
  geometry: Geometry,
  colours: Colours,
  indices: readonly number[],
): cytoscape.ElementDefinition[] {
  const most = Math.max(0, ...picture.concepts.map(({ traced }) => traced));
  return indices.map((i) => {
    const bar = picture.section.bars[i]!;
    const concept = picture.concepts[i]!;
    const fill = concept.traced >= 0.5 ? fillShare(concept.traced, most) : 0;
    const stop = Math.max(2, Math.round(fill * 100));
    return {
      group: 'nodes',
      data: {
        id: bar.id,
        ...shapeOf(bar, geometry).data,
        edge: edgeOf(concept.gapChance),
        fill,
        fillColours:
          `${colours.miss2} ${colours.miss2} ${colours.raised} ${colours.raised}`.replace(
            /, /g,
            ',',
          ),
        fillStops: `0% ${stop}% ${stop}% 100%`,
      },
      position: shapeOf(bar, geometry).position,
    };
  });
}

/** Below this height of its body, in plane units, a bar is a mere line without an edge. */
export const leastEdged = 3;

/** What of a bar changes when the plane does. */
export function shapeOf(bar: SectionBar, geometry: Geometry) {
  const box = boxOf(bar, geometry);
  return {
    position: { x: box.left + box.width / 2, y: box.top + box.height / 2 },
    data: {
      width: box.width,
      height: box.height,
      thin: geometry.bodyHeight[bar.row]! < leastEdged ? 1 : 0,
      outline: outlineOf(bar, geometry)
        .map((value) => value.toFixed(4))
        .join(' '),
    },
  };
}

export interface DrawnLink {
  /** The concept that rests on the other, and lies above it. */
  readonly from: string;
  readonly to: string;
  /** In plane units. */
  readonly width: number;
  readonly kind: 'link' | 'ray';
}

/** Links as plumb as the two bars allow: over a column both cover, else between their nearest ends. */
export function linkElements(
  links: readonly DrawnLink[],
  barOf: (id: string) => SectionBar | undefined,
  geometry: Geometry,
): cytoscape.ElementDefinition[] {
  return links.flatMap(({ from, to, width, kind }) => {
    const [upper, lower] = [barOf(from), barOf(to)];
    if (!upper || !lower) return [];
    const [above, below] = [boxOf(upper, geometry), boxOf(lower, geometry)];
    const left = Math.max(above.left, below.left);
    const right = Math.min(above.left + above.width, below.left + below.width);
    const shared = (left + right) / 2;
    const nearest = (box: typeof above, other: typeof above) =>
      Math.min(Math.max(other.left + other.width / 2, box.left + 4), box.left + box.width - 4);
    const x1 = right > left ? shared : nearest(above, below);
    const x2 = right > left ? shared : nearest(below, above);
    const end = (x: number, box: typeof above, y: number) =>
      `${(x - (box.left + box.width / 2)).toFixed(1)}px ${y.toFixed(1)}px`;
    return {
      group: 'edges',
      data: {
        id: `${kind} ${from} ${to}`,
        source: from,
        target: to,
        width,
        sourceEnd: end(x1, above, above.height / 2),
        targetEnd: end(x2, below, -below.height / 2),
      },
      classes: kind,
    };
  });
}
