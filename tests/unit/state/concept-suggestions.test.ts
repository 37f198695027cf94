import { describe, expect, it } from 'vitest';
import { readMapParts } from '../../../seed-data/demo/read-seed';
import { parseMapFile } from '../../../src/formats';
import type { Concept } from '../../../src/model/concept-map';
import { ConceptSuggestions } from '../../../src/state/concept-suggestions';

const map = parseMapFile(readMapParts('human'));
if (map.kind === 'rejected') throw new Error(JSON.stringify(map.faults[0]));
const suggestions = new ConceptSuggestions(map.value.concepts as unknown as Concept[]);
const namesFor = (text: string, without: string[] = []) =>
  suggestions.find(text, 3, new Set(without)).map(({ name }) => name);

describe('ConceptSuggestions', () => {
  it('finds the concept a missing piece is about, in another spelling and number', () => {
    expect(namesFor('the anion gap counts what nobody measured')).toContain('Anion gap');
    expect(namesFor('loop diuretics block the cotransporter')).toContain('Diuretics');
    expect(namesFor('four half-lives to reach a steady state')).toContain(
      'Half-life and steady state',
    );
  });

  it('leaves out what is chosen already', () => {
    const chosen = map.value.concepts.find(({ name }) => name === 'Anion gap');
    expect(namesFor('the anion gap counts what nobody measured', [chosen?.id ?? ''])).not.toContain(
      'Anion gap',
    );
  });

  it('suggests nothing for words that say nothing', () => {
    expect(namesFor('')).toEqual([]);
    expect(namesFor('I should have read it twice and not so fast')).toEqual([]);
  });
});
