/** The section as a picture to keep: SVG, PNG, one page of paper. */
import { groundOf, readColours, type Colours } from './colours';
import { bodiesOf, boxOf, geometryOf, outlineOf, ringStep, type Geometry } from './geometry';
import { labelsOf, type Measure } from './labels';
import { edgeOf, edgeSteps, fillShare, ringsOf, ringSteps, type Picture } from './picture';

/** Width of a column of the picture to keep, in CSS pixels: room for most names. */
const keptColumn = 150;
/** What A4 and Letter, on their side, both hold inside margins of 8 mm, in CSS pixels. */
const page = { width: 990, height: 700 };

const scaleRoom = 52;
const headHeight = 30;
const footHeight = 22;

const escaped = (text: string) => text.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);

/**
 * The whole section with heads, scale and legend, as one SVG document in which every
 * name can be read: wide columns, each row at full height.
 */
export function pictureAsSvg(picture: Picture, within: HTMLElement): string {
  const width = picture.section.columns.length * keptColumn;
  const geometry = geometryOf(picture, { width, height: 0 }, { kind: 'names' });
  return svgOf(picture, geometry, readColours(within));
}

/** The section as it goes on one page: all of it, what matters most with its name. */
export function pictureForPage(picture: Picture, within: HTMLElement): string {
  const room = {
    width: page.width - scaleRoom,
    height: page.height - headHeight - footHeight,
  };
  const geometry = geometryOf(picture, room, { kind: 'whole' });
  return svgOf(picture, geometry, readColours(within));
}

