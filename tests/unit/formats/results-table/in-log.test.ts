import { describe, expect, it } from 'vitest';
import { findInLog } from '../../../../src/formats/results-table/in-log';
import type { BlockDraft, LoggedItems } from '../../../../src/formats/results-table/plan-types';

type Row = readonly [
  position: number,
  outcome: string,
  topics?: readonly string[],
  reference?: string,
];

const content = ([position, outcome, topics = [], reference]: Row) => ({
  position,
  outcome,
  topics,
  causes: [],
  reference,
});

/** Rows of one day as a drafted block; the first stands in row 2 of the file. */
const draft = (day: number, ...rows: Row[]) =>
  ({
    content: { day, itemCount: rows.length },
    label: '',
    items: rows.map((row, i) => ({ row: i + 2, content: content(row) })),
  }) as unknown as BlockDraft;

const log = (day: number, ...rows: Row[]) =>
  ({
    blocks: [{ id: 'old', day }],
    items: rows.map((row) => ({ ...content(row), blockIndex: 0 })),
  }) as unknown as LoggedItems;

const rowsOf = (drafts: readonly BlockDraft[], logged: LoggedItems) =>
  findInLog(drafts, logged).rows.map(({ row, by }) => [row, by]);

describe('rows that are in the log already', () => {
  it('I5 are told by the own reference on the same day, though the number differs', () => {
    const logged = log(9, [4, 'missed', [], 'q7'], [5, 'right', [], 'q8']);
    expect(rowsOf([draft(9, [1, 'missed', [], 'q7'], [2, 'right', [], 'q9'])], logged)).toEqual([
      [2, 'reference'],
    ]);
    expect(rowsOf([draft(10, [1, 'missed', [], 'q7'])], logged)).toEqual([]);
  });

  it('I5 are told by contents also after a review added topics, but not where the row says more', () => {
    const logged = log(9, [1, 'missed', ['pump', 'seal']], [2, 'missed', ['seal']]);
    const rows = draft(9, [1, 'missed', ['pump']], [2, 'missed', ['seal', 'valve']]);
    expect(rowsOf([rows], logged)).toEqual([[2, 'contents']]);
  });

  it('I5 need four in five endings alike where rows name no topic', () => {
    const logged = log(9, [1, 'missed'], [2, 'right'], [3, 'right'], [4, 'right'], [5, 'right']);
    const four: Row[] = [
      [1, 'missed'],
      [2, 'right'],
      [3, 'right'],
      [4, 'right'],
      [5, 'missed'],
    ];
    const three: Row[] = [
      [1, 'missed'],
      [2, 'right'],
      [3, 'right'],
      [4, 'missed'],
      [5, 'missed'],
    ];
    expect(rowsOf([draft(9, ...four)], logged)).toHaveLength(4);
    expect(rowsOf([draft(9, ...three)], logged)).toEqual([]);
  });

  it('I5 answer for one row each, so that a true repeat still comes in, and the rest joins its block', () => {
    const logged = log(9, [1, 'missed', ['pump']]);
    const drafts = [
      draft(9, [1, 'missed', ['pump']], [2, 'right']),
      draft(9, [1, 'missed', ['pump']]),
    ];
    const found = findInLog(drafts, logged);
    expect(found.rows).toHaveLength(1);
    expect(found.rest.map(({ joins, items }) => [joins, items.length])).toEqual([
      ['old', 1],
      [undefined, 1],
    ]);
  });

  it('I5 are none where the log is empty', () => {
    const drafts = [draft(9, [1, 'right'])];
    expect(findInLog(drafts, undefined)).toEqual({ rows: [], rest: drafts });
  });
});
