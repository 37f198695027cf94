import { describe, expect, it } from 'vitest';
import { orderReadings } from '../../../../src/engine/reading/order';

const restsOn = new Map([
  ['compensation', ['buffer', 'ventilation']],
  ['buffer', ['acid']],
  ['ventilation', ['acid']],
]);
const one = (id: string, weight: number, ...main: string[]) => ({ id, main, weight });

describe('orderReadings', () => {
  it('puts foundations first, through concepts that no reading covers', () => {
    const readings = [one('top', 9, 'compensation'), one('bottom', 1, 'acid')];
    expect(orderReadings(readings, restsOn)).toEqual(['bottom', 'top']);
  });

  it('puts the heavier first where neither rests on the other', () => {
    const readings = [one('v', 2, 'ventilation'), one('b', 3, 'buffer'), one('x', 7, 'other')];
    expect(orderReadings(readings, restsOn)).toEqual(['x', 'b', 'v']);
  });

  it('takes the side on which more rests when two rest on each other', () => {
    const both = [one('mixed', 5, 'compensation', 'buffer', 'acid'), one('mid', 4, 'ventilation')];
    // mid rests on acid (one pair), mixed's compensation rests on ventilation (one pair): by weight.
    expect(orderReadings(both, restsOn)).toEqual(['mixed', 'mid']);
    const more = [
      one('upper', 9, 'compensation', 'buffer'),
      one('lower', 1, 'acid', 'ventilation'),
    ];
    expect(orderReadings(more, restsOn)).toEqual(['lower', 'upper']);
  });

  it('gives every reading once even on a map with a loop', () => {
    const loop = new Map([
      ['a', ['b']],
      ['b', ['c']],
      ['c', ['a']],
    ]);
    const readings = [one('1', 1, 'a'), one('2', 2, 'b'), one('3', 3, 'c')];
    expect(orderReadings(readings, loop).sort()).toEqual(['1', '2', '3']);
  });

  it('visits each concept once on a chain of diamonds', () => {
    // 40 diamonds: 2^40 paths, 121 concepts.
    let visits = 0;
    const links = new Map<string, string[]>();
    for (let i = 0; i < 40; i++) {
      links.set(`t${i}`, [`l${i}`, `r${i}`]);
      links.set(`l${i}`, [`t${i + 1}`]);
      links.set(`r${i}`, [`t${i + 1}`]);
    }
    const counting = {
      get: (key: string) => {
        visits += 1;
        return links.get(key);
      },
    } as unknown as ReadonlyMap<string, readonly string[]>;
    const ordered = orderReadings([one('top', 2, 't0'), one('low', 1, 't40')], counting);
    expect(ordered).toEqual(['low', 'top']);
    expect(visits).toBeLessThanOrEqual(122);
  });
});
