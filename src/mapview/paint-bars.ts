/**
 * The bars that cytoscape does not hold: those too thin to be touched one by one, and,
 * while the picture is moved, what comes into sight.
 */
import { mixed, type Colours } from './colours';
import { bodiesOf, boxOf, type Geometry } from './geometry';
import { barsBetween } from './in-sight';
import type { View } from './paint-ground';
import { fillShare, type Picture } from './picture';

export interface BarsOptions {
  /** Bars left out because they are drawn elsewhere. */
  readonly skip: (id: string) => boolean;
  readonly faded: (id: string) => boolean;
  readonly lit: (id: string) => boolean;
}

export function paintBars(
  context: CanvasRenderingContext2D,
  picture: Picture,
  geometry: Geometry,
  view: View,
  colours: Colours,
  { skip, faded, lit }: BarsOptions,
): void {
  const { section, concepts } = picture;
  const most = Math.max(0, ...concepts.map(({ traced }) => traced));
  const litColour = mixed(colours.raised, colours.sound, 0.45);
  const top = -view.y / view.zoom;
  for (const i of barsBetween(section, geometry, top, top + view.height / view.zoom)) {
    const bar = section.bars[i]!;
    if (skip(bar.id)) continue;
    const { traced } = concepts[i]!;
    const ground = lit(bar.id) ? litColour : colours.raised;
    context.globalAlpha = faded(bar.id) ? 0.22 : 1;
    const bodies = bodiesOf(bar, geometry);
    let filled =
      traced >= 0.5
        ? fillShare(traced, most) * bodies.reduce((sum, { width }) => sum + width, 0)
        : 0;
    for (const body of bodies) {
      const left = body.left * view.zoom + view.x;
      const width = body.width * view.zoom;
      const part = Math.min(filled, body.width);
      filled -= part;
      if (left > view.width || left + width < 0) continue;
      const y = body.top * view.zoom + view.y;
      const height = body.height * view.zoom;
      context.fillStyle = ground;
      context.fillRect(left, y, width, height);
      if (part > 0) {
        context.fillStyle = colours.miss2;
        context.fillRect(left, y, part * view.zoom, height);
      }
      if (height < 3) continue;
      context.strokeStyle = colours.ruleStrong;
      context.lineWidth = 0.7;
      context.strokeRect(left, y, width, height);
    }
    if (bodies.length === 1) continue;
    const box = boxOf(bar, geometry);
    const thread = box.height - bodies[0]!.height;
    const threadTop = bar.thread === 'above' ? box.top : box.top + box.height - thread;
    context.fillStyle = bodies[0]!.height * view.zoom < 3 ? ground : colours.ruleStrong;
    context.fillRect(
      box.left * view.zoom + view.x,
      threadTop * view.zoom + view.y,
      box.width * view.zoom,
      Math.max(0.35, thread * view.zoom),
    );
  }
  context.globalAlpha = 1;
}
