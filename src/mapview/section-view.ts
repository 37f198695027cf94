/**
 * The section on the screen, to be looked at and touched: cytoscape draws bars,
 * links and rays between two canvases of our own, the ground below and rings and
 * names above. Model in, callbacks out.
 *
 * cytoscape holds the bars near the screen that are high enough to be touched, and
 * the ends of links; all others are painted with the ground. So a map of many
 * thousand concepts opens as fast as one of some hundreds.
 *
 * Longer than a file should be: it keeps one thing, cytoscape's elements and view, in
 * step with picture, lens and highlight, and what can be worked out without it is elsewhere.
 */
import cytoscape from 'cytoscape';
import { readColours, type Colours } from './colours';
import { barElements, leastEdged, linkElements, shapeOf, type DrawnLink } from './elements';
import { boxOf, geometryOf, type Geometry, type Lens } from './geometry';
import { barsBetween, keptInFrame, nearestBar, rowAt } from './in-sight';
import { addLayer, contextOf } from './layers';
import { leastLetters } from './labels';
import { paintBars } from './paint-bars';
import { paintGround, paintScale, type View } from './paint-ground';
import { paintOver } from './paint-rings';
import type { Picture } from './picture';
import { styleOf } from './style';

export type { View } from './paint-ground';

export interface ViewCallbacks {
  /** A bar was tapped; undefined for the ground. */
  readonly onchoose: (id: string | undefined) => void;
  /** The bar under the pointer has changed; undefined for the ground. */
  readonly onhover: (id: string | undefined) => void;
  readonly onview: (view: View, geometry: Geometry) => void;
}

export interface Highlight {
  readonly chosen: string | undefined;
  /** What stays bright; undefined: everything. */
  readonly bright: ReadonlySet<string> | undefined;
  /** Lit in slate, such as the concepts of a discipline. */
  readonly lit: ReadonlySet<string> | undefined;
  readonly links: readonly DrawnLink[];
  /** Ids whose names are to be read where there is not room for all, most wanted first. */
  readonly wanted: readonly string[];
}

/** Width of the scale of depth, in CSS pixels. */
export const scaleWidth = 54;
const margin = 8;
const mostZoom = 4;
/** How far a pixel of the wheel zooms, as a logarithm: a notch of 120 px by a fifth. */
const wheelPerPx = 0.0015;
const pinchPerPx = 0.01;
/** The picture is at rest once it has not been moved for so long, as with cytoscape. */
const restMs = 180;
/** Zoomed in this far, the whole section gives way to rows that can all be read. */
const toNames = 1.35;
/** Zoomed out this far, they give way to the whole section again. */
const toWhole = 0.75;

const nothing: Highlight = {
  chosen: undefined,
  bright: undefined,
  lit: undefined,
  links: [],
  wanted: [],
};

export class SectionView {
  readonly #host: HTMLElement;
  readonly #under: HTMLCanvasElement;
  readonly #over: HTMLCanvasElement;
  readonly #cy: cytoscape.Core;
  readonly #callbacks: ViewCallbacks;
  #colours: Colours;
  #picture: Picture | undefined;
  #geometry: Geometry | undefined;
  #lens: Lens = { kind: 'whole' };
  #highlight = nothing;
  #frame = 0;
  #settling = false;
  #hasPainted = false;
  #pointer: { readonly x: number; readonly y: number } | undefined;
  /** What of the plane cytoscape holds the bars of: from top to bottom. */
  #held: readonly [number, number] | undefined;
  #movedAt = -Infinity;
  #restTimer = 0;
  readonly #watcher: ResizeObserver;

