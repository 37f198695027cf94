/** Above the bars: rings of traced misses, and names. */
import { mixed, type Colours } from './colours';
import { bodiesOf, ringStep, type Geometry } from './geometry';
import { labelsOf, type Measure } from './labels';
import type { View } from './paint-ground';
import { ringsOf, type Picture } from './picture';

export interface OverOptions {
  /** Bars that are faded: they keep their rings, but pale. */
  readonly faded: (id: string) => boolean;
  /** Where the picture begins: names keep to the right of it, in CSS pixels. */
  readonly left: number;
  /** Named first, whatever its traced misses. */
  readonly chosen: string | undefined;
}

const font = (size: number, weight = 400) =>
  `${weight} ${size}px "Source Serif 4 Variable", Georgia, serif`;

export function paintOver(
  context: CanvasRenderingContext2D,
  picture: Picture,
  geometry: Geometry,
  view: View,
  colours: Colours,
  options: OverOptions,
): void {
  paintRings(context, picture, geometry, view, colours, options.faded);
  context.textBaseline = 'middle';
  context.textAlign = 'left';
  const { bars } = picture.section;
  for (const label of labelsOf(picture, geometry, view, measureIn(context), options)) {
    const { left, right, top, bottom, size, weight, text, piece } = label;
    const { id } = bars[label.bar]!;
    const middle = (top + bottom) / 2 + 0.5;
    if (label.kind === 'over') {
      const chosen = id === options.chosen;
      context.fillStyle = colours.raised;
      context.strokeStyle = chosen ? colours.focus : colours.missInk;
      context.lineWidth = chosen ? 2 : 0.75;
      context.beginPath();
      context.roundRect(left, top, right - left, bottom - top, 2);
      context.fill();
      context.stroke();
      context.font = font(size, weight);
      context.fillStyle = chosen ? colours.ink : colours.missInk;
      context.fillText(text, left + 4, middle);
      continue;
    }
    context.globalAlpha = options.faded(id) ? 0.35 : 1;
    context.font = font(size, weight);
    context.fillStyle = label.again ? mixed(colours.inkSoft, colours.raised, 0.22) : colours.ink;
    context.fillText(text, left, middle, right - left);
    if (piece === '') continue;
    context.font = font(size * 0.9);
    context.fillStyle = colours.inkSoft;
    context.fillText(piece, label.pieceLeft, middle, right - label.pieceLeft);
  }
  context.globalAlpha = 1;
}

function paintRings(
  context: CanvasRenderingContext2D,
  picture: Picture,
  geometry: Geometry,
  view: View,
  colours: Colours,
  faded: OverOptions['faded'],
): void {
  const { bars } = picture.section;
  const ringed = bars.map((_, i) => i).filter((i) => ringsOf(picture.concepts[i]!.traced) > 0);
  // Lightest first, so that the heaviest lie on top.
  ringed.sort((a, b) => picture.concepts[a]!.traced - picture.concepts[b]!.traced);
  for (const i of ringed) {
    const rings = ringsOf(picture.concepts[i]!.traced);
    context.globalAlpha = faded(bars[i]!.id) ? 0.25 : 1;
    context.strokeStyle = [colours.miss2, colours.miss3, colours.miss4][rings - 1]!;
    for (const body of bodiesOf(bars[i]!, geometry)) {
      const left = body.left * view.zoom + view.x;
      const top = body.top * view.zoom + view.y;
      const [width, height] = [body.width * view.zoom, body.height * view.zoom];
      if (left > view.width + 20 || left + width < -20) continue;
      if (top > view.height + 20 || top + height < -20) continue;
      for (let ring = 1; ring <= rings; ring++) {
        const out = ringStep * ring - 0.4;
        // The inner rings are the heavier: the strength of the tremor falls outwards.
        context.lineWidth = 0.7 + (rings - ring) * 0.35;
        context.beginPath();
        context.roundRect(left - out, top - out, width + 2 * out, height + 2 * out, 1 + out);
        context.stroke();
      }
    }
  }
  context.globalAlpha = 1;
}

/** Widths by weight and text, a pixel high: names are few and measured on every frame. */
const widths = new Map<string, number>();

function measureIn(context: CanvasRenderingContext2D): Measure {
  return (text, size, weight) => {
    const key = `${weight} ${text}`;
    let width = widths.get(key);
    if (width === undefined) {
      context.font = font(100, weight);
      width = context.measureText(text).width / 100;
      // Cut names differ at every zoom; the map of widths must not grow for ever.
      if (widths.size > 20_000) widths.clear();
      widths.set(key, width);
    }
    return width * size;
  };
}
