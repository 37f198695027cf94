import { describe, expect, it } from 'vitest';
import type { TraceLog } from '../../../../../src/engine/index';
import { countNamed, countRolledUp } from '../../../../bench/roots/peers/counting';
import { gatedItems } from '../../../../bench/roots/peers/gated-items';
import { readItemTable } from '../../../../bench/roots/peers/item-table';
import { testOverRepresentation } from '../../../../bench/roots/peers/over-representation';
import {
  shrunkTopicExcess,
  shrunkTopicRates,
  topicGroups,
} from '../../../../bench/roots/peers/topic-rate';

/**
 *     a   b      a, b at the surface (systems s and t)
 *      \ / \
 *       c   |
 *       |  /
 *       d         then e and f, four links below a
 */
const concepts = [
  { id: 'a', systems: ['s'], restsOn: [{ id: 'c' }] },
  { id: 'b', systems: ['t'], restsOn: [{ id: 'c' }, { id: 'd' }] },
  { id: 'c', systems: [], restsOn: [{ id: 'd' }] },
  { id: 'd', systems: [], restsOn: [{ id: 'e' }] },
  { id: 'e', systems: [], restsOn: [{ id: 'f' }] },
  { id: 'f', systems: [], restsOn: [] },
];

function logOf(
  items: readonly (readonly [missed: boolean, topics: string, causes?: string])[],
  unitemised: TraceLog['unitemised'] = [],
): TraceLog {
  return {
    now: 0,
    concepts,
    items: items.map(([missed, topics, causes = ''], index) => ({
      id: `i${index}`,
      at: 0,
      missed,
      topics: Array.from(topics),
      causes: Array.from(causes),
    })),
    unitemised,
    readings: [],
  };
}

describe('the item table', () => {
  it('holds what each concept rests on at its least distance, three links down and no further', () => {
    const { closures } = readItemTable(logOf([]));
    expect(closures[0]!.map(({ concept, links }) => `${concept}:${links}`)).toEqual([
      '0:0',
      '2:1',
      '3:2',
      '4:3',
    ]);
    expect(closures[1]!.map(({ concept, links }) => `${concept}:${links}`)).toEqual([
      '1:0',
      '2:1',
      '3:1',
      '4:2',
      '5:3',
    ]);
  });

  it('spreads right items known by count over the surface, or that of their system', () => {
    const totals = [
      { at: 0, right: 3, missed: 0 },
      { at: 1, right: 1, missed: 1 },
      { at: 2, system: 't', right: 2, missed: 0 },
    ];
    const { items } = readItemTable(logOf([], totals));
    expect(items).toEqual([
      { topics: [0], missed: false },
      { topics: [1], missed: false },
      { topics: [0], missed: false },
      { topics: [1], missed: true },
      { topics: [0], missed: false },
      { topics: [1], missed: false },
      { topics: [1], missed: false },
    ]);
  });

  it('refuses a concept that is not in the map, by name', () => {
    expect(() => readItemTable(logOf([[false, 'q']]))).toThrow('unknown concept q');
  });

  it('becomes a Q-matrix of topics and what lies under them, each once', () => {
    const table = readItemTable(logOf([[true, 'ab']]));
    expect(gatedItems(table, 0)[0]!.needs).toEqual([0, 1]);
    expect(gatedItems(table, 1)[0]!.needs).toEqual([0, 2, 1, 3]);
  });

  it('counts the visits of a chain of diamonds once a concept', () => {
    // Twenty diamonds on end hold 2^20 paths; the closure stops after three links anyway.
    const chain = Array.from({ length: 61 }, (_, index) => ({
      id: `n${index}`,
      systems: [],
      restsOn:
        index === 60
          ? []
          : index % 3 === 0
            ? [{ id: `n${index + 1}` }, { id: `n${index + 2}` }]
            : [{ id: `n${3 * Math.floor(index / 3) + 3}` }],
    }));
    const { closures } = readItemTable({ ...logOf([]), concepts: chain });
    expect(closures[0]!.map(({ concept }) => concept)).toEqual([0, 1, 2, 3, 4, 5]);
  });
});

describe('counting', () => {
  const log = logOf([
    [true, 'a', 'c'],
    [true, 'b', 'cb'],
    [true, 'a'],
    // A cause named for an item answered right is no miss.
    [false, 'a', 'a'],
  ]);

  it('counts every named cause of a miss once', () => {
    expect([...countNamed(log)]).toEqual([0, 1, 2, 0, 0, 0]);
  });

  it('passes counts down by the strength of the links', () => {
    // c twice, b once: c gets 2 + .5, d 2 * .5 + .5, e 2 * .25 + .25, f 2 * .125 + .125.
    expect([...countRolledUp(readItemTable(log), 0.5)]).toEqual([0, 1, 2.5, 1.5, 0.75, 0.375]);
  });
});

describe('topic rates', () => {
  const items: (readonly [boolean, string])[] = [
    ...Array.from({ length: 8 }, (_, index) => [index < 6, 'a'] as const),
    ...Array.from({ length: 30 }, (_, index) => [index < 3, 'b'] as const),
    [true, 'c'],
  ];
  const table = readItemTable(logOf(items));

  it('group items by their topics, each topic of an item once', () => {
    const groups = topicGroups(readItemTable(logOf([[true, 'ab']])));
    expect(groups.map(({ events, tries }) => `${events}/${tries}`)).toEqual([
      '1/1',
      '1/1',
      '0/0',
      '0/0',
      '0/0',
      '0/0',
    ]);
  });

  it('pull a rate from one item further towards the mean than one from eight', () => {
    const rates = shrunkTopicRates(table);
    expect(rates[0]!).toBeGreaterThan(0.5);
    expect(rates[0]!).toBeLessThan(0.75);
    expect(rates[2]!).toBeLessThan(0.95);
    expect(rates[1]!).toBeGreaterThan(0.1);
    expect(rates[3]).toBe(0);
  });

  it('turn into misses above the overall rate', () => {
    const rates = shrunkTopicRates(table);
    const excess = shrunkTopicExcess(table);
    expect(excess[0]).toBeCloseTo(8 * (rates[0]! - 10 / 39), 12);
    expect(excess[3]).toBeCloseTo(0, 12);
  });

  it('rank nothing where nothing or everything was missed', () => {
    expect([...shrunkTopicRates(readItemTable(logOf([[false, 'a']])))]).toEqual(Array(6).fill(0));
    expect([...shrunkTopicRates(readItemTable(logOf([[true, 'a']])))]).toEqual(Array(6).fill(0));
  });
});

describe('over-representation', () => {
  it('tests each concept by the items that are about it or rest on it', () => {
    // Five items, two missed; a stands under both misses and nothing else.
    const { pValues, adjusted } = testOverRepresentation(
      readItemTable(
        logOf([
          [true, 'a'],
          [true, 'a'],
          [false, 'b'],
          [false, 'b'],
          [false, 'f'],
        ]),
      ),
    );
    expect(pValues[0]).toBeCloseTo(1 / 10, 12);
    expect(pValues[1]).toBeCloseTo(1, 12);
    // c, d and e are under the four items on a or b: both misses among four of five, 6 in 10.
    expect(pValues[2]).toBeCloseTo(6 / 10, 12);
    expect(pValues[4]).toBeCloseTo(6 / 10, 12);
    // f: the two items on b, and its own; three of five without a miss.
    expect(pValues[5]).toBeCloseTo(1, 12);
    expect(adjusted[0]).toBeCloseTo(0.6, 12);
  });
});
