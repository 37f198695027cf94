/** The section: order of columns, depth, rows, stability, labels, walking. */
import { describe, expect, it } from 'vitest';
import { buildConceptGraph } from '../../../../src/engine/graph/concept-graph';
import { findReach, findWay, turned } from '../../../../src/engine/graph/reach';
import { randomFrom } from '../../../../src/engine/numeric/random';
import { countGapCells, orderColumns } from '../../../../src/engine/section/column-order';
import { findDepths } from '../../../../src/engine/section/depth';
import { layOutSection, noSystem } from '../../../../src/engine/section/lay-out';
import { leastRows, packRows, type PackedBar } from '../../../../src/engine/section/pack-rows';
import { placeLabels } from '../../../../src/engine/section/place-labels';
import { stepFrom } from '../../../../src/engine/section/walk';

/** Whole numbers from a seed, below a bound. */
function picker(seed: number) {
  const random = randomFrom(seed);
  return (below: number) => Math.floor(random.uniform() * below);
}

function everyOrder(count: number): number[][] {
  if (count === 0) return [[]];
  return everyOrder(count - 1).flatMap((order) =>
    Array.from({ length: count }, (_, place) => order.toSpliced(place, 0, count - 1)),
  );
}

/** Gap cells counted the slow way: cell by cell. */
function gapsByCell(order: readonly number[], sets: readonly (readonly number[])[]): number {
  return sets.reduce((sum, set) => {
    const cells = order.map((column) => set.includes(column));
    return (
      sum +
      cells.filter((seen, k) => !seen && cells.indexOf(true) < k && k < cells.lastIndexOf(true))
        .length
    );
  }, 0);
}

function randomSets(pick: (below: number) => number, columns: number, count: number): number[][] {
  return Array.from({ length: count }, () =>
    Array.from({ length: columns }, (_, column) => column).filter(() => pick(3) === 0),
  );
}

describe('the order of the columns', () => {
  it('has as few gap cells as the best of all orders, on 60 small random maps', () => {
    const pick = picker(11);
    for (let round = 0; round < 60; round++) {
      const columns = 2 + pick(5);
      const sets = randomSets(pick, columns, 1 + pick(12));
      const best = Math.min(...everyOrder(columns).map((order) => gapsByCell(order, sets)));
      const order = orderColumns(columns, sets);
      expect(gapsByCell(order, sets)).toBe(best);
      expect(countGapCells(order, sets)).toBe(best);
      expect([...order].sort((a, b) => a - b)).toEqual(
        Array.from({ length: columns }, (_, k) => k),
      );
    }
  });

  it('has as few gap cells as the best of all 40,320 orders of 8 columns', () => {
    const sets = randomSets(picker(14), 8, 9).filter((set) => set.length > 1);
    const best = Math.min(...everyOrder(8).map((order) => countGapCells(order, sets)));
    expect(best).toBeGreaterThan(0);
    expect(countGapCells(orderColumns(8, sets), sets)).toBe(best);
  });

  it('finds an order of 16 columns without a gap wherever there is one', () => {
    const pick = picker(6);
    for (let round = 0; round < 3; round++) {
      // Any odd step walks through all 16.
      const hidden = Array.from({ length: 16 }, (_, k) => (k * (5 + 2 * round)) % 16);
      const sets = Array.from({ length: 60 }, () => {
        const start = pick(14);
        return hidden.slice(start, start + 2 + pick(4));
      });
      expect(countGapCells(orderColumns(16, sets), sets)).toBe(0);
    }
  });

  it('stays as given where no order is better', () => {
    expect(orderColumns(5, [[0, 1], [3, 4], [2]])).toEqual([0, 1, 2, 3, 4]);
  });

  it('finds the hidden order of 20 columns that leaves no gap', () => {
    const pick = picker(5);
    const hidden = Array.from({ length: 20 }, (_, k) => (k * 7) % 20);
    const sets = Array.from({ length: 120 }, () => {
      const start = pick(18);
      return hidden.slice(start, start + 2 + pick(3));
    });
    expect(countGapCells(hidden, sets)).toBe(0);
    const found = countGapCells(orderColumns(20, sets), sets);
    const asGiven = countGapCells(
      Array.from({ length: 20 }, (_, k) => k),
      sets,
    );
    // A search that may stop short: it must at least undo most of the shuffling.
    expect(found).toBeLessThan(asGiven * 0.35);
  });

  it('names a column that is not there', () => {
    expect(() => orderColumns(3, [[0, 3]])).toThrow(
      'got column 3; need a whole number from 0 to 2',
    );
  });
});

