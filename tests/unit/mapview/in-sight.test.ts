/** Bars on the screen, the one under the pointer, and the frame the section keeps to. */
import { describe, expect, it } from 'vitest';
import { layOutSection } from '../../../src/engine';
import { randomFrom } from '../../../src/engine/numeric/random';
import { bodiesOf, geometryOf } from '../../../src/mapview/geometry';
import { barsBetween, keptInFrame, nearestBar, rowAt } from '../../../src/mapview/in-sight';

const random = randomFrom(8);
const systems = ['a', 'b', 'c', 'd', 'e'];
const concepts = Array.from({ length: 80 }, (_, i) => ({
  id: `c${i}`,
  systems: systems.filter(() => random.uniform() < 0.4),
  restsOn: i < 60 ? [`c${i + 20}`] : [],
  traced: i % 20 === 0 ? 5 : 0,
}));
const section = layOutSection(systems, concepts);
const geometry = geometryOf(
  {
    section,
    heads: systems,
    concepts: concepts.map(({ id, traced }) => ({
      id,
      name: id,
      traced,
      gapChance: 0,
      missingPiece: '',
    })),
  },
  { width: 600, height: 300 },
  { kind: 'whole' },
);

describe('what is in sight', () => {
  it('is every bar whose row meets the stretch, as looking at each shows', () => {
    for (let round = 0; round < 50; round++) {
      const top = random.uniform() * 320 - 10;
      const bottom = top + random.uniform() * 80;
      const slow = section.bars.flatMap(({ row }, i) =>
        geometry.rowTop[row]! <= bottom && geometry.rowTop[row]! + geometry.rowHeight[row]! >= top
          ? [i]
          : [],
      );
      const found = [...barsBetween(section, geometry, top, bottom)].sort((a, b) => a - b);
      expect(found).toEqual(slow);
    }
  });

  it('is the bar in whose middle the pointer stands, at any zoom', () => {
    const view = { zoom: 2.5, x: -120, y: 40, width: 600, height: 300 };
    for (const bar of section.bars) {
      const { left, top, width, height } = bodiesOf(bar, geometry).at(-1)!;
      const at = {
        x: (left + width / 2) * view.zoom + view.x,
        y: (top + height / 2) * view.zoom + view.y,
      };
      expect(nearestBar(section, geometry, view, at)).toBe(bar.id);
    }
    expect(nearestBar(section, geometry, view, { x: 0, y: -500 })).toBeUndefined();
  });

  it('is in the row at its height, or the nearest', () => {
    expect(rowAt(geometry, -50)).toBe(0);
    expect(rowAt(geometry, 1e5)).toBe(section.rowCount - 1);
    const row = Math.floor(section.rowCount / 2);
    expect(rowAt(geometry, geometry.rowTop[row]! + geometry.rowHeight[row]! / 2)).toBe(row);
  });
});

describe('the frame', () => {
  const start = { x: 62, y: 8 };
  it('holds what is larger by its edges, and what is smaller at the start', () => {
    const view = { zoom: 2, x: 500, y: -9999, width: 600, height: 300 };
    // By hand: the plane is 1,000 x 800 px; its left edge at 62 at most, its foot at 292 at least.
    expect(keptInFrame({ width: 500, height: 400 }, view, start, 8)).toEqual({ x: 62, y: -508 });
    expect(keptInFrame({ width: 100, height: 50 }, view, start, 8)).toEqual({ x: 62, y: 8 });
  });
});
