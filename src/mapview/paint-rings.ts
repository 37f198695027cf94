/** Above the bars: rings of traced misses, and names that find room when bars are too thin for their own. */
import { placeLabels } from '../engine';
import type { Colours } from './colours';
import type { View } from './paint-ground';
import { boxOf, nameBox, ringsOf, rowHeight, type Picture } from './picture';

/** CSS pixels from a bar's edge to its first ring, and from ring to ring. */
const ringStep = 3;

export interface OverOptions {
  /** Bars that are faded: they keep their rings, but pale. */
  readonly faded: (id: string) => boolean;
  /** Names beside bars that are too thin to hold them; off once bars hold their own. */
  readonly callouts: boolean;
  readonly missingPieces: boolean;
  /** Named first, whatever its traced misses. */
  readonly chosen: string | undefined;
}

const font = (size: number, weight = 400) =>
  `${weight} ${size}px "Source Serif 4 Variable", Georgia, serif`;

export function paintOver(
  context: CanvasRenderingContext2D,
  picture: Picture,
  view: View,
  colours: Colours,
  options: OverOptions,
): void {
  const { bars } = picture.section;
  const onScreen = (plane: { left: number; top: number; width: number; height: number }) => {
    const left = plane.left * view.zoom + view.x;
    const top = plane.top * view.zoom + view.y;
    return {
      left,
      top,
      right: left + plane.width * view.zoom,
      bottom: top + plane.height * view.zoom,
    };
  };
  const visible = (box: { left: number; top: number; right: number; bottom: number }) =>
    box.right > -20 && box.left < view.width + 20 && box.bottom > -20 && box.top < view.height + 20;

  const heaviest = bars.map((_, i) => i).filter((i) => ringsOf(picture.concepts[i]!.traced) > 0);
  heaviest.sort((a, b) => picture.concepts[b]!.traced - picture.concepts[a]!.traced);
  // Lightest first, so that the heaviest lie on top.
  for (const i of heaviest.toReversed()) {
    const box = onScreen(boxOf(bars[i]!));
    if (!visible(box)) continue;
    const rings = ringsOf(picture.concepts[i]!.traced);
    context.globalAlpha = options.faded(bars[i]!.id) ? 0.25 : 1;
    context.strokeStyle = [colours.miss2, colours.miss3, colours.miss4][rings - 1]!;
    for (let ring = 1; ring <= rings; ring++) {
      const out = ringStep * ring - 1;
      // The inner rings are the heavier: the strength of the tremor falls outwards.
      context.lineWidth = 0.6 + (rings - ring + 1) * 0.5;
      context.beginPath();
      context.roundRect(
        box.left - out,
        box.top - out,
        box.right - box.left + 2 * out,
        box.bottom - box.top + 2 * out,
        3 + out,
      );
      context.stroke();
    }
  }
  context.globalAlpha = 1;
  if (options.callouts) paintCallouts();
  if (options.missingPieces) paintMissingPieces();

  function paintCallouts(): void {
    const chosen = bars.findIndex(({ id }) => id === options.chosen);
    const named = [
      ...(chosen >= 0 ? [chosen] : []),
      ...heaviest.filter((i) => i !== chosen && !options.faded(bars[i]!.id)),
    ];
    const boxes = named.map((i) => {
      const concept = picture.concepts[i]!;
      const bar = onScreen(nameBox(bars[i]!));
      const size = i === chosen ? 14 : 10.5 + ringsOf(concept.traced);
      context.font = font(size, i === chosen ? 700 : 600);
      const text =
        concept.traced >= 1 ? `${concept.name} ${Math.round(concept.traced)}` : concept.name;
      const width = context.measureText(text).width + 10;
      const middle = (bar.top + bar.bottom) / 2;
      // Kept inside the picture; never wider than it.
      const left = Math.max(4, Math.min(bar.left, view.width - width - 4));
      return {
        i,
        text,
        size,
        left,
        right: left + width,
        top: middle - size * 0.75,
        bottom: middle + size * 0.75,
      };
    });
    for (const k of placeLabels(boxes)) {
      const { i, text, size, left, right, top, bottom } = boxes[k]!;
      if (!visible({ left, right, top, bottom })) continue;
      context.fillStyle = colours.raised;
      context.strokeStyle = i === chosen ? colours.focus : colours.missInk;
      context.lineWidth = i === chosen ? 2 : 0.75;
      context.beginPath();
      context.roundRect(left, top, right - left, bottom - top, 2);
      context.fill();
      context.stroke();
      context.font = font(size, i === chosen ? 700 : 600);
      context.fillStyle = i === chosen ? colours.ink : colours.missInk;
      context.textBaseline = 'middle';
      context.textAlign = 'left';
      context.fillText(text, left + 5, (top + bottom) / 2 + 0.5);
    }
  }

  function paintMissingPieces(): void {
    context.font = font(Math.min(13, rowHeight * 0.27 * view.zoom));
    context.fillStyle = colours.inkSoft;
    context.textBaseline = 'middle';
    context.textAlign = 'left';
    bars.forEach((bar, i) => {
      const { missingPiece } = picture.concepts[i]!;
      const box = onScreen(nameBox(bar));
      if (missingPiece === '' || !visible(box) || options.faded(bar.id)) return;
      context.save();
      context.beginPath();
      context.rect(box.left, box.top, box.right - box.left - 6, box.bottom - box.top);
      context.clip();
      context.fillText(
        missingPiece,
        Math.max(box.left, 0) + 8,
        box.top + (box.bottom - box.top) * 0.74,
      );
      context.restore();
    });
  }
}
