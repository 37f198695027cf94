/** Names on the section: none meets another at any zoom; what can be read at once. */
import { describe, expect, it } from 'vitest';
import { layOutSection, type SectionConcept } from '../../../src/engine';
import { randomFrom } from '../../../src/engine/numeric/random';
import { bodiesOf, geometryOf, type Lens } from '../../../src/mapview/geometry';
import { labelsOf, leastLetters, type Label, type Measure } from '../../../src/mapview/labels';
import { ringsOf, type Picture } from '../../../src/mapview/picture';

/** Wider than a text face is, so that what fits here fits on paper. */
const measure: Measure = (text, size, weight) => text.length * size * (weight > 400 ? 0.54 : 0.5);

function picker(seed: number) {
  const random = randomFrom(seed);
  return (below: number) => Math.floor(random.uniform() * below);
}

function pictureOf(systems: readonly string[], concepts: readonly SectionConcept[]): Picture {
  const section = layOutSection(systems, concepts);
  return {
    section,
    heads: section.columns,
    concepts: concepts.map(({ id, traced }, i) => ({
      id,
      name: `${id} ${'mechanism of the long word'.slice(0, 3 + ((i * 7) % 22))}`,
      traced,
      gapChance: 0,
      missingPiece: i % 4 === 0 ? 'what was missing, in some twenty words or so' : '',
    })),
  };
}

/** 14 systems; concepts seen in one to five, some with gaps, a few with traced misses. */
function randomMap(seed: number, count: number): Picture {
  const pick = picker(seed);
  const systems = Array.from({ length: 14 }, (_, k) => `system ${k}`);
  return pictureOf(
    systems,
    Array.from({ length: count }, (_, i) => ({
      id: `c${i}`,
      systems: systems.filter(() => pick(14) < 2),
      restsOn: i < count - 30 && pick(2) === 0 ? [`c${i + 1 + pick(29)}`] : [],
      traced: pick(25) === 0 ? 1 + pick(20) : 0,
    })),
  );
}

function meetings(labels: readonly Label[]): string[] {
  return labels.flatMap((one, i) =>
    labels
      .slice(i + 1)
      .filter(
        (other) =>
          one.left < other.right &&
          other.left < one.right &&
          one.top < other.bottom &&
          other.top < one.bottom,
      )
      .map((other) => `${one.text} / ${other.text}`),
  );
}

const nothingFaded = { left: 54, chosen: undefined, faded: () => false };
const screen = { width: 1000, height: 560 };

describe('names on the section', () => {
  const lenses: readonly Lens[] = [
    { kind: 'whole' },
    { kind: 'names' },
    { kind: 'system', column: 5 },
  ];

  it.each(lenses)('never meet, whatever the zoom, seen by the lens $kind', (lens) => {
    for (const seed of [1, 2]) {
      const picture = randomMap(seed, 260);
      const geometry = geometryOf(picture, screen, lens, ['c7', 'c30']);
      let shown = 0;
      for (let zoom = 0.75; zoom <= 4; zoom *= 1.19) {
        for (const [x, y] of [
          [62, 8],
          [-310, -700],
        ] as const) {
          const view = { zoom, x, y, ...screen };
          const labels = labelsOf(picture, geometry, view, measure, {
            ...nothingFaded,
            chosen: 'c7',
          });
          expect(meetings(labels)).toEqual([]);
          for (const { size } of labels) expect(size).toBeGreaterThanOrEqual(leastLetters);
          shown += labels.length;
        }
      }
      expect(shown).toBeGreaterThan(300);
    }
  });

  it('name every root in the whole section, and whatever is chosen', () => {
    const picture = randomMap(3, 400);
    const quiet = picture.concepts.find(({ traced }) => traced === 0)!;
    const geometry = geometryOf(picture, screen, { kind: 'whole' }, [quiet.id]);
    const view = { zoom: 1, x: 62, y: 8, ...screen };
    const labels = labelsOf(picture, geometry, view, measure, {
      ...nothingFaded,
      chosen: quiet.id,
    });
    const named = new Set(labels.map(({ bar }) => picture.concepts[bar]!.id));
    expect(named).toContain(quiet.id);
    const roots = picture.concepts.filter(({ traced }) => ringsOf(traced) === 3);
    // Two of them may lie so near that only the heavier is named.
    const missing = roots.filter(({ id }) => !named.has(id));
    expect(missing.length).toBeLessThan(roots.length * 0.25);
  });
});

describe('a map of some 390 concepts', () => {
  // The make-up of the sketch: chips of one system at the surface, two layers of
  // mechanisms over one to four systems, foundations over many.
  const systems = Array.from({ length: 14 }, (_, k) => `system ${k}`);
  const span = (i: number, most: number) => {
    const width = 1 + (i % most);
    const from = (i * 5) % (systems.length - width + 1);
    return systems.slice(from, from + width);
  };
  const layer = (name: string, count: number, most: number, below: string, belowCount: number) =>
    Array.from({ length: count }, (_, i) => ({
      id: `${name}${i}`,
      systems: span(i, most),
      restsOn: belowCount > 0 ? [`${below}${i % belowCount}`] : [],
      traced: i % 17 === 0 ? 2 : 0,
    }));
  const picture = pictureOf(systems, [
    ...layer('asked', 215, 1, 'upper', 65),
    ...layer('upper', 65, 4, 'lower', 65),
    ...layer('lower', 65, 4, 'base', 45),
    ...layer('base', 45, 9, '', 0),
  ]);

  // What is left of the screen beside the rail and the disciplines, under heads and over the legend.
  it.each([
    { screen: '1920 x 1080', width: 1490, height: 830, named: 390 },
    { screen: '1440 x 900', width: 1010, height: 650, named: 370 },
  ])('is readable at once on a screen of $screen: $named have their names', (size) => {
    const geometry = geometryOf(picture, size, { kind: 'whole' });
    expect(geometry.height).toBeLessThanOrEqual(size.height + 1e-6);
    const view = { zoom: 1, x: 62, y: 8, width: size.width + 70, height: size.height + 16 };
    const labels = labelsOf(picture, geometry, view, measure, nothingFaded);
    expect(picture.concepts).toHaveLength(390);
    const named = new Set(labels.map(({ bar }) => bar)).size;
    expect(named).toBeGreaterThanOrEqual(size.named);
    expect(meetings(labels)).toEqual([]);
  });

  it('lies wholly inside the picture, bars inside their rows', () => {
    const geometry = geometryOf(picture, { width: 900, height: 500 }, { kind: 'whole' });
    picture.section.bars.forEach((bar) => {
      const bodies = bodiesOf(bar, geometry);
      const top = geometry.rowTop[bar.row]!;
      for (const body of bodies) {
        expect(body.left).toBeGreaterThanOrEqual(0);
        expect(body.left + body.width).toBeLessThanOrEqual(900);
        expect(body.top).toBeGreaterThanOrEqual(top);
        expect(body.top + body.height).toBeLessThanOrEqual(top + geometry.rowHeight[bar.row]!);
      }
    });
  });
});
