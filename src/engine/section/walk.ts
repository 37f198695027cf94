/** Walking the section by keys: along a layer, up and down. */
import type { Section, SectionBar } from './lay-out';

export type WalkStep = 'up' | 'down' | 'left' | 'right' | 'first' | 'last';

const middle = (bar: SectionBar) =>
  bar.half === undefined ? (bar.from + bar.to + 1) / 2 : bar.from + 0.25 + bar.half / 2;

/**
 * The id of the bar one step from another; undefined at the edge of the section.
 *
 * Left and right go through a layer (a depth) row by row; first and last to its
 * ends. Up and down go to the nearest bar above or below that lies over the same
 * columns, or else in the next row.
 *
 * @throws {RangeError} if no bar has the id
 */
export function stepFrom(section: Section, id: string, step: WalkStep): string | undefined {
  const bar = section.bars.find((each) => each.id === id);
  if (!bar) throw new RangeError(`stepFrom: got "${id}"; need the id of a bar`);
  if (step === 'up' || step === 'down') return stepAcross(section, bar, step);
  const layer = section.bars
    .filter(({ depth }) => depth === bar.depth)
    .sort((a, b) => a.row - b.row || middle(a) - middle(b));
  if (step === 'first') return layer[0]!.id;
  if (step === 'last') return layer.at(-1)!.id;
  return layer[layer.indexOf(bar) + (step === 'right' ? 1 : -1)]?.id;
}

function stepAcross(section: Section, bar: SectionBar, step: 'up' | 'down'): string | undefined {
  const sign = step === 'down' ? 1 : -1;
  const distance = (other: SectionBar) => (other.row - bar.row) * sign;
  const beyond = section.bars.filter((other) => distance(other) > 0);
  const over = beyond.filter((other) => other.from <= bar.to && other.to >= bar.from);
  return (over.length > 0 ? over : beyond).reduce<SectionBar | undefined>((best, other) => {
    if (!best) return other;
    const nearer =
      distance(other) - distance(best) ||
      Math.abs(middle(other) - middle(bar)) - Math.abs(middle(best) - middle(bar));
    return nearer < 0 ? other : best;
  }, undefined)?.id;
}
