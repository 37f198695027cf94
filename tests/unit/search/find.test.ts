import { beforeEach, describe, expect, it } from 'vitest';
import {
  find,
  NamesTable,
  TextIndex,
  type Filters,
  type SearchDocument,
} from '../../../src/search';
import { concept, note } from './documents';

let index: TextIndex;
let names: NamesTable;

function put(...documents: readonly SearchDocument[]): void {
  for (const document of documents) {
    index.put(document);
    names.put(document);
  }
}

const search = (typed: string, filters: Filters = {}) => find(index, names, typed, filters, 20);
const keys = (typed: string, filters: Filters = {}) =>
  search(typed, filters).groups.flatMap(({ first }) => first.map(({ key }) => key));

beforeEach(() => {
  index = new TextIndex();
  names = new NamesTable();
});

/** As written in a note, and as it may be typed to find it. */
const spellings: readonly (readonly [string, readonly string[]])[] = [
  ['Pulmonary oedema', ['edema', 'OEDEMA', 'oedema', 'oed', 'edem']],
  ['Hemoglobin and anemia', ['haemoglobin', 'anaemia', 'haem', 'anaem']],
  ['A tumour grows', ['tumor', 'tumours', 'tumou', 'tum']],
  ['litre by litre', ['liter', 'liters']],
  ['It is ionised', ['ionized']],
  ['β-blockers slow it', ['beta blocker', 'betablocker', 'Beta-Blocker', 'beta-bl', 'β blocker']],
  ['Ca2+ channels', ['ca2+', 'Ca²⁺', 'ca++', 'ca2']],
  ['H₂O and CO₂', ['h2o', 'co2', 'CO2']],
  ['Na⁺ and K⁺', ['na+', 'K+', 'na']],
  ['the nuclei of the thalamus', ['nucleus', 'nuclei', 'nucleu']],
  ['One metastasis', ['metastases', 'metastase', 'metast']],
  ['Two vertebrae', ['vertebra', 'vertebrae']],
  ['Ménière, naïve', ['meniere', 'naive']],
  ['TNF-α', ['tnf alpha', 'tnfalpha']],
];

describe('finding', () => {
  it.each(spellings)('finds “%s” however it is typed', (written, typedForms) => {
    put(note('notes:1', written), note('notes:2', 'something else altogether'));
    for (const typed of typedForms) expect(keys(typed), typed).toEqual(['notes:1']);
  });

  it('mends one typing error, and only when nothing better matches', () => {
    put(note('notes:1', 'Aldosterone escape'), note('notes:2', 'Renal threshold'));
    expect(keys('aldosteorne')).toEqual(['notes:1']);
    expect(search('rneal ').mended).toEqual([{ typed: 'rneal', instead: ['renal'] }]);
    put(note('notes:3', 'A rneal that was written so'));
    expect(keys('rneal')).toEqual(['notes:3']);
  });

  it('finds the name by its alias and the alias by its name', () => {
    put(
      concept('concepts:1', 'Myocardial infarction', ['MI', 'heart attack']),
      note('notes:1', 'After an MI'),
      note('notes:2', 'Heart attack at night'),
      note('notes:3', 'Mitral regurgitation'),
    );
    expect(new Set(keys('myocardial infarction'))).toEqual(
      new Set(['concepts:1', 'notes:1', 'notes:2']),
    );
    expect(keys('mi ')).toContain('notes:2');
    expect(keys('mi ')).not.toContain('notes:3');
  });

  it('holds to exact phrases and leaves out what stands behind a minus', () => {
    put(note('notes:1', 'left shift of the curve'), note('notes:2', 'shift left, of fetal blood'));
    expect(keys('"left shift"')).toEqual(['notes:1']);
    expect(keys('left -fetal')).toEqual(['notes:1']);
    expect(keys('shift -"left shift"')).toEqual(['notes:2']);
    expect(keys('"beta of"')).toEqual([]);
  });

  it('filters by kind, system, discipline, day and settled, with words or without', () => {
    put(
      note('items:1', 'acid', '', { kind: 'items', systems: ['renal'], day: 20, settled: true }),
      note('items:2', 'acid', '', { kind: 'items', systems: ['lung'], day: 30, settled: false }),
      note('notes:3', 'acid', '', { disciplines: ['physiology'] }),
    );
    expect(keys('acid', { kinds: ['notes'] })).toEqual(['notes:3']);
    expect(keys('acid', { system: 'renal' })).toEqual(['items:1']);
    expect(keys('acid', { discipline: 'physiology' })).toEqual(['notes:3']);
    expect(keys('', { fromDay: 20, toDay: 29 })).toEqual(['items:1']);
    expect(keys('acid', { settled: false })).toEqual(['items:2']);
    expect(keys('')).toEqual([]);
  });

  it('puts what bears the name before what only mentions it', () => {
    put(
      note('notes:1', 'Long note', 'nephron nephron nephron and more of the nephron'),
      concept('concepts:2', 'Nephron'),
    );
    expect(keys('nephron')[0]).toBe('concepts:2');
  });

  it('says what was searched and proposes words when nothing matches', () => {
    put(note('notes:1', 'Liver cells'), note('notes:2', 'Bicarbonate'));
    const found = search('hepatic');
    expect(found.count).toBe(0);
    expect(found.searched).toBe(2);
    expect(found.nothing?.nearest).toContain('liver');
    expect(search('bicabonade ').nothing?.nearest).toContain('bicarbonate');
  });
});
