import { describe, expect, it } from 'vitest';
import { onlyMissesNotes } from '../../../../src/formats/results-table/only-misses';
import type { BlockDraft } from '../../../../src/formats/results-table/plan-types';

const block = (rows: readonly number[], fields: object = {}, joins?: string) =>
  ({
    content: { onlyMisses: true, ...fields },
    joins,
    items: rows.map((row) => ({ row })),
  }) as unknown as BlockDraft;

const messages = (blocks: readonly BlockDraft[], lost: readonly number[] = []) =>
  onlyMissesNotes(blocks, lost).map(({ message }) => message);

describe('what is said of blocks that show misses only', () => {
  it('is nothing where there are none, or where they join a block of the log', () => {
    expect(messages([block([2, 3], { onlyMisses: undefined }), block([4], {}, 'old')])).toEqual([]);
  });

  it('is that accuracy cannot be told, with the number of blocks', () => {
    expect(messages([block([2, 3]), block([4])])[0]).toMatch(/^2 blocks hold misses only/);
  });

  it('is to mend lost rows first, for the blocks above and below them only', () => {
    const blocks = [block([2, 3]), block([5, 6]), block([8, 9])];
    const said = messages(blocks, [4]);
    expect(said).toHaveLength(2);
    expect(said[0]).toMatch(/^1 block holds misses only/);
    expect(said[1]).toMatch(/^Of 2 blocks only misses come in, and rows beside them do not/);
  });
});
