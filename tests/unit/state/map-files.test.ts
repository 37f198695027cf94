/** A map file read beside the live map, which may change before it is brought in. */
import { beforeEach, expect, it } from 'vitest';
import type { ConceptId } from '../../../src/model/ids';
import { newConcept } from '../../../src/state/new-records';
import { readSkosFile } from '../../../src/state/map-files';
import { mapFileJobs, type MapFileJobs } from '../../../src/workers/map-file-jobs';
import { freshIndexedDB } from '../storage/harness';
import { linkedWorker } from '../workers/linked-worker';
import { openTab } from './tab';

beforeEach(freshIndexedDB);

const turtle = `
  @prefix s: <http://www.w3.org/2004/02/skos/core#> .
  <urn:a> a s:Concept ; s:prefLabel "Bilge pump"@en .
  <urn:b> a s:Concept ; s:prefLabel "Sea chest"@en ; s:broader <urn:a> .`;

it('is current until the map changes, and then says something else', async () => {
  const { workspace } = await openTab();
  const read = async () => {
    const reading = await readSkosFile(
      workspace,
      {
        text: turtle,
        fileName: 'ship.ttl',
        options: { language: 'en', broaderAsRestsOn: true },
      },
      new AbortController().signal,
      () => linkedWorker<MapFileJobs>(mapFileJobs()),
    );
    if (reading?.kind !== 'read') throw new Error('the file was not read');
    return reading.file;
  };
  const before = await read();
  expect([before.added, before.met, before.isCurrent()]).toEqual([2, 0, true]);
  const pump = 'pump' as ConceptId;
  await workspace.commit('a pump', [
    { kind: 'concepts', put: newConcept(pump, 'bilge pump', undefined) },
  ]);
  expect(before.isCurrent()).toBe(false);
  const after = await read();
  expect([after.added, after.met]).toEqual([1, 1]);
  expect(after.changes[0]).toMatchObject({ put: { restsOn: [{ concept: pump }] } });
});
