import { describe, expect, it } from 'vitest';
import type { Concept } from '../../../../src/model/concept-map';
import { ordinal, rootRows, type RootFilter } from '../../../../src/screens/roots/root-rows';
import type { Ranking } from '../../../../src/state/roots.svelte';

const everything: RootFilter = { system: undefined, discipline: undefined };

const concept = (id: string, name: string, disciplines: string[] = []): [string, Concept] => [
  id,
  { id, name, disciplines } as unknown as Concept,
];

const concepts = new Map([
  concept('pump', 'Pump', ['mechanics']),
  concept('seal', 'Seal', ['mechanics', 'materials']),
  concept('rope', 'Rope', ['materials']),
  concept('anchor', 'Anchor'),
  concept('keel', 'Keel', ['mechanics']),
]);

interface Row {
  readonly id: string;
  readonly traced: number;
  readonly evidence: number;
  readonly bySystem?: Readonly<Record<string, number>>;
}

function ranking(rows: readonly Row[], counted: readonly (readonly [string, number])[] = []) {
  return {
    roots: rows.map(({ id, traced, evidence, bySystem = {} }) => ({
      conceptId: id,
      traced,
      evidenceCount: evidence,
      bySystem,
    })),
    counted: counted.map(([conceptId, count]) => ({ conceptId, count })),
  } as unknown as Ranking;
}

const full = ranking(
  [
    { id: 'seal', traced: 6.5, evidence: 9, bySystem: { deck: 1.5, engine: 5 } },
    { id: 'pump', traced: 3, evidence: 4, bySystem: { deck: 3 } },
    { id: 'rope', traced: 0.2, evidence: 0 },
    { id: 'anchor', traced: 0.7, evidence: 2, bySystem: { deck: 0.7 } },
    { id: 'keel', traced: 0, evidence: 0 },
  ],
  [
    ['pump', 5],
    ['anchor', 2],
    ['rope', 1],
  ],
);

const shown = (filter: RootFilter, from = full) =>
  rootRows(from, concepts, filter).map(({ root, rank, traced, named, namedRank }) => [
    root.conceptId,
    rank,
    traced,
    named,
    namedRank,
  ]);

describe('rootRows', () => {
  it('lists what a miss counts towards or a miss names, most traced first, ranked both ways', () => {
    expect(shown(everything)).toEqual([
      ['seal', 1, 6.5, 0, undefined],
      ['pump', 2, 3, 5, 1],
      ['anchor', 3, 0.7, 2, 2],
      ['rope', 4, 0.2, 1, 3],
    ]);
  });

  it('counts only the misses of a chosen system, for the order and for the number shown', () => {
    expect(shown({ ...everything, system: 'deck' }).map((row) => row.slice(0, 3))).toEqual([
      ['pump', 1, 3],
      ['seal', 2, 1.5],
      ['anchor', 3, 0.7],
      ['rope', 4, 0],
    ]);
    // Seal leads in the engine room; what is named as a cause stays to be compared.
    expect(shown({ ...everything, system: 'engine' })[0]?.slice(0, 3)).toEqual(['seal', 1, 5]);
  });

  it('ranks among the rows shown when a discipline is chosen', () => {
    expect(shown({ ...everything, discipline: 'materials' })).toEqual([
      ['seal', 1, 6.5, 0, undefined],
      ['rope', 2, 0.2, 1, 1],
    ]);
    expect(shown({ system: 'engine', discipline: 'mechanics' }).map(([id]) => id)).toEqual([
      'seal',
      'pump',
    ]);
    expect(shown({ ...everything, discipline: 'cookery' })).toEqual([]);
  });

  it('leaves out a concept that has been deleted since it was traced', () => {
    const gone = ranking([{ id: 'gone', traced: 9, evidence: 3 }], [['gone', 3]]);
    expect(shown(everything, gone)).toEqual([]);
  });

  it('puts equal ones in the order of their names', () => {
    const equal = ranking(
      ['rope', 'anchor', 'seal'].map((id) => ({ id, traced: 2, evidence: 1 })),
      [
        ['rope', 4],
        ['seal', 4],
      ],
    );
    expect(shown(everything, equal).map(([id, rank, , , named]) => [id, rank, named])).toEqual([
      ['anchor', 1, undefined],
      ['rope', 2, 1],
      ['seal', 3, 2],
    ]);
  });

  it('leaves the ranking it was given as it was', () => {
    const before = structuredClone(full);
    rootRows(full, concepts, { system: 'deck', discipline: undefined });
    expect(full).toEqual(before);
  });
});

describe('ordinal', () => {
  it.each([
    [1, '1st'],
    [2, '2nd'],
    [3, '3rd'],
    [4, '4th'],
    [10, '10th'],
    [11, '11th'],
    [12, '12th'],
    [13, '13th'],
    [21, '21st'],
    [102, '102nd'],
    [111, '111th'],
    [113, '113th'],
    [223, '223rd'],
  ])('of %i is %s', (rank, text) => {
    expect(ordinal(rank)).toBe(text);
  });
});
