import { describe, expect, it } from 'vitest';
import type { ConceptId } from '../../../src/model/ids';
import { parseTopicLines } from '../../../src/state/topic-lines';

const concepts = [
  { id: 'pump' as ConceptId, name: 'Bilge pump', aliases: ['sucker'] },
  { id: 'seal' as ConceptId, name: 'Pump seal', aliases: [] },
];
const read = (text: string) => parseTopicLines(text, 40, concepts, []);

describe('topics pasted a line an item', () => {
  it('reads numbers and names however they are parted, and rows of a spreadsheet with a header', () => {
    expect([...read('4, bilge pumps\n7: sucker\n 9 Pump seal').topics]).toEqual([
      [4, ['pump']],
      [7, ['pump']],
      [9, ['seal']],
    ]);
    const rows = 'item\tresult\ttopic\r\n12\tright\tBilge pump\r\n12\tmissed\tPump seal\r\n';
    expect(read(rows)).toEqual({ topics: new Map([[12, ['pump', 'seal']]]), faults: [] });
  });

  it('names the line of what does not come in, and brings in the rest', () => {
    const { topics, faults } = read('4, Bilge pump\n77, Pump seal\nPump seal\n5, Keel');
    expect([...topics]).toEqual([[4, ['pump']]]);
    expect(faults.map(({ line }) => line)).toEqual([2, 3, 4]);
    expect(faults[0]?.message).toBe('This block has items 1 to 40; the line says 77.');
    expect(faults[2]?.message).toContain('“Keel” is not on the map');
  });
});
