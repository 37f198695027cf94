/**
 * The section on the screen, to be looked at and touched: cytoscape draws bars,
 * links and rays between two canvases of our own, the ground below and rings and
 * names above. Model in, callbacks out.
 */
import cytoscape from 'cytoscape';
import { readColours, type Colours } from './colours';
import { barElements, linkElements, type DrawnLink } from './elements';
import { paintGround, paintScale, type View } from './paint-ground';
import { paintOver } from './paint-rings';
import { boxOf, columnWidth, sectionSize, type Picture } from './picture';
import { leastNameSize, nameSize, namesAt, styleOf } from './style';

export type { View } from './paint-ground';

export interface ViewCallbacks {
  /** A bar was tapped; undefined for the ground. */
  readonly onchoose: (id: string | undefined) => void;
  readonly onview: (view: View) => void;
}

export interface Highlight {
  readonly chosen: string | undefined;
  /** What stays bright; undefined: everything. */
  readonly bright: ReadonlySet<string> | undefined;
  /** Lit in slate, such as the concepts of a discipline. */
  readonly lit: ReadonlySet<string> | undefined;
  readonly links: readonly DrawnLink[];
}

/** Width of the scale of depth, in CSS pixels. */
export const scaleWidth = 56;
const margin = 10;
const mostZoom = 3.2;

const nothing: Highlight = { chosen: undefined, bright: undefined, lit: undefined, links: [] };

export class SectionView {
  readonly #host: HTMLElement;
  readonly #under: HTMLCanvasElement;
  readonly #over: HTMLCanvasElement;
  readonly #cy: cytoscape.Core;
  readonly #callbacks: ViewCallbacks;
  #colours: Colours;
  #picture: Picture | undefined;
  #highlight = nothing;
  #frame = 0;
  #settling = false;
  readonly #watcher: ResizeObserver;

