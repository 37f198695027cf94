/** The section as a picture to keep: SVG, PNG, one page of paper. */
import { groundOf, readColours, type Colours } from './colours';
import {
  bodiesOf,
  boxOf,
  columnWidth,
  edgeOf,
  fillShare,
  outlineOf,
  ringsOf,
  rowTop,
  sectionSize,
  type Picture,
} from './picture';

const headHeight = 60;
const footHeight = 90;
const scaleRoom = 110;

const escaped = (text: string) => text.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);

/**
 * The whole section with heads, scale and legend, as one SVG document in units of
 * the drawing plane. Names are cut to the width of their bar.
 */
export function pictureAsSvg(picture: Picture, within: HTMLElement): string {
  return svgOf(picture, readColours(within));
}

function svgOf(picture: Picture, colours: Colours): string {
  const { section } = picture;
  const size = sectionSize(section);
  const width = size.width + scaleRoom + 20;
  const height = size.height + headHeight + footHeight;
  const parts: string[] = [];
  const deepest = Math.max(1, section.bands.length - 1);
  const text = (x: number, y: number, fontSize: number, content: string, more = '') =>
    parts.push(
      `<text x="${x}" y="${y}" font-size="${fontSize}" fill="${colours.ink}" ${more}>${escaped(content)}</text>`,
    );

  section.bands.forEach(({ depth, firstRow }) => {
    const top = rowTop(depth, firstRow) - 10;
    parts.push(
      `<rect x="0" y="${top}" width="${size.width}" height="${size.height - top}" fill="${groundOf(colours, depth, deepest)}" stroke="${colours.ruleStrong}"/>`,
    );
    text(-12, top + 28, 24, depth === 0 ? 'surface' : String(depth), 'text-anchor="end"');
  });
  picture.heads.forEach((head, column) => {
    parts.push(
      `<line x1="${column * columnWidth}" x2="${column * columnWidth}" y1="-40" y2="${size.height}" stroke="${colours.rule}"/>`,
    );
    text((column + 0.5) * columnWidth, -16, 30, head, 'text-anchor="middle"');
  });
  const most = Math.max(0, ...picture.concepts.map(({ traced }) => traced));
  section.bars.forEach((bar, i) => {
    const concept = picture.concepts[i]!;
    const box = boxOf(bar);
    const outline = outlineOf(bar);
    const points: string[] = [];
    for (let k = 0; k < outline.length; k += 2) {
      const x = box.left + ((outline[k]! + 1) / 2) * box.width;
      const y = box.top + ((outline[k + 1]! + 1) / 2) * box.height;
      points.push(`${x.toFixed(1)},${y.toFixed(1)}`);
    }
    const edge = edgeOf(concept.gapChance);
    const stroke = edge === 'thin' ? colours.ruleStrong : colours.miss4;
    const dash = edge === 'broken' ? ' stroke-dasharray="6 3"' : '';
    parts.push(
      `<polygon points="${points.join(' ')}" fill="${colours.raised}" stroke="${stroke}" stroke-width="${edge === 'heavy' ? 2.4 : 0.8}"${dash}><title>${escaped(`${concept.name}: ${concept.traced.toFixed(1)} traced misses`)}</title></polygon>`,
    );
    const bodies = bodiesOf(bar);
    const rings = ringsOf(concept.traced);
    let filled =
      concept.traced >= 0.5
        ? fillShare(concept.traced, most) * bodies.reduce((sum, body) => sum + body.width, 0)
        : 0;
    for (const body of bodies) {
      const part = Math.min(filled, body.width);
      filled -= part;
      if (part > 0)
        parts.push(
          `<rect x="${body.left}" y="${body.top}" width="${part.toFixed(1)}" height="${body.height}" fill="${colours.miss2}"/>`,
        );
      for (let ring = 1; ring <= rings; ring++) {
        const out = 5 * ring;
        parts.push(
          `<rect x="${body.left - out}" y="${body.top - out}" width="${body.width + 2 * out}" height="${body.height + 2 * out}" rx="6" fill="none" stroke="${colours.miss4}" stroke-width="${1 + (rings - ring) * 0.6}"/>`,
        );
      }
    }
    const widest = bodies.reduce((best, body) => (body.width > best.width ? body : best));
    // About half the height a letter: common practice for a text face, no source.
    const letters = Math.floor((widest.width - 10) / 4);
    const name =
      concept.traced >= 1 ? `${concept.name} ${Math.round(concept.traced)}` : concept.name;
    text(
      widest.left + 5,
      widest.top + 7.8,
      8,
      name.length > letters ? `${name.slice(0, letters - 1)}…` : name,
    );
  });
  text(
    0,
    size.height + 45,
    26,
    'As wide as the systems a concept is seen in, as deep as what rests on it. Rings and fill: traced misses (1, 4, 10 and more). Edge: gap chance from 50 % broken, from 90 % heavy.',
  );
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="${-scaleRoom} ${-headHeight} ${width} ${height}" width="${width}" height="${height}" font-family="'Source Serif 4 Variable', Georgia, serif"><rect x="${-scaleRoom}" y="${-headHeight}" width="${width}" height="${height}" fill="${colours.paper}"/>${parts.join('\n')}</svg>`;
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
    // Canvases beyond some 16,000 pixels a side are refused by browsers.
    const scale = Math.min(1, 16_000 / Math.max(image.width, image.height));
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
  sheet.innerHTML = svgOf(picture, readColours(light));
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
