import { describe, expect, it } from 'vitest';
import { pointAfterKey } from '../../../../src/components/charts/walk-points';

describe('pointAfterKey', () => {
  it('walks to the neighbours and stays at the ends', () => {
    expect(pointAfterKey('ArrowRight', 1, 4)).toBe(2);
    expect(pointAfterKey('ArrowDown', 3, 4)).toBe(3);
    expect(pointAfterKey('ArrowLeft', 0, 4)).toBe(0);
    expect(pointAfterKey('End', 0, 4)).toBe(3);
    expect(pointAfterKey('Home', 3, 4)).toBe(0);
  });

  it('leaves every other key to the browser', () => {
    expect(pointAfterKey('Tab', 1, 4)).toBeUndefined();
  });
});
