/** The ground under the bars: strata with uneven borders, column rules, the scale of depth. */
import { groundOf, type Colours } from './colours';
import type { Geometry } from './geometry';
import type { Picture } from './picture';

/** How the drawing plane lies on the screen: screen = plane * zoom + pan, in CSS pixels. */
export interface View {
  readonly zoom: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

type Context = CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D;

/** Plane units by which a border rises and falls: a bed is never quite level. */
const unevenness = 1.5;
/** Plane units from one turn of the slower wave to the next, over six. */
const wave = 70;

/** Height of the border above a band at x, by a sum of two slow waves that differ from band to band. */
function unevenAt(depth: number, x: number): number {
  const turn = x / wave;
  return unevenness * (Math.sin(turn * 1.3 + depth * 2.1) + 0.6 * Math.sin(turn * 2.9 + depth));
}

export function paintGround(
  context: Context,
  picture: Picture,
  geometry: Geometry,
  view: View,
  colours: Colours,
): void {
  const { section } = picture;
  const { width, height, bandTop, columnLeft } = geometry;
  const deepest = Math.max(1, section.bands.length - 1);
  const left = view.x;
  const right = view.x + width * view.zoom;
  const yOf = (plane: number) => plane * view.zoom + view.y;
  context.fillStyle = colours.paper;
  context.fillRect(0, 0, view.width, view.height);

  const lastBottom = yOf(height);
  section.bands.forEach((band, k) => {
    const top = bandTop[k]!;
    context.beginPath();
    context.moveTo(left, lastBottom);
    const step = Math.max(6, 10 * view.zoom);
    for (let x = left; x <= right + step; x += step) {
      const at = Math.min(x, right);
      const plane = (at - view.x) / view.zoom;
      context.lineTo(at, yOf(top + unevenAt(band.depth, plane)));
    }
    context.lineTo(right, lastBottom);
    context.closePath();
    context.fillStyle = groundOf(colours, band.depth, deepest);
    context.fill();
    context.strokeStyle = colours.ruleStrong;
    context.lineWidth = band.depth === 0 ? 1.5 : 0.6;
    context.stroke();
  });

  context.strokeStyle = colours.rule;
  context.lineWidth = 0.75;
  context.beginPath();
  for (const edge of columnLeft) {
    const x = Math.round(edge * view.zoom + view.x) + 0.5;
    context.moveTo(x, yOf(0));
    context.lineTo(x, lastBottom);
  }
  context.stroke();
}

/** The scale at the left edge: how many links a band lies below the surface. */
export function paintScale(
  context: Context,
  picture: Picture,
  geometry: Geometry,
  view: View,
  colours: Colours,
  scaleWidth: number,
): void {
  context.fillStyle = colours.paper;
  context.fillRect(0, 0, scaleWidth, view.height);
  context.font = '12px "Source Serif 4 Variable", Georgia, serif';
  context.textBaseline = 'middle';
  context.textAlign = 'right';
  let filledTo = -Infinity;
  picture.section.bands.forEach(({ depth }, k) => {
    const top = geometry.bandTop[k]! * view.zoom + view.y;
    const bottom = geometry.bandTop[k + 1]! * view.zoom + view.y;
    // The label stays in sight as long as any of its band does.
    const [from, to] = [Math.max(top, 0), Math.min(bottom, view.height)];
    context.fillStyle = colours.ruleStrong;
    context.fillRect(scaleWidth - 6, top, 5, 1);
    const middle = (from + to) / 2;
    if (to - from < 2 || middle - 7 < filledTo || middle > view.height - 6) return;
    filledTo = middle + 7;
    context.fillStyle = colours.inkSoft;
    context.fillText(depth === 0 ? 'surface' : String(depth), scaleWidth - 9, middle);
  });
}