describe('depth', () => {
  const graphOf = (links: Record<string, string>) =>
    buildConceptGraph(
      'test',
      Object.entries(links).map(([id, below]) => ({
        id,
        restsOn: below === '' ? [] : below.split(' ').map((each) => ({ id: each })),
      })),
    );

  it('is the longest way down from the surface', () => {
    expect([...findDepths(graphOf({ a: 'b c', b: 'c', c: '', d: 'c' }))]).toEqual([0, 1, 2, 0]);
  });

  it('agrees with trying every path, on 40 random maps', () => {
    const pick = picker(3);
    for (let round = 0; round < 40; round++) {
      const count = 2 + pick(8);
      const below = Array.from({ length: count }, (_, i) =>
        Array.from({ length: count - i - 1 }, (_, k) => i + 1 + k).filter(() => pick(3) === 0),
      );
      const longest = (to: number): number =>
        Math.max(
          0,
          ...below.flatMap((list, from) => (list.includes(to) ? [1 + longest(from)] : [])),
        );
      const graph = buildConceptGraph(
        'test',
        below.map((list, i) => ({ id: `c${i}`, restsOn: list.map((k) => ({ id: `c${k}` })) })),
      );
      expect([...findDepths(graph)]).toEqual(below.map((_, i) => longest(i)));
    }
  });
});

/** Pieces of rows that two bars both claim; none may be. */
function clashes(bars: readonly PackedBar[], halves: boolean, places: ReturnType<typeof packRows>) {
  const taken = new Set<string>();
  const twice: string[] = [];
  bars.forEach((bar, i) => {
    const { row, half, thread } = places[i]!;
    const chip = halves && bar.columns.length === 1;
    const claims = bar.columns.flatMap((c) =>
      chip ? [`${row}/${c}/${half}`] : [`${row}/${c}/0`, `${row}/${c}/1`],
    );
    if (thread) {
      for (let c = bar.columns[0]!; c <= bar.columns.at(-1)!; c++)
        claims.push(`${row}/${c}/${thread}`);
    }
    for (const claim of claims) {
      if (taken.has(claim)) twice.push(claim);
      taken.add(claim);
    }
  });
  return twice;
}

describe('packing bars into rows', () => {
  const contiguous = (pick: (below: number) => number, count: number): PackedBar[] =>
    Array.from({ length: count }, () => {
      const from = pick(9);
      const width = 1 + pick(9 - from);
      return { columns: Array.from({ length: width }, (_, k) => from + k), weight: pick(7) };
    });

  it.each([false, true])(
    'needs as many rows as the fullest column holds, chips halved: %s',
    (halves) => {
      const pick = picker(8);
      for (let round = 0; round < 200; round++) {
        const bars = contiguous(pick, 1 + pick(30));
        const places = packRows(bars, halves);
        expect(clashes(bars, halves, places)).toEqual([]);
        const fullest = Math.max(
          ...Array.from({ length: 9 }, (_, column) => {
            const over = bars.filter(({ columns }) => columns.includes(column));
            const chips = halves ? over.filter(({ columns }) => columns.length === 1).length : 0;
            return over.length - chips + Math.ceil(chips / 2);
          }),
        );
        expect(1 + Math.max(...places.map(({ row }) => row))).toBe(fullest);
        expect(leastRows(bars, halves)).toBe(fullest);
      }
    },
  );

  it('never lets two bars or two threads meet where bars have gaps', () => {
    const pick = picker(21);
    for (let round = 0; round < 200; round++) {
      const bars = randomSets(pick, 9, 30)
        .filter((columns) => columns.length > 0)
        .map((columns) => ({ columns, weight: pick(5) }));
      const places = packRows(bars, true);
      expect(clashes(bars, true, places)).toEqual([]);
      expect(1 + Math.max(...places.map(({ row }) => row))).toBeGreaterThanOrEqual(
        leastRows(bars, true),
      );
    }
  });

  it('puts rows with more traced misses above those with fewer', () => {
    const pick = picker(2);
    const bars = contiguous(pick, 40);
    const heaviest: number[] = [];
    packRows(bars, false).forEach(({ row }, i) => {
      heaviest[row] = Math.max(heaviest[row] ?? 0, bars[i]!.weight);
    });
    expect(heaviest).toEqual([...heaviest].sort((a, b) => b - a));
  });

  it('lays a bar in the gap of another, whose thread passes it', () => {
    const [outer, within] = packRows(
      [
        { columns: [0, 3], weight: 1 },
        { columns: [1, 2], weight: 0 },
      ],
      false,
    );
    expect([outer!.row, within!.row]).toEqual([0, 0]);
    expect(outer!.thread).toBe('below');
    expect(within!.thread).toBeUndefined();
  });
});

