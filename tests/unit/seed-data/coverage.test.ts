/** The coverage document beside the maps tells of the maps as they are. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { coverageText, reasonOf } from '../../../seed-data/maps/coverage';
import { readSeedMap } from './map-files';

const document = readFileSync(
  new URL('../../../seed-data/maps/coverage.md', import.meta.url),
  'utf8',
);

/** Cells of the first row that begins with a name, within the section of a map. */
function rowNamed(map: string, name: string): string[] {
  const section = document.split('\n## ').find((text) => text.startsWith(map)) ?? '';
  const line = section.split('\n').find((text) => text.startsWith(`| ${name} `)) ?? '';
  const cells = line.split('|').slice(2, -1);
  return cells.map((cell) => cell.trim().replace('–', '0'));
}

describe('the coverage document of the maps', () => {
  it('is what `npm run seed:coverage` writes today', () => {
    expect(coverageText() === document, 'run npm run seed:coverage').toBe(true);
  });

  describe.each(['human', 'veterinary'])('on the %s map', (folder) => {
    const map = readSeedMap(folder);
    const within = (discipline: string | undefined, system: string | undefined) =>
      map.concepts.filter(
        (concept) =>
          (!discipline || concept.disciplines.some((id) => id === discipline)) &&
          (!system || concept.systems.some((id) => id === system)),
      ).length;

    it('counts the concepts of each discipline in each system, and of all', () => {
      for (const { id, name } of [...map.disciplines, { id: undefined, name: 'All' }]) {
        const counts = map.systems.map((system) => within(id, system.id));
        expect(rowNamed(map.name, name), name).toEqual(
          [...counts, within(id, undefined)].map(String),
        );
      }
    });

    it('gives a reason for each empty cell, and for no other', () => {
      for (const discipline of map.disciplines)
        for (const system of map.systems)
          expect(
            reasonOf(folder, discipline.id, system.id) !== undefined,
            `${discipline.id} in ${system.id}`,
          ).toBe(within(discipline.id, system.id) === 0);
    });
  });
});
