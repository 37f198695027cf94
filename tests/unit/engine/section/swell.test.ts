/** Heights of rows: what is wanted swells, the rest lies thin. */
import { describe, expect, it } from 'vitest';
import { swellRows, type RowWish } from '../../../../src/engine';
import { randomFrom } from '../../../../src/engine/numeric/random';

describe('the heights of rows', () => {
  it('are met in the order of the wishes, each whole or not at all', () => {
    // By hand: 5 rows of at least 2 leave 13 of 23; 9 - 2 = 7 and 7 - 2 = 5 fit, 6 - 2 = 4 does not.
    const wishes = [
      { row: 3, height: 9 },
      { row: 0, height: 7 },
      { row: 4, height: 6 },
    ];
    const heights = [...swellRows(5, wishes, { room: 23, least: 2, most: 30 })];
    expect([heights[3], heights[0]]).toEqual([9, 7]);
    // The one pixel left is shared by the three thin rows.
    for (const row of [1, 2, 4]) expect(heights[row]).toBeCloseTo(2 + 1 / 3, 12);
  });

  it('meet the first wish even where there is no room', () => {
    expect([...swellRows(3, [{ row: 1, height: 12 }], { room: 4, least: 1, most: 20 })]).toEqual([
      1, 12, 1,
    ]);
  });

  it('share what is left like water, and never beyond the most', () => {
    expect([...swellRows(3, [{ row: 2, height: 10 }], { room: 20, least: 1, most: 30 })]).toEqual([
      5, 5, 10,
    ]);
    expect([...swellRows(3, [{ row: 2, height: 10 }], { room: 36, least: 1, most: 30 })]).toEqual([
      12, 12, 12,
    ]);
    expect([...swellRows(3, [], { room: 100, least: 1, most: 7 })]).toEqual([7, 7, 7]);
  });

  it('fill the room exactly, keep to the least and meet a first part of the wishes, on 200 random cases', () => {
    const random = randomFrom(4);
    for (let round = 0; round < 200; round++) {
      const rowCount = 1 + Math.floor(random.uniform() * 40);
      const limits = { room: 40 + random.uniform() * 400, least: 1.5, most: 1e6 };
      const wishes: RowWish[] = Array.from({ length: 12 }, () => ({
        row: Math.floor(random.uniform() * rowCount),
        height: 5 + random.uniform() * 15,
      }));
      const heights = swellRows(rowCount, wishes, limits);
      const sum = heights.reduce((all, height) => all + height, 0);
      expect(Math.min(...heights)).toBeGreaterThanOrEqual(1.5);
      expect(heights[wishes[0]!.row]).toBeGreaterThanOrEqual(wishes[0]!.height);
      const needed = rowCount * 1.5 + wishes[0]!.height - 1.5;
      // Sums of some dozens of doubles.
      expect(sum).toBeCloseTo(Math.max(limits.room, needed), 6);
    }
  });

  it('names a row that is not there', () => {
    expect(() => swellRows(2, [{ row: 2, height: 5 }], { room: 9, least: 1, most: 9 })).toThrow(
      'got row 2 in wish 0; need a whole number from 0 to 1',
    );
  });
});