describe('the whole section', () => {
  const pick = picker(77);
  const systems = ['s0', 's1', 's2', 's3', 's4', 's5', 's6'];
  const concepts = Array.from({ length: 150 }, (_, i) => ({
    id: `c${i}`,
    systems: systems.filter(() => pick(3) === 0),
    restsOn: i < 120 && pick(2) === 0 ? [`c${i + 1 + pick(29)}`] : [],
    traced: pick(10) === 0 ? 1 + pick(20) : 0,
  }));

  it('is the same for the same map', () => {
    expect(layOutSection(systems, concepts)).toEqual(layOutSection(systems, concepts));
  });

  it('shows every concept over exactly the systems it is seen in', () => {
    const section = layOutSection(systems, concepts);
    section.bars.forEach((bar, i) => {
      const seen = bar.columns.map((column) => section.columns[column]);
      const wanted = concepts[i]!.systems.length === 0 ? [noSystem] : concepts[i]!.systems;
      expect(new Set(seen)).toEqual(new Set(wanted));
    });
  });

  it('lays what is rested on deeper than what rests on it', () => {
    const { bars } = layOutSection(systems, concepts);
    const depthOf = new Map(bars.map((bar) => [bar.id, bar]));
    for (const { id, restsOn } of concepts) {
      for (const below of restsOn) {
        expect(depthOf.get(below)!.depth).toBeGreaterThan(depthOf.get(id)!.depth);
        expect(depthOf.get(below)!.row).toBeGreaterThan(depthOf.get(id)!.row);
      }
    }
  });

  it('hardly moves the others when a concept is added at the surface', () => {
    const before = layOutSection(systems, concepts);
    const added = { id: 'new', systems: ['s1', 's2'], restsOn: ['c140'], traced: 3 };
    const after = layOutSection(systems, [...concepts, added], before);
    expect(after.columns).toEqual(before.columns);
    const bandOf = (section: typeof before, depth: number) =>
      section.bands.find((band) => band.depth === depth)!.firstRow;
    const moved = before.bars.filter((bar, i) => {
      const now = after.bars[i]!;
      return (
        now.row - bandOf(after, now.depth) !== bar.row - bandOf(before, bar.depth) ||
        now.from !== bar.from ||
        now.half !== bar.half
      );
    });
    // Something rests on c140 now, so it sinks a layer; nothing else has a reason to move.
    expect(moved.map(({ id }) => id)).toEqual(['c140']);
  });

  it('moves on average under one bar in a hundred when any one concept is added', () => {
    const before = layOutSection(systems, concepts);
    const place = (section: typeof before, k: number) => {
      const { row, depth, from, to, half } = section.bars[k]!;
      return `${depth} ${row - section.bands[depth]!.firstRow} ${from} ${to} ${half ?? ''}`;
    };
    const draw = picker(31);
    const rounds = 25;
    let moved = 0;
    for (let round = 0; round < rounds; round++) {
      const added = {
        id: 'new',
        systems: systems.filter(() => draw(3) === 0),
        restsOn: draw(2) === 0 ? [`c${120 + draw(30)}`] : [],
        traced: draw(4),
      };
      const after = layOutSection(systems, [...concepts, added], before);
      // What now has one more concept over it may have to sink, and is not counted.
      moved += concepts.filter(
        (_, k) =>
          after.bars[k]!.depth === before.bars[k]!.depth && place(after, k) !== place(before, k),
      ).length;
    }
    expect(moved / (rounds * concepts.length)).toBeLessThan(0.01);
  });

  it('refuses a loop, naming it', () => {
    const loop = [
      { id: 'a', systems: [], restsOn: ['b'], traced: 0 },
      { id: 'b', systems: [], restsOn: ['a'], traced: 0 },
    ];
    expect(() => layOutSection([], loop)).toThrow('loop: "a" on "b" on "a"');
  });

  it('reaches every concept by walking along the layers and down', () => {
    const section = layOutSection(systems, concepts);
    const seen = new Set<string>();
    let head = stepFrom(section, section.bars.find(({ depth }) => depth === 0)!.id, 'first');
    while (head) {
      let deepest: string | undefined;
      for (let at: string | undefined = head; at; at = stepFrom(section, at, 'right')) {
        seen.add(at);
        deepest = at;
      }
      const below: string | undefined = stepFrom(section, deepest!, 'down');
      head = below && !seen.has(below) ? stepFrom(section, below, 'first') : undefined;
      if (head && seen.has(head)) head = undefined;
    }
    expect(seen.size).toBe(section.bars.length);
  });

  it('goes back up to where the steps down began, over the same columns', () => {
    const column = layOutSection(
      ['s'],
      [
        { id: 'top', systems: ['s'], restsOn: ['middle'], traced: 0 },
        { id: 'middle', systems: ['s'], restsOn: ['deep'], traced: 0 },
        { id: 'deep', systems: ['s'], restsOn: [], traced: 0 },
      ],
    );
    expect(stepFrom(column, 'top', 'down')).toBe('middle');
    expect(stepFrom(column, 'deep', 'up')).toBe('middle');
    expect(stepFrom(column, 'top', 'up')).toBeUndefined();
  });
});

