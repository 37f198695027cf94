/** The layout of a large map, with a layered-layout library on the same graph beside it. */
import dagre from '@dagrejs/dagre';
import { layOutSection, type SectionConcept } from '../../../src/engine';
import type { Bench } from '../bench';
import { largeMap } from './large-map';

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