  /** @param host an empty element with a size of its own and `position: relative` */
  constructor(host: HTMLElement, callbacks: ViewCallbacks) {
    this.#host = host;
    this.#callbacks = callbacks;
    this.#colours = readColours(host);
    this.#under = addLayer(host, 'canvas', 'none');
    const middle = addLayer(host, 'div', 'auto');
    this.#over = addLayer(host, 'canvas', 'none');
    this.#cy = cytoscape({
      container: middle,
      style: styleOf(this.#colours),
      layout: { name: 'preset' },
      autoungrabify: true,
      boxSelectionEnabled: false,
      selectionType: 'single',
      maxZoom: mostZoom,
      minZoom: 1,
      // Panning moves one picture of the bars; the sharp one comes when it rests.
      textureOnViewport: true,
      hideEdgesOnViewport: false,
      pixelRatio: Math.min(2, devicePixelRatio),
    });
    this.#cy.on('tap', (event) => {
      const target = event.target as cytoscape.SingularElementReturnValue | cytoscape.Core;
      callbacks.onchoose(
        target === this.#cy
          ? this.#nearestTo(event.renderedPosition)
          : (target as cytoscape.NodeSingular).id(),
      );
    });
    let hovered: string | undefined;
    this.#cy.on('mousemove', (event) => {
      this.#pointer = event.renderedPosition;
      const id = this.#nearestTo(event.renderedPosition);
      if (id !== hovered) callbacks.onhover((hovered = id));
    });
    middle.addEventListener('pointerleave', () => {
      this.#pointer = undefined;
      callbacks.onhover((hovered = undefined));
    });
    this.#cy.on('viewport', () => {
      this.#movedAt = performance.now();
      this.#viewed();
    });
    host.addEventListener('wheel', this.#scroll, { capture: true, passive: false });
    let size = '';
    this.#watcher = new ResizeObserver(() => {
      const now = `${host.clientWidth} ${host.clientHeight}`;
      if (now === size) return;
      size = now;
      this.#cy.resize();
      this.#relay();
      if (this.#lens.kind === 'whole') this.#home(false);
      else this.#viewed();
    });
    this.#watcher.observe(host);
  }

  /**
   * A section taller than the picture is moved by the wheel like any page; with Ctrl, and
   * by two fingers, it is zoomed. Of the whole there is nothing to move: the wheel zooms.
   */
  readonly #scroll = (event: WheelEvent): void => {
    event.preventDefault();
    event.stopPropagation();
    const unit = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 16 : 1;
    if (!event.ctrlKey && this.#lens.kind !== 'whole') {
      this.#cy.panBy({ x: -event.deltaX * unit, y: -event.deltaY * unit });
      return;
    }
    // Browsers report two fingers drawn apart as a wheel with Ctrl, in steps of a few pixels.
    const perPx = event.ctrlKey && Math.abs(event.deltaY) < 50 ? pinchPerPx : wheelPerPx;
    const box = this.#host.getBoundingClientRect();
    this.#cy.zoom({
      level: this.#cy.zoom() * Math.exp(-event.deltaY * unit * perPx),
      renderedPosition: { x: event.clientX - box.left, y: event.clientY - box.top },
    });
  };

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
    this.#measure();
    this.#cy.elements().remove();
    this.#held = undefined;
    if (first) {
      this.#settling = true;
      this.#home(false);
      this.#settling = false;
    }
    this.#mark();
    this.#viewed();
  }

  highlight(highlight: Highlight): void {
    const before = this.#highlight.wanted;
    this.#highlight = highlight;
    if (!this.#picture) return;
    // Names wanted elsewhere: other rows swell.
    if (this.#lens.kind !== 'names' && before.join(' ') !== highlight.wanted.join(' ')) {
      this.#relay();
      this.#viewed();
    } else this.#mark();
    this.#repaint();
  }

  /** Bars cytoscape is to hold: those near the screen that are no mere lines, and ends of links. */
  #hold(): void {
    const picture = this.#picture;
    const geometry = this.#geometry;
    if (!picture || !geometry) return;
    const { y, zoom, height } = this.view;
    const [top, bottom] = [-y / zoom, (height - y) / zoom];
    // A screen more above and below, so that it changes seldom.
    const reach = bottom - top;
    this.#held = [top - reach, bottom + reach];
    const { bars } = picture.section;
    const ends = new Set(this.#highlight.links.flatMap(({ from, to }) => [from, to]));
    const wanted = new Set(
      barsBetween(picture.section, geometry, ...this.#held).filter(
        (i) => geometry.bodyHeight[bars[i]!.row]! >= leastEdged,
      ),
    );
    bars.forEach(({ id }, i) => {
      if (ends.has(id) || id === this.#highlight.chosen) wanted.add(i);
    });
    const ids = new Set(Array.from(wanted, (i) => bars[i]!.id));
    this.#cy
      .nodes()
      .filter((node) => !ids.has(node.id()))
      .remove();
    const added = [...wanted].filter((i) => this.#cy.getElementById(bars[i]!.id).empty());
    this.#cy.add(barElements(picture, geometry, this.#colours, added));
  }

  /** Colours of bars and the links drawn, as highlighted. */
  #mark(): void {
    const geometry = this.#geometry;
    if (!this.#picture || !geometry) return;
    const { bright, lit, chosen, links } = this.#highlight;
    const bars = new Map(this.#picture.section.bars.map((bar) => [bar.id, bar]));
    this.#cy.batch(() => {
      this.#cy.edges().remove();
      this.#hold();
      this.#cy.add(linkElements(links, (id) => bars.get(id), geometry));
      this.#cy.nodes().forEach((node) => {
        const id = node.id();
        node.toggleClass('faded', bright !== undefined && !bright.has(id));
        node.toggleClass('lit', lit?.has(id) ?? false);
        node.toggleClass('chosen', id === chosen);
      });
    });
  }

  #measure(): Geometry {
    if (!this.#picture) throw new RangeError('SectionView: got no picture; need one to be shown');
    const room = {
      width: Math.max(200, this.#host.clientWidth - scaleWidth - 2 * margin),
      height: Math.max(120, this.#host.clientHeight - 2 * margin),
    };
    return (this.#geometry = geometryOf(this.#picture, room, this.#lens, this.#highlight.wanted));
  }

  /** Moves the bars to where they lie now: another lens, another size, other names wanted. */
  #relay(): void {
    const { section } = this.#picture ?? {};
    if (!section) return;
    const geometry = this.#measure();
    const bars = new Map(section.bars.map((bar) => [bar.id, bar]));
    this.#cy.batch(() => {
      this.#cy.nodes().forEach((node) => {
        const bar = bars.get(node.id());
        if (!bar) return;
        const { data, position } = shapeOf(bar, geometry);
        node.data(data);
        node.position(position);
      });
    });
    this.#mark();
  }

  /** The colours of the page have changed. */
  recolour(): void {
    this.#colours = readColours(this.#host);
    this.#cy.style(styleOf(this.#colours));
    if (this.#picture) this.show(this.#picture);
  }

  /** Changes the lens; the row under the pointer, or in the middle, stays there, unless it goes home. */
  look(lens: Lens, at: 'home' | 'here' = 'home'): void {
    const before = this.#geometry;
    const { x, y, zoom, width, height } = this.view;
    this.#lens = lens;
    // Farther than the whole there is nothing to see.
    this.#cy.minZoom(lens.kind === 'names' ? toWhole : 1);
    if (!this.#picture || !before) return;
    const anchor = this.#pointer ?? { x: width / 2, y: height / 2 };
    const row = rowAt(before, (anchor.y - y) / zoom);
    const shareX = (anchor.x - x) / zoom / before.width;
    this.#settling = true;
    this.#relay();
    if (at === 'home') this.#home(false);
    else {
      const after = this.#geometry!;
      const middle = after.rowTop[row]! + after.rowHeight[row]! / 2;
      // Coming nearer, columns keep the width the zoom had given them.
      const next = lens.kind === 'names' ? Math.max(1, zoom / toNames) : 1;
      this.#moveTo(
        next,
        lens.kind === 'whole'
          ? { x: scaleWidth + margin, y: margin }
          : { x: anchor.x - shareX * after.width * next, y: anchor.y - middle * next },
        false,
      );
    }
    this.#settling = false;
    this.#viewed();
  }

  get lens(): Lens['kind'] {
    return this.#lens.kind;
  }

  /** Brings a bar into the middle, at least so near that its name can be read. */
  goTo(id: string, glide = true): void {
    const bar = this.#picture?.section.bars.find((each) => each.id === id);
    if (!bar || !this.#geometry) return;
    const zoom = this.#cy.zoom();
    if (this.#geometry.bodyHeight[bar.row]! * zoom < leastLetters && this.#lens.kind !== 'names') {
      this.look({ kind: 'names' });
    }
    const box = boxOf(bar, this.#geometry);
    const room = this.#host.clientWidth - scaleWidth;
    // A bar wider than the screen begins at its left edge.
    const left =
      box.width * zoom > room ? scaleWidth + margin : scaleWidth + (room - box.width * zoom) / 2;
    const y = this.#host.clientHeight / 2 - (box.top + box.height / 2) * zoom;
    const fits = this.#geometry.width * zoom <= room;
    this.#moveTo(
      zoom,
      { x: fits ? scaleWidth + margin : left - box.left * zoom, y: Math.min(margin, y) },
      glide,
    );
  }

  #nearestTo(at: { readonly x: number; readonly y: number }): string | undefined {
    if (!this.#picture || !this.#geometry) return undefined;
    return nearestBar(this.#picture.section, this.#geometry, this.view, at);
  }

  /** Whether a bar is in sight and its name can be read. */
  isLegible(id: string): boolean {
    const bar = this.#picture?.section.bars.find((each) => each.id === id);
    if (!bar || !this.#geometry) return false;
    const { zoom, x, y, width, height } = this.view;
    if (this.#geometry.bodyHeight[bar.row]! * zoom < leastLetters) return false;
    const box = boxOf(bar, this.#geometry);
    const top = box.top * zoom + y;
    const left = box.left * zoom + x;
    const right = left + box.width * zoom;
    return (
      top > 0 && top + box.height * zoom < height && right > scaleWidth + 30 && left < width - 30
    );
  }

  zoomBy(factor: number): void {
    const { width, height, zoom } = this.view;
    if (factor < 1 && zoom * factor < toWhole && this.#lens.kind === 'names') {
      this.look({ kind: 'whole' });
      return;
    }
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
    if (!this.#geometry) return;
    const { width, height } = this.#geometry;
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
    clearTimeout(this.#restTimer);
    this.#host.removeEventListener('wheel', this.#scroll, { capture: true });
    this.#watcher.disconnect();
    cancelAnimationFrame(this.#frame);
    this.#cy.destroy();
    this.#host.replaceChildren();
  }

  /** The section from its top left, as large as it is laid out. */
  #home(glide: boolean): void {
    this.#moveTo(1, { x: scaleWidth + margin, y: margin }, glide);
  }

  #moveTo(zoom: number, pan: { x: number; y: number }, glide: boolean): void {
    const still = !glide || matchMedia('(prefers-reduced-motion: reduce)').matches;
    this.#cy.stop();
    if (still) this.#cy.viewport({ zoom, pan });
    else this.#cy.animate({ zoom, pan, duration: 250, easing: 'ease-out' });
  }

  #viewed(): void {
    if (!this.#settling) this.#changeLensByZoom();
    this.#keepInSight();
    const { y, zoom, height } = this.view;
    const [from, to] = this.#held ?? [0, 0];
    if (!this.#settling && (-y / zoom < from || (height - y) / zoom > to)) this.#mark();
    this.#repaint();
    clearTimeout(this.#restTimer);
    this.#restTimer = window.setTimeout(() => this.#repaint(), restMs + 20);
    if (this.#geometry) this.#callbacks.onview(this.view, this.#geometry);
  }

  /** Zooming goes from the whole section to rows that can all be read, and back. */
  #changeLensByZoom(): void {
    const zoom = this.#cy.zoom();
    if (this.#lens.kind === 'whole' && zoom >= toNames && !this.#isAllLegible()) {
      this.look({ kind: 'names' }, 'here');
    } else if (this.#lens.kind === 'names' && zoom <= toWhole + 0.01) {
      this.look({ kind: 'whole' });
    }
  }

  #isAllLegible(): boolean {
    return this.#geometry?.bodyHeight.every((height) => height * toNames >= leastLetters) ?? false;
  }

  /** The section keeps to the picture like a sheet to its frame: none of its edges comes inside. */
  #keepInSight(): void {
    const size = this.#geometry;
    if (!size || this.#settling) return;
    const view = this.view;
    if (view.width === 0 || view.height === 0) return;
    const kept = keptInFrame(size, view, { x: scaleWidth + margin, y: margin }, margin);
    if (kept.x === view.x && kept.y === view.y) return;
    this.#settling = true;
    this.#cy.pan(kept);
    this.#settling = false;
  }

  #repaint(): void {
    cancelAnimationFrame(this.#frame);
    // At first cytoscape has a frame to itself: both together would hold the page up.
    this.#frame = requestAnimationFrame(() => {
      if (this.#hasPainted) this.#paint();
      else this.#frame = requestAnimationFrame(() => this.#paint());
      this.#hasPainted = true;
    });
  }

  #paint(): void {
    const picture = this.#picture;
    const geometry = this.#geometry;
    if (!picture || !geometry) return;
    const view = this.view;
    const under = contextOf(this.#under, view);
    const over = contextOf(this.#over, view);
    if (!under || !over) return;
    paintGround(under, picture, geometry, view, this.#colours);
    const { bright, lit } = this.#highlight;
    const faded = (id: string) => bright !== undefined && !bright.has(id);
    // While it is moved, cytoscape shows what was in sight before: the rest is painted.
    const moving = performance.now() - this.#movedAt < restMs;
    paintBars(under, picture, geometry, view, this.#colours, {
      skip: (id) => !moving && this.#cy.getElementById(id).nonempty(),
      faded,
      lit: (id) => lit?.has(id) ?? false,
    });
    paintOver(over, picture, geometry, view, this.#colours, {
      faded,
      left: scaleWidth,
      chosen: this.#highlight.chosen,
    });
    paintScale(over, picture, geometry, view, this.#colours, scaleWidth);
  }
}
