import { describe, expect, test } from 'vitest';
import { createWorkspace } from '../../../../src/engine/numeric/workspace';

describe('createWorkspace', () => {
  test('hands out zeroed arrays that do not overlap, also past the room it has', () => {
    const workspace = createWorkspace();
    for (let round = 0; round < 3; round++) {
      workspace.begin();
      const arrays = [
        workspace.bytes(3),
        workspace.floats(5),
        workspace.ints(7),
        workspace.floats(90),
      ];
      arrays.forEach((array, k) => {
        expect(array.every((value) => value === 0)).toBe(true);
        array.fill(k + 1);
      });
      arrays.forEach((array, k) => expect(array.every((value) => value === k + 1)).toBe(true));
      expect(arrays.map((array) => array.length)).toEqual([3, 5, 7, 90]);
    }
  });

  test('uses the same memory again once it has grown to what is asked', () => {
    const workspace = createWorkspace();
    const take = () => {
      workspace.begin();
      return workspace.floats(1_000).buffer;
    };
    take();
    expect(take()).toBe(take());
  });
});
