/** The coverage table of seed-data/maps/README.md tells of the map as it is. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readSeedMap } from './map-files';

const map = readSeedMap('human');
const readme = readFileSync(new URL('../../../seed-data/maps/README.md', import.meta.url), 'utf8');

/** Cells of the README's table whose first column names a discipline (or "All"). */
function rowNamed(name: string): string[] {
  const line = readme.split('\n').find((text) => text.startsWith(`| ${name} `));
  return (line ?? '')
    .split('|')
    .slice(2, -1)
    .map((cell) => cell.trim());
}

describe('the coverage table of the maps', () => {
  it.each(map.disciplines)('counts the concepts of $name in each system', ({ id, name }) => {
    const within = map.concepts.filter((concept) => concept.disciplines.includes(id));
    const counts = map.systems.map(
      (system) => within.filter((concept) => concept.systems.includes(system.id)).length,
    );
    expect(rowNamed(name)).toEqual([...counts, within.length].map(String));
  });

  it('counts all concepts of each system and of the map', () => {
    const counts = map.systems.map(
      (system) => map.concepts.filter((concept) => concept.systems.includes(system.id)).length,
    );
    expect(rowNamed('All')).toEqual([...counts, map.concepts.length].map(String));
  });
});
