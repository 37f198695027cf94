/** The ground under the bars: strata with uneven borders, column rules, the scale of depth. */
import { groundOf, type Colours } from './colours';
import { columnWidth, rowHeight, rowTop, sectionSize, type Picture } from './picture';

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
const unevenness = 5;

/** Height of the border above a band at x, by a sum of two slow waves that differ from band to band. */
function unevenAt(depth: number, x: number): number {
  const turn = x / columnWidth;
  return unevenness * (Math.sin(turn * 1.3 + depth * 2.1) + 0.6 * Math.sin(turn * 2.9 + depth));
}

export function paintGround(
  context: Context,
  picture: Picture,
  view: View,
  colours: Colours,
): void {
  const { section } = picture;
  const { width, height } = sectionSize(section);
  const deepest = Math.max(1, section.bands.length - 1);
  const left = view.x;
  const right = view.x + width * view.zoom;
  const yOf = (plane: number) => plane * view.zoom + view.y;
  context.fillStyle = colours.paper;
  context.fillRect(0, 0, view.width, view.height);

  const lastBottom = yOf(height);
  for (const band of section.bands) {
    const top = rowTop(band.depth, band.firstRow) - 10;
    context.beginPath();
    context.moveTo(left, lastBottom);
    const step = Math.max(8, (columnWidth / 8) * view.zoom);
    for (let x = left; x <= right + step; x += step) {
      const at = Math.min(x, right);
      const plane = (at - view.x) / view.zoom;
      context.lineTo(at, yOf(top + (band.depth === 0 ? -6 : 0) + unevenAt(band.depth, plane)));
    }
    context.lineTo(right, lastBottom);
    context.closePath();
    context.fillStyle = groundOf(colours, band.depth, deepest);
    context.fill();
    context.strokeStyle = colours.ruleStrong;
    context.lineWidth = band.depth === 0 ? 1.5 : 0.6;
    context.stroke();
  }

  context.strokeStyle = colours.rule;
  context.lineWidth = 0.75;
  context.beginPath();
  for (let column = 0; column <= section.columns.length; column++) {
    const x = Math.round(column * columnWidth * view.zoom + view.x) + 0.5;
    context.moveTo(x, yOf(0));
    context.lineTo(x, lastBottom);
  }
  context.stroke();
}

/** The scale at the left edge: how many links a band lies below the surface. */
export function paintScale(
  context: Context,
  picture: Picture,
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
  for (const { depth, firstRow, rowCount } of picture.section.bands) {
    const top = rowTop(depth, firstRow) * view.zoom + view.y;
    const bottom = top + rowCount * rowHeight * view.zoom;
    // The label stays in sight as long as any of its band does.
    const [from, to] = [Math.max(top, 0), Math.min(bottom, view.height)];
    context.fillStyle = colours.ruleStrong;
    context.fillRect(scaleWidth - 6, top, 5, 1);
    const middle = (from + to) / 2;
    if (to - from < 2 || middle - 7 < filledTo || middle > view.height - 6) continue;
    filledTo = middle + 7;
    context.fillStyle = colours.inkSoft;
    context.fillText(depth === 0 ? 'surface' : String(depth), scaleWidth - 9, middle);
  }
}
