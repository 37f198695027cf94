/** Above the bars: rings of traced misses, and names that find room when bars are too thin for their own. */
import { placeLabels } from '../engine';
import type { Colours } from './colours';
import type { View } from './paint-ground';
import { bodiesOf, boxOf, ringsOf, type Box, type Picture } from './picture';
import { nameSize, type namesAt } from './style';

/** CSS pixels from a bar's edge to its first ring, and from ring to ring. */
const ringStep = 3;

export interface OverOptions {
  /** Bars that are faded: they keep their rings, but pale. */
  readonly faded: (id: string) => boolean;
  readonly names: ReturnType<typeof namesAt>;
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
    if (!visible(onScreen(boxOf(bars[i]!)))) continue;
    const rings = ringsOf(picture.concepts[i]!.traced);
    context.globalAlpha = options.faded(bars[i]!.id) ? 0.25 : 1;
    context.strokeStyle = [colours.miss2, colours.miss3, colours.miss4][rings - 1]!;
    for (let ring = 1; ring <= rings; ring++) {
      const out = ringStep * ring - 1;
      // The inner rings are the heavier: the strength of the tremor falls outwards.
      context.lineWidth = 0.6 + (rings - ring + 1) * 0.5;
      context.beginPath();
      for (const body of bodiesOf(bars[i]!)) {
        const box = onScreen(body);
        const [width, height] = [box.right - box.left, box.bottom - box.top];
        context.roundRect(
          box.left - out,
          box.top - out,
          width + 2 * out,
          height + 2 * out,
          3 + out,
        );
      }
      context.stroke();
    }
  }
  context.globalAlpha = 1;
  if (options.names === 'beside') paintCallouts();
  else paintNames(options.names === 'on, with missing pieces');

  function paintCallouts(): void {
    const chosen = bars.findIndex(({ id }) => id === options.chosen);
    const named = [
      ...(chosen >= 0 ? [chosen] : []),
      ...heaviest.filter((i) => i !== chosen && !options.faded(bars[i]!.id)),
    ];
    const boxes = named.map((i) => {
      const concept = picture.concepts[i]!;
      const bar = onScreen(widestOf(bodiesOf(bars[i]!)));
      const size = i === chosen ? 14 : 10.5 + ringsOf(concept.traced);
      context.font = font(size, i === chosen ? 700 : 600);
      const text =
        concept.traced >= 1 ? `${concept.name} ${Math.round(concept.traced)}` : concept.name;
      const width = context.measureText(text).width + 10;
      const middle = (bar.top + bar.bottom) / 2;
      // Kept inside the picture; never wider than it.
      const left = Math.max(options.left + 4, Math.min(bar.left, view.width - width - 4));
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

  /** On every body, as far to the left as it is in sight: so a long bar keeps its name. */
  function paintNames(withPieces: boolean): void {
    context.textBaseline = 'middle';
    context.textAlign = 'left';
    bars.forEach((bar, i) => {
      if (!visible(onScreen(boxOf(bar)))) return;
      const concept = picture.concepts[i]!;
      context.globalAlpha = options.faded(bar.id) ? 0.35 : 1;
      const count = concept.traced >= 1 ? `  ${Math.round(concept.traced)}` : '';
      const piece = withPieces ? concept.missingPiece : '';
      for (const body of bodiesOf(bar)) {
        const box = onScreen(body);
        const left = Math.max(box.left, options.left) + 6;
        const room = Math.min(box.right, view.width) - left - 6;
        if (room < 24 || !visible(box)) continue;
        const height = box.bottom - box.top;
        const size =
          piece === '' ? Math.min(17, nameSize * view.zoom) : Math.min(15, height * 0.46);
        const middle = (box.top + box.bottom) / 2;
        const weight = concept.traced >= 1 ? 600 : 400;
        context.fillStyle = colours.ink;
        write(
          concept.name + count,
          left,
          piece === '' ? middle : box.top + height * 0.3,
          room,
          size,
          weight,
        );
        if (piece === '') continue;
        context.fillStyle = colours.inkSoft;
        write(piece, left, box.top + height * 0.74, room, size * 0.85, 400);
      }
    });
    context.globalAlpha = 1;
  }

  function write(
    text: string,
    x: number,
    y: number,
    room: number,
    size: number,
    weight: number,
  ): void {
    const share = room / (widthOf(text, weight) * size);
    const fitting =
      share >= 1
        ? text
        : `${text.slice(0, Math.max(1, Math.floor(text.length * share) - 2)).trimEnd()}…`;
    context.font = font(size, weight);
    context.fillText(fitting, x, y + 0.5, room);
  }

  /** Width of a text a pixel high; measured once. */
  function widthOf(text: string, weight: number): number {
    const key = `${weight} ${text}`;
    let width = widths.get(key);
    if (width === undefined) {
      context.font = font(100, weight);
      width = context.measureText(text).width / 100;
      widths.set(key, width);
    }
    return width;
  }
}

/** Text widths by weight and text: names are few and drawn on every frame. */
const widths = new Map<string, number>();

const widestOf = (bodies: readonly Box[]) =>
  bodies.reduce((best, body) => (body.width > best.width ? body : best));
