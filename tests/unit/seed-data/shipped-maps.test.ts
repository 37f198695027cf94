/** The shipped maps pass the app's own reader, and their folders hold what their heads list. */
import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseMapFile } from '../../../src/formats/map-file';
import { readMapParts, readSeedMap } from './map-files';

describe.each(['human', 'veterinary', 'blank'])('the %s map', (folder) => {
  it('is read by the app without a fault and without a shared name', () => {
    const read = parseMapFile(readMapParts(folder));
    if (read.kind === 'rejected') throw new Error(JSON.stringify(read.faults.slice(0, 5)));
    expect(read.value.doubts).toEqual([]);
    expect(read.value.concepts.length).toBe(readSeedMap(folder).concepts.length);
  });

  it('lists every file of its folder, and no other', () => {
    const inFolder = readdirSync(new URL(`../../../seed-data/maps/${folder}/`, import.meta.url));
    expect(inFolder.filter((name) => name !== 'map.json').sort()).toEqual(
      readSeedMap(folder).files.slice().sort(),
    );
  });
});
