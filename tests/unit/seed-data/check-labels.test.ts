import { describe, expect, it } from 'vitest';
import {
  checkedMaps,
  checkLabels,
  digestOf,
  entriesOf,
  faultsOfReasons,
  labelsOf,
  readLabelWords,
} from '../../../seed-data/maps/check-labels';

const entries = new Set(
  entriesOf('  1 head of a WordNet file\n# a comment\nanion n 1 2\nblood_gas n 1\ngap\noedema'),
);
const notFound = [{ label: 'Anion gapometry', words: ['gapometry'] }];

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
    expect(checked.notFound).toEqual(notFound);
  });

  it('wants a reason for each word not found, and for no other', () => {
    const because = (word: string) => ({ word, kind: 'formed', why: 'gap + -metry' });
    expect(faultsOfReasons(notFound, [because('Gapometry')], entries)).toEqual([]);
    expect(faultsOfReasons(notFound, [], entries).join()).toContain('"gapometry"');
    expect(faultsOfReasons([], [because('gapometry')], entries).join()).toContain('needs none');
  });

  it('looks up what an abbreviation stands for, too', () => {
    const short = (why: string) => [{ word: 'AG', kind: 'abbreviation', why }];
    const found = [{ label: 'AG', words: ['AG'] }];
    expect(faultsOfReasons(found, short('anion gap'), entries)).toEqual([]);
    expect(faultsOfReasons(found, short('anoin gap'), entries).join()).toContain('"anoin"');
  });
});

describe('the words of the maps that no list has', () => {
  const { checked, words } = readLabelWords();

  it('each have a kind and a reason, once', () => {
    const kinds = ['English', 'abbreviation', 'drug', 'formed', 'gene', 'germ', 'person', 'symbol'];
    expect(words.filter(({ kind, why }) => !kinds.includes(kind) || why.trim() === '')).toEqual([]);
    expect(new Set(words.map(({ word }) => word.toLowerCase())).size).toBe(words.length);
  });

  it.each(checkedMaps)('were looked for in the labels of the %s map as they are', (map) => {
    const labels = labelsOf(map);
    expect(checked[map], 'labels have changed: run npm run seed:labels').toEqual({
      labels: labels.length,
      digest: digestOf(labels),
    });
  });
});
