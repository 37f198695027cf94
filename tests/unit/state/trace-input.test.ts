import { describe, expect, it } from 'vitest';
import type { Concept } from '../../../src/model/concept-map';
import type { Block, Item } from '../../../src/model/log';
import {
  blockInstant,
  traceConcepts,
  traceItem,
  unitemisedBlocks,
} from '../../../src/state/trace-input';

const stamp = { origin: 'd', revision: { d: 1 }, changedAt: 0, deleted: false };

const concept = (
  id: string,
  systems: string[],
  restsOn: { concept: string; strength?: number }[] = [],
) =>
  ({
    id,
    name: id,
    aliases: [],
    covers: '',
    disciplines: [],
    systems,
    restsOn,
    stamp,
  }) as unknown as Concept;
const block = (fields: object) =>
  ({
    id: 'b',
    day: 20_000,
    itemCount: 40,
    timed: true,
    mixed: true,
    source: '',
    stamp,
    ...fields,
  }) as unknown as Block;
const item = (fields: object) =>
  ({
    id: 'i',
    block: 'b',
    position: 1,
    outcome: 'missed',
    topics: [],
    causes: [],
    missingPiece: '',
    optionTurns: [],
    stamp,
    ...fields,
  }) as unknown as Item;

const concepts = new Map([
  ['pump', concept('pump', ['deck'], [{ concept: 'seal', strength: 0.6 }, { concept: 'gone' }])],
  ['seal', concept('seal', ['deck', 'engine'])],
]);

describe('traceConcepts', () => {
  it('L7 keeps strengths and leaves links to concepts that are gone out', () => {
    expect(traceConcepts(concepts)[0]).toEqual({
      id: 'pump',
      systems: ['deck'],
      restsOn: [{ id: 'seal', strength: 0.6 }],
    });
  });
});

describe('traceItem', () => {
  it('takes the system of the item, then the block’s, then the only one its topics are seen in', () => {
    const named = traceItem(
      item({ system: 'bridge', topics: ['pump'] }),
      block({ system: 'engine' }),
      concepts,
    );
    const fromBlock = traceItem(item({ topics: ['pump'] }), block({ system: 'engine' }), concepts);
    const fromTopic = traceItem(item({ topics: ['pump'] }), block({}), concepts);
    const unclear = traceItem(item({ topics: ['pump', 'seal'] }), block({}), concepts);
    expect([named, fromBlock, fromTopic, unclear].map(({ system }) => system)).toEqual([
      'bridge',
      'engine',
      'deck',
      undefined,
    ]);
  });

  it('leaves topics and causes out that are no longer on the map', () => {
    const traced = traceItem(
      item({ topics: ['gone', 'seal'], causes: ['gone'] }),
      block({}),
      concepts,
    );
    expect(traced).toMatchObject({ topics: ['seal'], causes: [], missed: true });
  });

  it('counts an item that was guessed right as right', () => {
    expect(traceItem(item({ outcome: 'guessed-right' }), block({}), concepts).missed).toBe(false);
  });
});

describe('blockInstant', () => {
  it('is the start where it is known, else noon of the day', () => {
    expect(blockInstant(block({ startedAt: 123_456 }))).toBe(123_456);
    expect(blockInstant(block({ day: 3 }))).toBe(3 * 86_400_000 + 43_200_000);
  });
});

describe('unitemisedBlocks', () => {
  const itemsOf = (...items: Item[]) => new Map([['b', items]]);

  it('gives right items to the systems they were counted for, as far as there are so many', () => {
    const counts = [
      { system: 'deck', count: 6 },
      { system: 'hull', count: 9 },
    ];
    const parts = (fields: object) =>
      unitemisedBlocks([block({ itemCount: 20, rightBySystem: counts, ...fields })], new Map()).map(
        ({ system, right, missed }) => [system, right, missed],
      );
    expect(parts({ missedCount: 2 })).toEqual([
      ['deck', 6, 0],
      ['hull', 9, 0],
      [undefined, 3, 2],
    ]);
    expect(parts({ itemCount: 10 })).toEqual([
      ['deck', 6, 0],
      ['hull', 4, 0],
    ]);
  });

  it('counts the items of a block that nobody wrote down as right', () => {
    const items = itemsOf(item({ id: 'i' }), item({ id: 'k', outcome: 'right' }));
    expect(unitemisedBlocks([block({ itemCount: 40 })], items)).toMatchObject([
      { right: 38, missed: 0 },
    ]);
  });

  it('counts misses beyond the itemised ones where the block states a total', () => {
    const items = itemsOf(
      item({ id: 'i' }),
      item({ id: 'k' }),
      item({ id: 'l', outcome: 'right' }),
    );
    expect(unitemisedBlocks([block({ itemCount: 40, missedCount: 9 })], items)).toMatchObject([
      { right: 30, missed: 7 },
    ]);
  });

  it('never counts below zero when totals and marks contradict each other', () => {
    const items = itemsOf(item({ id: 'i' }), item({ id: 'k' }), item({ id: 'l' }));
    expect(unitemisedBlocks([block({ itemCount: 2, missedCount: 1 })], items)).toEqual([]);
    expect(
      unitemisedBlocks([block({ itemCount: 5, missedCount: 40 })], itemsOf(item({}))),
    ).toMatchObject([{ right: 0, missed: 4 }]);
  });
});
