import { describe, expect, it } from 'vitest';
import { proposeLines, worthOfLines } from '../../../../src/engine/sheet/worth';

const roots = [
  { conceptId: 'clearance', traced: 8, exposurePer100: 2 },
  { conceptId: 'anion-gap', traced: 3, exposurePer100: 0.5 },
  { conceptId: 'odds', traced: 0.4, exposurePer100: 1 },
];
const facts = { paperItems: 100, itemsLogged: 400, paceSeconds: 90 };
const line = (id: string, concepts: string[], timesNeeded = 0, banned = false) => ({
  id,
  concepts,
  timesNeeded,
  banned,
});

describe('worthOfLines', () => {
  it('is traced misses times the chance to need it, and the time it saves in items', () => {
    const [worth] = worthOfLines([line('a', ['clearance'])], roots, facts);
    // Two uses expected in 100 items; 10 s saved are a ninth of an item's 90 s.
    expect(worth?.usesExpected).toBeCloseTo(2, 12);
    expect(worth?.worth).toBeCloseTo(8 * (1 - Math.exp(-2)) + 10 / 90, 12);
  });

  it('takes the rate noted by hand where that is higher', () => {
    const [worth] = worthOfLines([line('a', ['clearance'], 20)], roots, facts);
    expect(worth?.usesExpected).toBeCloseTo(5, 12);
  });

  it('shares a concept between the lines that hold it, save those banned', () => {
    const all = worthOfLines(
      [
        line('a', ['clearance', 'anion-gap']),
        line('b', ['clearance']),
        line('c', ['clearance'], 0, true),
      ],
      roots,
      facts,
    );
    expect(all.map(({ traced }) => traced)).toEqual([8 / 2 + 3, 4, 8 / 3]);
  });

  it('is nothing without roots and without use', () => {
    expect(worthOfLines([line('a', [])], [], { ...facts, itemsLogged: 0 })[0]?.worth).toBe(0);
  });

  it('names the line with a wrong count', () => {
    expect(() => worthOfLines([line('a', [], -1)], [], facts)).toThrow(/timesNeeded of "a"/);
  });
});

describe('proposeLines', () => {
  it('offers concepts with a traced miss, no line and no refusal, most first', () => {
    expect(proposeLines([], roots, new Set()).map(({ conceptId }) => conceptId)).toEqual([
      'clearance',
      'anion-gap',
    ]);
    expect(proposeLines([{ concepts: ['clearance'] }], roots, new Set(['anion-gap']))).toEqual([]);
  });
});