describe('labels', () => {
  it('never meet, and none is left out that would have had room', () => {
    const pick = picker(9);
    const boxes = Array.from({ length: 300 }, () => {
      const [left, top] = [pick(1000), pick(600)];
      return { left, top, right: left + 20 + pick(120), bottom: top + 8 + pick(8) };
    });
    const meet = (a: number, b: number) =>
      boxes[a]!.left < boxes[b]!.right &&
      boxes[b]!.left < boxes[a]!.right &&
      boxes[a]!.top < boxes[b]!.bottom &&
      boxes[b]!.top < boxes[a]!.bottom;
    const shown = placeLabels(boxes);
    const slow: number[] = [];
    boxes.forEach((_, k) => {
      if (!slow.some((other) => meet(k, other))) slow.push(k);
    });
    expect(shown).toEqual(slow);
  });
});

describe('what lies above and below', () => {
  it('enters each concept of a chain of 20 diamonds once, though a million paths lead down', () => {
    const links = new Map<string, string[]>();
    for (let k = 0; k < 20; k++) {
      links.set(`top${k}`, [`left${k}`, `right${k}`]);
      links.set(`left${k}`, [`top${k + 1}`]);
      links.set(`right${k}`, [`top${k + 1}`]);
    }
    let visits = 0;
    expect(findReach(links, 'top0', () => visits++)).toHaveLength(60);
    expect(visits).toBe(61);
  });

  it('finds the shortest way and none against the links', () => {
    const links = new Map([
      ['a', ['b', 'c']],
      ['b', ['c']],
      ['c', ['d']],
    ]);
    expect(findWay(links, 'a', 'd')).toEqual(['a', 'c', 'd']);
    expect(findWay(links, 'd', 'a')).toBeUndefined();
    expect(findReach(turned(links), 'd')).toEqual(['c', 'a', 'b']);
  });
});