  /** @param host an empty element with a size of its own and `position: relative` */
  constructor(host: HTMLElement, callbacks: ViewCallbacks) {
    this.#host = host;
    this.#callbacks = callbacks;
    this.#colours = readColours(host);
    this.#under = this.#layer('canvas', 'none');
    const middle = this.#layer('div', 'auto');
    this.#over = this.#layer('canvas', 'none');
    this.#cy = cytoscape({
      container: middle,
      style: styleOf(this.#colours),
      layout: { name: 'preset' },
      autoungrabify: true,
      boxSelectionEnabled: false,
      selectionType: 'single',
      maxZoom: mostZoom,
      minZoom: 0.02,
      // Panning moves one picture of the bars; the sharp one comes when it rests.
      textureOnViewport: true,
      hideEdgesOnViewport: false,
      pixelRatio: Math.min(2, devicePixelRatio),
    });
    this.#cy.on('tap', (event) => {
      const target = event.target as cytoscape.SingularElementReturnValue | cytoscape.Core;
      const id = target === this.#cy ? undefined : (target as cytoscape.NodeSingular).id();
      callbacks.onchoose(id);
    });
    this.#cy.on('viewport', () => this.#viewed());
    this.#watcher = new ResizeObserver(() => {
      this.#cy.resize();
      this.#viewed();
    });
    this.#watcher.observe(host);
  }

  #layer<K extends 'canvas' | 'div'>(tag: K, pointer: 'none' | 'auto'): HTMLElementTagNameMap[K] {
    const element = document.createElement(tag);
    element.style.cssText = `position:absolute;inset:0;inline-size:100%;block-size:100%;pointer-events:${pointer}`;
    element.setAttribute('aria-hidden', 'true');
    this.#host.append(element);
    return element;
  }

  get view(): View {
    const { x, y } = this.#cy.pan();
    return {
      zoom: this.#cy.zoom(),
      x,
      y,
      width: this.#host.clientWidth,
      height: this.#host.clientHeight,
    };
  }

  /** Draws a section in place of the one before; the view stays where it is. */
  show(picture: Picture): void {
    const first = this.#picture === undefined;
    this.#picture = picture;
    this.#cy.batch(() => {
      this.#cy.elements().remove();
      this.#cy.add(barElements(picture, this.#colours));
    });
    if (first) this.fitAll(false);
    this.highlight(this.#highlight);
    this.#viewed();
  }

  highlight(highlight: Highlight): void {
    this.#highlight = highlight;
    const { section } = this.#picture ?? {};
    if (!section) return;
    const bars = new Map(section.bars.map((bar) => [bar.id, bar]));
    this.#cy.batch(() => {
      this.#cy.edges().remove();
      this.#cy.add(linkElements(highlight.links, (id) => bars.get(id)));
      this.#cy.nodes().forEach((node) => {
        const id = node.id();
        node.toggleClass('faded', highlight.bright !== undefined && !highlight.bright.has(id));
        node.toggleClass('lit', highlight.lit?.has(id) ?? false);
        node.toggleClass('chosen', id === highlight.chosen);
      });
    });
    this.#repaint();
  }

  /** The colours of the page have changed. */
  recolour(): void {
    this.#colours = readColours(this.#host);
    this.#cy.style(styleOf(this.#colours));
    if (this.#picture) this.show(this.#picture);
  }

  fitAll(glide = true): void {
    if (!this.#picture) return;
    const { width, height } = sectionSize(this.#picture.section);
    this.#showPlane({ left: 0, top: 0, width, height }, glide);
  }

  /** Brings a column to the full width, from the surface down. */
  fitColumn(column: number): void {
    const zoom = Math.min(
      1.6,
      (this.#host.clientWidth - scaleWidth - 2 * margin) / (columnWidth * 1.15),
    );
    const x = scaleWidth + margin - (column * columnWidth - columnWidth * 0.05) * zoom;
    this.#moveTo(zoom, { x, y: 0 }, true);
  }

  /** Brings a bar into the middle, at least so near that its name can be read. */
  goTo(id: string, glide = true): void {
    const bar = this.#picture?.section.bars.find((each) => each.id === id);
    if (!bar) return;
    const box = boxOf(bar);
    const zoom = Math.max(this.#cy.zoom(), 1.45);
    const room = this.#host.clientWidth - scaleWidth;
    // A bar wider than the screen begins at its left edge.
    const left =
      box.width * zoom > room ? scaleWidth + margin : scaleWidth + (room - box.width * zoom) / 2;
    const y = this.#host.clientHeight / 2 - (box.top + box.height / 2) * zoom;
    this.#moveTo(zoom, { x: left - box.left * zoom, y }, glide);
  }

  /** Whether a bar is in sight and its name can be read. */
  isLegible(id: string): boolean {
    const bar = this.#picture?.section.bars.find((each) => each.id === id);
    if (!bar || this.#cy.zoom() * nameSize < leastNameSize) return false;
    const box = boxOf(bar);
    const { zoom, x, y, width, height } = this.view;
    const top = box.top * zoom + y;
    const left = box.left * zoom + x;
    const right = left + box.width * zoom;
    return (
      top > 0 && top + box.height * zoom < height && right > scaleWidth + 60 && left < width - 60
    );
  }

  zoomBy(factor: number): void {
    const { width, height, zoom } = this.view;
    this.#cy.zoom({
      level: zoom * factor,
      renderedPosition: { x: (width + scaleWidth) / 2, y: height / 2 },
    });
  }

  panBy(x: number, y: number): void {
    this.#cy.panBy({ x, y });
  }

  /** Puts a place of the plane, as shares of its width and height, into the middle. */
  centreOn(shareX: number, shareY: number): void {
    if (!this.#picture) return;
    const { width, height } = sectionSize(this.#picture.section);
    const zoom = this.#cy.zoom();
    this.#moveTo(
      zoom,
      {
        x: this.#host.clientWidth / 2 - shareX * width * zoom,
        y: this.#host.clientHeight / 2 - shareY * height * zoom,
      },
      false,
    );
  }

  destroy(): void {
    this.#watcher.disconnect();
    cancelAnimationFrame(this.#frame);
    this.#cy.destroy();
    this.#host.replaceChildren();
  }

  #showPlane(
    plane: { left: number; top: number; width: number; height: number },
    glide: boolean,
  ): void {
    const room = {
      width: this.#host.clientWidth - scaleWidth - 2 * margin,
      height: this.#host.clientHeight - 2 * margin,
    };
    if (room.width <= 0 || room.height <= 0) return;
    const zoom = Math.min(1.6, room.width / plane.width, room.height / plane.height);
    const x = scaleWidth + margin + (room.width - plane.width * zoom) / 2 - plane.left * zoom;
    this.#moveTo(zoom, { x, y: margin - plane.top * zoom }, glide);
  }

  #moveTo(zoom: number, pan: { x: number; y: number }, glide: boolean): void {
    const still = !glide || matchMedia('(prefers-reduced-motion: reduce)').matches;
    this.#cy.stop();
    if (still) this.#cy.viewport({ zoom, pan });
    else this.#cy.animate({ zoom, pan, duration: 250, easing: 'ease-out' });
  }

  #viewed(): void {
    this.#keepInSight();
    this.#repaint();
    this.#callbacks.onview(this.view);
  }

  /** The section cannot be pushed off the screen: a third of the screen always shows it. */
  #keepInSight(): void {
    if (!this.#picture || this.#settling) return;
    const { zoom, x, y, width, height } = this.view;
    if (width === 0 || height === 0) return;
    const size = sectionSize(this.#picture.section);
    const clamp = (at: number, length: number, room: number) =>
      Math.min(room * 0.66, Math.max(room * 0.33 - length, at));
    const kept = {
      x: clamp(x, size.width * zoom, width),
      y: clamp(y, size.height * zoom, height),
    };
    if (kept.x === x && kept.y === y) return;
    this.#settling = true;
    this.#cy.pan(kept);
    this.#settling = false;
  }

  #repaint(): void {
    cancelAnimationFrame(this.#frame);
    this.#frame = requestAnimationFrame(() => {
      const picture = this.#picture;
      if (!picture) return;
      const view = this.view;
      const under = contextOf(this.#under, view);
      const over = contextOf(this.#over, view);
      if (!under || !over) return;
      paintGround(under, picture, view, this.#colours);
      const { bright } = this.#highlight;
      paintOver(over, picture, view, this.#colours, {
        faded: (id) => bright !== undefined && !bright.has(id),
        names: namesAt(view.zoom),
        left: scaleWidth,
        chosen: this.#highlight.chosen,
      });
      paintScale(over, picture, view, this.#colours, scaleWidth);
    });
  }
}

/** The context of a canvas of the view's size, cleared, in CSS pixels. */
function contextOf(canvas: HTMLCanvasElement, view: View): CanvasRenderingContext2D | null {
  const ratio = Math.min(2, devicePixelRatio);
  const [width, height] = [Math.round(view.width * ratio), Math.round(view.height * ratio)];
  if (canvas.width !== width || canvas.height !== height) {
    canvas.width = width;
    canvas.height = height;
  }
  const context = canvas.getContext('2d');
  context?.setTransform(ratio, 0, 0, ratio, 0, 0);
  context?.clearRect(0, 0, view.width, view.height);
  return context;
}
