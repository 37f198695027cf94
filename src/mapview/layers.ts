/** The layers of the picture: elements of the host's size, one on another. */

/** A further layer on top, hidden from screen readers; `pointer` says whether it can be touched. */
export function addLayer<K extends 'canvas' | 'div'>(
  host: HTMLElement,
  tag: K,
  pointer: 'none' | 'auto',
): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  element.style.cssText = `position:absolute;inset:0;inline-size:100%;block-size:100%;pointer-events:${pointer}`;
  element.setAttribute('aria-hidden', 'true');
  host.append(element);
  return element;
}

/** The context of a canvas of this size, cleared, in CSS pixels. */
export function contextOf(
  canvas: HTMLCanvasElement,
  size: { readonly width: number; readonly height: number },
): CanvasRenderingContext2D | null {
  const ratio = Math.min(2, devicePixelRatio);
  const [width, height] = [Math.round(size.width * ratio), Math.round(size.height * ratio)];
  if (canvas.width !== width || canvas.height !== height) {
    canvas.width = width;
    canvas.height = height;
  }
  const context = canvas.getContext('2d');
  context?.setTransform(ratio, 0, 0, ratio, 0, 0);
  context?.clearRect(0, 0, size.width, size.height);
  return context;
}
