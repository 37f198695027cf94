import { describe, expect, it } from 'vitest';
import type { Block, Item } from '../../../../src/model/log';
import { exposureOf, exposureText } from '../../../../src/screens/log/exposure';

const block = (fields: object = {}) => ({ id: 'b', itemCount: 40, ...fields }) as unknown as Block;
const item = (fields: object = {}) => ({ topics: [], ...fields }) as unknown as Item;

describe('the exposure of a block', () => {
  it('counts items by topic, then those known by system, and no item twice', () => {
    const items = [item({ topics: ['pump'] }), item({ topics: ['seal', 'pump'] }), item()];
    const counted = block({ rightBySystem: [{ system: 'deck', count: 9 }] });
    expect(exposureOf(counted, [...items, item({ system: 'deck' })])).toEqual({
      items: 40,
      byTopic: 2,
      bySystem: 10,
    });
  });

  it('knows every item of a one-system block by that system', () => {
    expect(exposureOf(block({ system: 'deck' }), [item({ topics: ['pump'] })])).toEqual({
      items: 40,
      byTopic: 1,
      bySystem: 39,
    });
  });

  it('never counts more right items than there are without a record', () => {
    const counted = block({ itemCount: 5, rightBySystem: [{ system: 'deck', count: 9 }] });
    expect(exposureOf(counted, [item(), item()]).bySystem).toBe(3);
  });

  it('is said in a sentence', () => {
    expect(exposureText({ items: 40, byTopic: 24, bySystem: 7 })).toBe(
      'Exposure for 31 of 40 items: 24 by topic, 7 by organ system only.',
    );
    expect(exposureText({ items: 40, byTopic: 0, bySystem: 0 })).toBe(
      'Exposure for 0 of 40 items.',
    );
  });
});
