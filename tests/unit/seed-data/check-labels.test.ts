import { describe, expect, it } from 'vitest';
import { checkLabels, entriesOf } from '../../../seed-data/maps/check-labels';

const entries = new Set(
  entriesOf('  1 head of a WordNet file\n# a comment\nanion n 1 2\nblood_gas n 1\ngap\noedema'),
);

describe('the check of labels against word lists', () => {
  it('reads plain lists and WordNet’s, without heads and comments', () => {
    expect([...entries].length).toBe(4);
    expect(entries.has('bloodgas')).toBe(true);
  });

  it('finds a label whole, by its words, or says which words are missing', () => {
    const checked = checkLabels(
      ['Blood gas', 'Anion gap', 'Gap of the anion', 'Anion gapometry', 'edema'],
      entries,
    );
    expect([checked.wholeLabels, checked.byWords]).toEqual([2, 2]);
    expect(checked.notFound).toEqual([{ label: 'Anion gapometry', words: ['gapometry'] }]);
  });
});
