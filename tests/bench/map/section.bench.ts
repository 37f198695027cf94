/** The layout of a large map, with a layered-layout library on the same graph beside it. */
import dagre from '@dagrejs/dagre';
import { layOutSection, type SectionConcept } from '../../../src/engine';
import { randomFrom } from '../../../src/engine/numeric/random';
import type { Bench } from '../bench';

/** 14 systems, 2,000 concepts, 5,000 links from a concept to later ones nearby. */
export function largeMap(seed: number, conceptCount = 2000, linkCount = 5000) {
  const random = randomFrom(seed);
  const below = (bound: number) => Math.floor(random.uniform() * bound);
  const systems = Array.from({ length: 14 }, (_, k) => `system-${k}`);
  const links = Array.from({ length: conceptCount }, () => new Set<string>());
  for (let made = 0; made < linkCount;) {
    const from = below(conceptCount - 1);
    const to = from + 1 + below(Math.min(400, conceptCount - 1 - from));
    const before = links[from]!.size;
    links[from]!.add(`c${to}`);
    made += links[from]!.size - before;
  }
  const concepts = links.map((set, i): SectionConcept => ({
    id: `c${i}`,
    systems: systems.filter(() => below(14) < 2),
    restsOn: [...set],
    traced: below(20) === 0 ? below(12) : 0,
  }));
  return { systems, concepts };
}

function layOutByDagre(concepts: readonly SectionConcept[]): number {
  const graph = new dagre.graphlib.Graph();
  graph.setGraph({});
  graph.setDefaultEdgeLabel(() => ({}));
  for (const { id } of concepts) graph.setNode(id, { width: 80, height: 16 });
  for (const { id, restsOn } of concepts) for (const to of restsOn) graph.setEdge(id, to);
  dagre.layout(graph);
  return graph.nodeCount();
}

export const benches: readonly Bench[] = [
  {
    name: 'map: layout of 2,000 concepts and 5,000 links',
    prepare: (seed) => {
      const { systems, concepts } = largeMap(seed);
      return {
        data: '14 systems, 2,000 concepts, 5,000 links',
        ours: { label: 'section', run: () => layOutSection(systems, concepts).bars.length },
      };
    },
  },
  {
    // Smaller: at the full size the library takes minutes.
    name: 'map: layout of 300 concepts and 750 links, dagre beside it',
    repeats: 3,
    warmups: 1,
    prepare: (seed) => {
      const { systems, concepts } = largeMap(seed, 300, 750);
      return {
        data: '14 systems, 300 concepts, 750 links',
        ours: { label: 'section', run: () => layOutSection(systems, concepts).bars.length },
        others: [{ label: 'dagre', run: () => layOutByDagre(concepts) }],
        requireAgreement: ([ours, theirs]) => {
          if (ours !== theirs) throw new Error(`placed ${String(ours)} and ${String(theirs)}`);
        },
      };
    },
  },
];
