/** Time and place in the block: seconds an item, fading towards the end, items not reached. */
import { wilsonInterval } from '../numeric/wilson';
import { tWithin } from './student';

/** Mean of a few numbers and how well it is known. */
export interface MeanInterval {
  readonly count: number;
  readonly mean: number;
  /** 95 % interval by Student's t; undefined below two numbers. */
  readonly interval: readonly [number, number] | undefined;
}

/** @returns undefined without numbers */
export function meanInterval(values: readonly number[]): MeanInterval | undefined {
  const count = values.length;
  if (count === 0) return undefined;
  const mean = values.reduce((sum, value) => sum + value, 0) / count;
  if (count < 2) return { count, mean, interval: undefined };
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (count - 1);
  const half = tWithin(0.95, count - 1) * Math.sqrt(variance / count);
  return { count, mean, interval: [mean - half, mean + half] };
}

/** A block of which every miss has its place. */
export interface PlacedBlock {
  readonly items: number;
  /** Places of the misses, from 1. */
  readonly missedAt: readonly number[];
}

export interface Fifth {
  readonly items: number;
  readonly right: number;
  readonly share: number;
  readonly interval: readonly [number, number];
}

/** Which fifth of a block of so many items a place lies in, 0 to 4. */
export const fifthOf = (place: number, items: number): number =>
  Math.min(4, Math.floor(((place - 1) * 5) / items));

/** Items and right ones in each fifth of one block. */
export function fifthsOf({ items, missedAt }: PlacedBlock): { items: number; right: number }[] {
  const fifths = Array.from({ length: 5 }, () => ({ items: 0, right: 0 }));
  const missed = new Set(missedAt);
  for (let place = 1; place <= items; place++) {
    const fifth = fifths[fifthOf(place, items)]!;
    fifth.items += 1;
    if (!missed.has(place)) fifth.right += 1;
  }
  return fifths;
}

/** Accuracy over the block, fifth by fifth, of all blocks together. */
export function fadeOf(blocks: readonly PlacedBlock[]): Fifth[] {
  const sums = Array.from({ length: 5 }, () => ({ items: 0, right: 0 }));
  for (const block of blocks)
    fifthsOf(block).forEach(({ items, right }, i) => {
      sums[i]!.items += items;
      sums[i]!.right += right;
    });
  return sums.map(({ items, right }) => ({
    items,
    right,
    share: items === 0 ? 0 : right / items,
    interval: wilsonInterval(right, items),
  }));
}