function svgOf(picture: Picture, geometry: Geometry, colours: Colours): string {
  const { section, concepts } = picture;
  const width = geometry.width + scaleRoom + 4;
  const height = geometry.height + headHeight + footHeight;
  const parts: string[] = [];
  const deepest = Math.max(1, section.bands.length - 1);
  const at = (value: number) => value.toFixed(2);
  const text = (x: number, y: number, size: number, content: string, more = '') =>
    parts.push(
      `<text x="${at(x)}" y="${at(y)}" font-size="${at(size)}" fill="${colours.ink}" ${more}>${escaped(content)}</text>`,
    );

  let namedTo = -Infinity;
  section.bands.forEach(({ depth }, k) => {
    const [top, bottom] = [geometry.bandTop[k]!, geometry.bandTop[k + 1]!];
    parts.push(
      `<rect x="0" y="${at(top)}" width="${at(geometry.width)}" height="${at(bottom - top)}" fill="${groundOf(colours, depth, deepest)}" stroke="${colours.ruleStrong}" stroke-width="0.6"/>`,
    );
    const middle = (top + bottom) / 2;
    if (middle - 6 < namedTo) return;
    namedTo = middle + 6;
    text(-5, middle + 4, 11, depth === 0 ? 'surface' : String(depth), 'text-anchor="end"');
  });
  picture.heads.forEach((head, column) => {
    const [left, right] = [geometry.columnLeft[column]!, geometry.columnLeft[column + 1]!];
    parts.push(
      `<line x1="${at(left)}" x2="${at(left)}" y1="${-headHeight + 6}" y2="${at(geometry.height)}" stroke="${colours.rule}" stroke-width="0.75"/>`,
    );
    text((left + right) / 2, -8, Math.min(14, (right - left) / 6.4), head, 'text-anchor="middle"');
  });

  const most = Math.max(0, ...concepts.map(({ traced }) => traced));
  section.bars.forEach((bar, i) => {
    const concept = concepts[i]!;
    const box = boxOf(bar, geometry);
    const outline = outlineOf(bar, geometry);
    const points: string[] = [];
    for (let k = 0; k < outline.length; k += 2) {
      const x = box.left + ((outline[k]! + 1) / 2) * box.width;
      const y = box.top + ((outline[k + 1]! + 1) / 2) * box.height;
      points.push(`${at(x)},${at(y)}`);
    }
    const bodies = bodiesOf(bar, geometry);
    const edge = edgeOf(concept.gapChance);
    const stroke = edge === 'thin' ? colours.ruleStrong : colours.miss4;
    const dash = edge === 'broken' ? ' stroke-dasharray="4 2"' : '';
    const strokeWidth = bodies[0]!.height < 3 ? 0 : { thin: 0.6, broken: 1.2, heavy: 2 }[edge];
    parts.push(
      `<polygon points="${points.join(' ')}" fill="${colours.raised}" stroke="${stroke}" stroke-width="${strokeWidth}"${dash}><title>${escaped(`${concept.name}: ${concept.traced.toFixed(1)} traced misses`)}</title></polygon>`,
    );
    const rings = ringsOf(concept.traced);
    const bodyWidth = bodies.reduce((sum, body) => sum + body.width, 0);
    let filled = concept.traced >= 0.5 ? fillShare(concept.traced, most) * bodyWidth : 0;
    for (const body of bodies) {
      const part = Math.min(filled, body.width);
      filled -= part;
      if (part > 0)
        parts.push(
          `<rect x="${at(body.left)}" y="${at(body.top)}" width="${at(part)}" height="${at(body.height)}" fill="${colours.miss2}"/>`,
        );
      for (let ring = 1; ring <= rings; ring++) {
        const out = ringStep * ring - 0.4;
        parts.push(
          `<rect x="${at(body.left - out)}" y="${at(body.top - out)}" width="${at(body.width + 2 * out)}" height="${at(body.height + 2 * out)}" rx="${at(1 + out)}" fill="none" stroke="${colours.miss4}" stroke-width="${at(0.7 + (rings - ring) * 0.35)}"/>`,
        );
      }
    }
  });
  const view = { zoom: 1, x: 0, y: 0, width: geometry.width, height: geometry.height };
  const options = { left: 0, chosen: undefined, faded: () => false };
  for (const label of labelsOf(picture, geometry, view, measureByCanvas(), options)) {
    const baseline = (label.top + label.bottom) / 2 + label.size * 0.34;
    if (label.kind === 'over')
      parts.push(
        `<rect x="${at(label.left)}" y="${at(label.top)}" width="${at(label.right - label.left)}" height="${at(label.bottom - label.top)}" rx="2" fill="${colours.raised}" stroke="${colours.missInk}" stroke-width="0.75"/>`,
      );
    const x = label.left + (label.kind === 'over' ? 4 : 0);
    text(x, baseline, label.size, label.text, `font-weight="${label.weight}"`);
  }
  text(
    0,
    geometry.height + 15,
    11,
    `As wide as the systems a concept is seen in, as deep as what rests on it; a thread passes a system it is not seen in. Rings: ${ringSteps.join(', ')} traced misses and more; fill: against the most. Edge: gap chance from ${edgeSteps.broken * 100} % broken, from ${edgeSteps.heavy * 100} % heavy.`,
  );
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="${-scaleRoom} ${-headHeight} ${at(width)} ${at(height)}" width="${at(width)}" height="${at(height)}" font-family="'Source Serif 4 Variable', 'Source Serif 4', Georgia, serif"><rect x="${-scaleRoom}" y="${-headHeight}" width="${at(width)}" height="${at(height)}" fill="${colours.paper}"/>${parts.join('\n')}</svg>`;
}

function measureByCanvas(): Measure {
  const context = document.createElement('canvas').getContext('2d');
  return (text, size, weight) => {
    if (!context) return text.length * size * 0.5;
    context.font = `${weight} 100px "Source Serif 4 Variable", Georgia, serif`;
    return (context.measureText(text).width / 100) * size;
  };
}

/** The same as a PNG, drawn by the browser from the SVG. */
export async function pictureAsPng(picture: Picture, within: HTMLElement): Promise<Blob> {
  const svg = pictureAsSvg(picture, within);
  const image = new Image();
  const url = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  try {
    image.src = url;
    await image.decode();
    const canvas = document.createElement('canvas');
    // Twice as fine as the plane; canvases beyond some 16,000 pixels a side are refused by browsers.
    const scale = Math.min(2, 16_000 / Math.max(image.width, image.height));
    canvas.width = Math.round(image.width * scale);
    canvas.height = Math.round(image.height * scale);
    canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise((resolve, reject) =>
      canvas.toBlob((blob) =>
        blob ? resolve(blob) : reject(new Error('the browser gave no picture')),
      ),
    );
  } finally {
    URL.revokeObjectURL(url);
  }
}

/** Prints the section alone, on one page across. */
export function printPicture(picture: Picture): Promise<void> {
  const sheet = document.createElement('div');
  sheet.className = 'map-sheet';
  const style = document.createElement('style');
  style.textContent =
    '.map-sheet{display:none}@media print{@page{size:landscape;margin:8mm}body>*:not(.map-sheet){display:none!important}.map-sheet{display:block}.map-sheet svg{inline-size:100%;block-size:auto;max-block-size:96vh}}';
  const light = document.createElement('div');
  light.style.colorScheme = 'light';
  document.body.append(light);
  sheet.innerHTML = pictureForPage(picture, light);
  light.remove();
  document.head.append(style);
  document.body.append(sheet);
  return new Promise((resolve) => {
    addEventListener(
      'afterprint',
      () => {
        sheet.remove();
        style.remove();
        resolve();
      },
      { once: true },
    );
    print();
  });
}
