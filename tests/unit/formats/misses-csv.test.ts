import { describe, expect, it } from 'vitest';
import { missesCsv, type MissesLog } from '../../../src/formats/misses-csv';
import type { ItemId } from '../../../src/model/ids';
import type { Block, Item } from '../../../src/model/log';
import type { Concept, OrganSystem } from '../../../src/model/concept-map';

const block = { id: 'b', day: 20_487, source: 'paper bank', system: 'renal' } as unknown as Block;
const item = {
  id: 'i',
  block: 'b',
  position: 4,
  outcome: 'missed',
  topics: ['oedema', 'gone'],
  causes: [],
  reason: 'two-left',
  missingPiece: '=HYPERLINK("http://x"), then "quoted"',
  optionTurns: [{ option: 'C', turn: 'if the albumin were normal' }],
  seconds: 95,
} as unknown as Item;
const map = <T extends { id: string }>(...records: T[]): Map<string, T> =>
  new Map(records.map((record) => [record.id, record]));
const log: MissesLog = {
  blocks: map(block),
  items: map<Item>(item, { ...item, id: 'r' as ItemId, outcome: 'right' }, {
    ...item,
    id: 'x',
    block: 'none',
  } as unknown as Item),
  concepts: map({ id: 'oedema', name: 'Oedema' } as unknown as Concept),
  systems: map({ id: 'renal', name: 'Renal system' } as unknown as OrganSystem),
};

describe('missesCsv', () => {
  it('writes one row a miss, names for ids, and no cell that a spreadsheet would run', () => {
    const [head, row, ...rest] = missesCsv(log).split('\r\n');
    expect(head).toMatch(/^day,item,source,/);
    // 20,487 days after 1970-01-01, by hand: 56 years with 14 leap days, then 33 days.
    expect(row).toBe(
      `2026-02-03,4,paper bank,,Renal system,Oedema; gone,,two left and chose wrong,"'=HYPERLINK(""http://x""), then ""quoted""",C: if the albumin were normal,,,95`,
    );
    expect(rest).toEqual(['']);
  });
});
