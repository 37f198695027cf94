/** What the drawing bench runs in the browser: our section and bare cytoscape, of the same map. */
import cytoscape from 'cytoscape';
import '../../../../src/app/tokens.css';
import { layOutSection } from '../../../../src/engine';
import { boxOf, geometryOf } from '../../../../src/mapview/geometry';
import type { Picture } from '../../../../src/mapview/picture';
import { SectionView } from '../../../../src/mapview/section-view';
import { largeMap } from '../large-map';

export interface DrawingBench {
  /** Each draws afresh and ends once its first frame is on the screen; gives the bars drawn. */
  readonly ours: () => Promise<number>;
  readonly bare: (withLinks: boolean) => Promise<number>;
  /** Rows that can all be read: the section is taller than the picture and can be moved. */
  readonly nearer: () => void;
  readonly watchFrames: () => void;
  /** ms between frames since they were watched. */
  readonly framesSeen: () => readonly number[];
}

declare global {
  interface Window {
    bench?: (seed: number) => DrawingBench;
  }
}

const firstFrame = () =>
  new Promise<void>((resolve) =>
    requestAnimationFrame(() => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = () => {
        resolve();
      };
      port2.postMessage(0);
    }),
  );

window.bench = (seed) => {
  const host = document.getElementById('host')!;
  const { systems, concepts } = largeMap(seed);
  const section = layOutSection(systems, concepts);
  const picture: Picture = {
    section,
    heads: section.columns,
    concepts: concepts.map(({ id, traced }, i) => ({
      id,
      name: `Concept ${i} of the bench`,
      traced,
      gapChance: traced / 12,
      missingPiece: '',
    })),
  };
  const room = { width: 1200, height: 680 };
  const geometry = geometryOf(picture, room, { kind: 'whole' });
  let shown: { destroy: () => void } | undefined;
  let frames: number[] = [];
  let watched = 0;

  return {
    ours: async () => {
      shown?.destroy();
      const view = new SectionView(host, {
        onchoose: () => undefined,
        onhover: () => undefined,
        onview: () => undefined,
      });
      shown = view;
      view.show(picture);
      await firstFrame();
      return concepts.length;
    },
    bare: async (withLinks) => {
      shown?.destroy();
      host.replaceChildren();
      const cy = cytoscape({
        container: host,
        layout: { name: 'preset' },
        elements: [
          ...section.bars.map((bar, i) => {
            const box = boxOf(bar, geometry);
            return {
              data: { id: bar.id, label: picture.concepts[i]!.name },
              position: { x: box.left + box.width / 2, y: box.top + box.height / 2 },
            };
          }),
          ...(withLinks
            ? concepts.flatMap(({ id, restsOn }) =>
                restsOn.map((to) => ({ data: { source: id, target: to } })),
              )
            : []),
        ],
      });
      shown = cy;
      await firstFrame();
      return cy.nodes().length;
    },
    nearer: () => {
      if (shown instanceof SectionView) shown.look({ kind: 'names' });
    },
    watchFrames: () => {
      frames = [];
      const mine = ++watched;
      let before = performance.now();
      const next = () => {
        if (mine !== watched) return;
        const now = performance.now();
        frames.push(now - before);
        before = now;
        requestAnimationFrame(next);
      };
      requestAnimationFrame(next);
    },
    framesSeen: () => {
      watched++;
      return frames;
    },
  };
};
