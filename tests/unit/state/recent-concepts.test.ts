import { describe, expect, it } from 'vitest';
import type { Item } from '../../../src/model/log';
import { recentConcepts, topicCounts } from '../../../src/state/recent-concepts';

const item = (changedAt: number, topics: string[], causes: string[] = []) =>
  ({ topics, causes, stamp: { changedAt } }) as unknown as Item;

describe('recentConcepts', () => {
  it('lists topics and causes by when they were last written, each once, over all blocks', () => {
    const items = [
      item(30, ['pump'], ['seal']),
      item(90, ['rope']),
      item(70, ['seal', 'pump']),
      item(10, ['anchor']),
    ];
    const sameDay = () => 5;
    expect(recentConcepts(items, sameDay, 9)).toEqual(['rope', 'pump', 'seal', 'anchor']);
    expect(recentConcepts([...items].reverse(), sameDay, 3)).toEqual(['rope', 'pump', 'seal']);
    expect(recentConcepts([], sameDay, 3)).toEqual([]);
  });

  it('goes by the day of the block among what came in at one moment', () => {
    const first = item(50, ['pump', 'rope']);
    const second = item(50, ['anchor', 'rope']);
    const third = item(50, ['seal']);
    const days = new Map([
      [first, 7],
      [second, 9],
      [third, 8],
    ]);
    expect(recentConcepts(days.keys(), (each) => days.get(each) ?? 0, 9)).toEqual([
      'anchor',
      'rope',
      'seal',
      'pump',
    ]);
  });
});

describe('topicCounts', () => {
  it('counts items by topic, and no cause', () => {
    const counts = topicCounts([item(1, ['pump'], ['seal']), item(2, ['pump', 'rope'])]);
    expect([...counts]).toEqual([
      ['pump', 2],
      ['rope', 1],
    ]);
  });
});
