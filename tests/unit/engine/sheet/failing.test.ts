import { describe, expect, it } from 'vitest';
import { failingLines } from '../../../../src/engine/sheet/failing';

const rehearsal = (at: number, shares: Record<string, number>) => ({
  at,
  lines: Object.entries(shares).map(([line, share]) => ({ line, share })),
});

describe('failingLines', () => {
  it('names a line missing in two of its latest three rehearsals, the last among them', () => {
    const found = failingLines([
      rehearsal(3, { a: 0.5, b: 1, c: 0 }),
      rehearsal(1, { a: 0.2, b: 0, c: 0 }),
      rehearsal(2, { a: 1, b: 0, c: 0.3 }),
    ]);
    expect(found).toEqual([
      { line: 'c', failures: 3, rehearsals: 3, lastShare: 0, failedAt: 3 },
      { line: 'a', failures: 2, rehearsals: 3, lastShare: 0.5, failedAt: 3 },
    ]);
  });

  it('does not name a line for one failure, or for failures long past', () => {
    expect(failingLines([rehearsal(1, { a: 0 })])).toEqual([]);
    const past = [1, 2].map((at) => rehearsal(at, { a: 0 }));
    expect(
      failingLines([
        ...past,
        rehearsal(3, { a: 1 }),
        rehearsal(4, { a: 1 }),
        rehearsal(5, { a: 0 }),
      ]),
    ).toEqual([]);
  });
});
