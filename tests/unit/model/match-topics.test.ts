import { describe, expect, it } from 'vitest';
import { foldName } from '../../../src/model/fold-name';
import type { ConceptId } from '../../../src/model/ids';
import { topicMatcher, type NamedConcept } from '../../../src/model/match-topics';
import { editDistance, nameIndex } from '../../../src/model/nearest-names';

const id = (text: string) => text as ConceptId;
const concept = (key: string, name: string, ...aliases: string[]): NamedConcept => ({
  id: id(key),
  name,
  aliases,
});

const concepts = [
  concept('abc', 'Acid-base compensation', 'compensation of pH'),
  concept('anaemia', 'Anaemia of chronic disease', 'ACD'),
  concept('acd2', 'Allergic contact dermatitis', 'ACD'),
  concept('starling', 'Starling forces'),
  concept('paget', 'Bone, Paget disease of', 'Paget disease'),
  concept('twin1', 'Twin name'),
  concept('twin2', 'twin-name'),
];

describe('topicMatcher', () => {
  const matcher = topicMatcher(concepts, [
    { folded: foldName('ABG stuff'), concepts: [id('abc'), id('starling')] },
    { folded: foldName('Misc'), concepts: [] },
    { folded: foldName('Old thing'), concepts: [id('deleted long ago')] },
    { folded: foldName('Paget disease'), concepts: [id('deleted long ago')] },
  ]);

  it('finds a concept by its folded name', () => {
    expect(matcher.matchName('acid base compensations')).toMatchObject({
      kind: 'matched',
      by: 'name',
      concepts: ['abc'],
    });
  });

  it('finds a concept by an alias', () => {
    expect(matcher.matchName('Compensation of pH')).toMatchObject({ by: 'alias' });
  });

  it('takes a match made by hand before all others, with all its concepts', () => {
    expect(matcher.matchCell('abg stuff').concepts).toEqual(['abc', 'starling']);
  });

  it('leaves out a name that was left out by hand', () => {
    expect(matcher.matchName('misc.').kind).toBe('left-out');
  });

  it('passes over a remembered concept that is gone, and tries name and alias again', () => {
    expect(matcher.matchName('old thing').kind).toBe('unmatched');
    expect(matcher.matchName('Paget disease')).toMatchObject({ by: 'alias', concepts: ['paget'] });
  });

  it('calls a name that two concepts carry ambiguous, and does not choose', () => {
    expect(matcher.matchName('ACD')).toMatchObject({ candidates: ['anaemia', 'acd2'] });
    expect(matcher.matchName('Twin Name')).toMatchObject({ candidates: ['twin1', 'twin2'] });
    expect(matcher.matchCell('ACD').concepts).toEqual([]);
  });

  it.each([
    ['Starling forces; acid-base compensation', ['starling', 'abc']],
    ['Starling forces | acid-base compensation', ['starling', 'abc']],
    ['Starling forces\nacid-base compensation;', ['starling', 'abc']],
    ['Starling forces, acid-base compensation', ['starling', 'abc']],
    ['Bone, Paget disease of', ['paget']],
    ['Starling forces; Bone, Paget disease of', ['starling', 'paget']],
    ['starling force; STARLING FORCES', ['starling']],
    ['', []],
    [' ;, | ', []],
  ])('splits a cell into names only where the whole is not one: %j', (text, expected) => {
    expect(matcher.matchCell(text).concepts).toEqual(expected);
  });

  it('says what became of each name in a cell', () => {
    const cell = matcher.matchCell('Gout, Starling forces; ACD; misc');
    expect(cell.names.map(({ text, kind }) => [text, kind])).toEqual([
      ['Gout', 'unmatched'],
      ['Starling forces', 'matched'],
      ['ACD', 'ambiguous'],
      ['misc', 'left-out'],
    ]);
  });

  it('suggests the nearest concepts, each once, closest first', () => {
    const found = matcher.suggest('Acid-bace compensasion');
    expect(found[0]).toMatchObject({ concept: 'abc', name: 'Acid-base compensation' });
    expect(found[0]!.closeness).toBeGreaterThan(0.7);
    expect(new Set(found.map((each) => each.concept)).size).toBe(found.length);
    expect(matcher.suggest('zzzz qqqq')).toEqual([]);
    expect(matcher.suggest('')).toEqual([]);
  });

  it('is not led astray by names that are words of the language', () => {
    expect(topicMatcher([], []).matchName('constructor').kind).toBe('unmatched');
    expect(topicMatcher([], []).matchCell('__proto__').concepts).toEqual([]);
  });
});

describe('editDistance', () => {
  it('is 3 from kitten to sitting (the usual worked example, from memory)', () => {
    expect(editDistance('kitten', 'sitting')).toBe(3);
  });

  it('agrees with the definition by recursion on all pairs of short words', () => {
    const byDefinition = (a: string, b: string): number => {
      if (a === '' || b === '') return a.length + b.length;
      const kept = byDefinition(a.slice(1), b.slice(1)) + (a[0] === b[0] ? 0 : 1);
      return Math.min(kept, byDefinition(a.slice(1), b) + 1, byDefinition(a, b.slice(1)) + 1);
    };
    const short = ['', 'a', 'b', 'ab', 'ba', 'aab', 'abca', 'cbab', 'bacca'];
    for (const a of short)
      for (const b of short) expect(editDistance(a, b)).toBe(byDefinition(a, b));
  });
});

describe('nameIndex', () => {
  it('finds every name under itself with closeness 1', () => {
    const names = ['renal', 'renin', 'adrenal', 'ab', 'a'];
    const index = nameIndex(names.map((name) => [name, name] as const));
    for (const name of names) {
      expect(index.findNearest(name, 1)).toEqual([{ value: name, closeness: 1 }]);
    }
  });
});
