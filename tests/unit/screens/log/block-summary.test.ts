import { describe, expect, it } from 'vitest';
import type { Concept } from '../../../../src/model/concept-map';
import type { Block, Item } from '../../../../src/model/log';
import { blockSummary } from '../../../../src/screens/log/block-summary';

const concept = (id: string, disciplines: string[], systems: string[]) =>
  [id, { id, disciplines, systems } as unknown as Concept] as const;
const concepts = new Map([
  concept('pump', ['mechanics'], ['deck']),
  concept('seal', ['materials'], ['hull', 'deck']),
]);
const item = (fields: object) =>
  ({ outcome: 'missed', topics: [], causes: [], ...fields }) as unknown as Item;
const items = [
  item({ topics: ['pump'], causes: ['seal'], reason: 'misread' }),
  item({ topics: ['pump'], reason: 'misread' }),
  item({ system: 'hull', reason: 'not-known' }),
  item({}),
  item({ outcome: 'right', topics: ['pump'] }),
];
const block = (fields: object = {}) => ({ itemCount: 40, ...fields }) as unknown as Block;

describe('the summary of a block', () => {
  it('says why, most misses first, and how many misses give no reason', () => {
    const summary = blockSummary(block(), items, concepts);
    expect(summary.reasons).toEqual([
      { reason: 'misread', missed: 2 },
      { reason: 'not-known', missed: 1 },
    ]);
    expect(summary.withoutReason).toBe(1);
  });

  it('says where, by the named cause before the topic, beside how many items are known there', () => {
    const counted = block({ rightBySystem: [{ system: 'hull', count: 6 }] });
    const summary = blockSummary(counted, items, concepts);
    expect(summary.systems).toEqual([
      { id: 'deck', missed: 2, known: 3 },
      { id: 'hull', missed: 1, known: 7 },
    ]);
    expect(summary.disciplines).toEqual([
      { id: 'materials', missed: 1, known: 1 },
      { id: 'mechanics', missed: 1, known: 2 },
    ]);
    expect(summary.missesWithoutSystem).toBe(1);
    expect(summary.missesWithoutDiscipline).toBe(2);
  });

  it('works out the pace from what is written down, and nothing from what is not', () => {
    const timed = blockSummary(block({ minutesUsed: 50, reviewMinutes: 125 }), [], concepts);
    expect(timed.minutesAnItem).toBe(1.25);
    expect(timed.reviewHoursAnHour).toBe(2.5);
    const bare = blockSummary(block({ reviewMinutes: 125 }), [], concepts);
    expect(bare.minutesAnItem).toBeUndefined();
    expect(bare.reviewHoursAnHour).toBeUndefined();
  });
});
