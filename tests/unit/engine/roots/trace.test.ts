import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  countNamedCauses,
  traceRoots,
  type Root,
  type TraceItem,
  type TraceLog,
  type TraceResult,
} from '../../../../src/engine/index';
import { hillNumber } from '../../../../src/engine/numeric/hill';
import { randomFrom } from '../../../../src/engine/numeric/random';
import { randomLog } from '../../../oracles/engine/random-log';

const day = 86_400_000;

function concept(id: string, restsOn: readonly string[] = [], systems: readonly string[] = ['s']) {
  return { id, systems, restsOn: restsOn.map((each) => ({ id: each })) };
}
function item(
  id: string,
  missed: boolean,
  topics: readonly string[],
  more: Partial<TraceItem> = {},
): TraceItem {
  return { id, at: 0, missed, topics, causes: [], ...more };
}
function logOf(part: Partial<TraceLog>): TraceLog {
  return { now: 0, concepts: [], items: [], unitemised: [], readings: [], ...part };
}
function rootOf(result: TraceResult, id: string): Root {
  const root = result.roots.find((each) => each.conceptId === id);
  if (!root) throw new Error(`no root ${id}`);
  return root;
}
function times(n: number, make: (i: number) => TraceItem): TraceItem[] {
  return Array.from({ length: n }, (_, i) => make(i));
}
/** Every number anywhere in a result. */
function numbersOf(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  if (Array.isArray(value)) return value.flatMap(numbersOf);
  if (value !== null && typeof value === 'object') return Object.values(value).flatMap(numbersOf);
  return [];
}
function expectSound(result: TraceResult): void {
  for (const value of numbersOf(result)) expect(Number.isFinite(value)).toBe(true);
  for (const root of result.roots) {
    expect(root.gapChance).toBeGreaterThanOrEqual(0);
    expect(root.gapChance).toBeLessThanOrEqual(1);
    expect(root.tracedInterval[0]).toBeLessThanOrEqual(root.tracedInterval[1]);
    expect(root.faultInterval[0]).toBeLessThanOrEqual(root.faultInterval[1]);
  }
}

describe('conservation', () => {
  test('shares over all concepts and slip of each miss add to 1', () => {
    const random = randomFrom(41);
    for (let round = 0; round < 20; round++) {
      const log = randomLog(random, { concepts: 12, right: 40, missed: 25 });
      const result = traceRoots(log);
      const sums = new Map<string, number>();
      for (const list of [...result.roots.map((root) => root.evidence), result.slipEvidence])
        for (const { itemId, share } of list) sums.set(itemId, (sums.get(itemId) ?? 0) + share);
      expect(sums.size).toBe(25);
      for (const sum of sums.values()) expect(sum).toBeCloseTo(1, 12);
    }
  });

  test('traced is at most the weighted evidence, and its systems add to it', () => {
    const log = randomLog(randomFrom(42), { concepts: 15, right: 60, missed: 60 });
    const everywhere = {
      ...log,
      items: log.items.map((each) => ({ ...each, system: each.system ?? 's9' })),
    };
    for (const root of traceRoots(everywhere).roots) {
      const evidence = root.evidence.reduce((sum, each) => sum + each.share * each.weight, 0);
      expect(root.traced).toBeLessThanOrEqual(evidence + 1e-12);
      const parts = Object.values(root.bySystem);
      expect(parts.reduce((sum, part) => sum + part, 0)).toBeCloseTo(root.traced, 10);
      expect(root.reach).toBeCloseTo(hillNumber(parts, 1), 10);
    }
  });

  test('evidence is sorted, largest share first, and roots by traced', () => {
    const result = traceRoots(randomLog(randomFrom(43), { concepts: 15, right: 60, missed: 60 }));
    const falls = (values: readonly number[]) => {
      values.forEach((value, i) => expect(i === 0 || value <= values[i - 1]!).toBe(true));
    };
    falls(result.roots.map((root) => root.traced));
    for (const root of result.roots) falls(root.evidence.map((each) => each.share));
  });
});

describe('sharing', () => {
  const both = [concept('a'), concept('b'), concept('top', ['a', 'b'])];

  test('evidence for one concept explains a shared miss away from the other', () => {
    const shared = item('shared', true, ['top']);
    const before = traceRoots(logOf({ concepts: both, items: [shared] }));
    const after = traceRoots(
      logOf({ concepts: both, items: [shared, ...times(4, (i) => item(`a${i}`, true, ['a']))] }),
    );
    const shareOf = (result: TraceResult, id: string) => rootOf(result, id).evidence[0]!.share;
    expect(shareOf(before, 'b')).toBeCloseTo(shareOf(before, 'a'), 12);
    expect(rootOf(after, 'b').evidence.find((e) => e.itemId === 'shared')!.share).toBeLessThan(
      0.5 * shareOf(before, 'b'),
    );
    expect(rootOf(after, 'a').gapChance).toBeGreaterThan(rootOf(before, 'a').gapChance);
  });

  test('an answer right on a concept never raises its gap chance', () => {
    const random = randomFrom(44);
    for (let round = 0; round < 30; round++) {
      const log = randomLog(random, { concepts: 5, right: 10, missed: 8 });
      const id = `c${Math.floor(random.uniform() * 5)}`;
      const before = rootOf(traceRoots(log, { tolerance: 1e-9, mostPasses: 2_000 }), id);
      const more = { ...log, items: [...log.items, item('more', false, [id])] };
      const after = rootOf(traceRoots(more, { tolerance: 1e-9, mostPasses: 2_000 }), id);
      expect(after.gapChance).toBeLessThanOrEqual(before.gapChance + 1e-6);
    }
  });

  test('a deep gap that spoils four surface topics outranks each of them', () => {
    const surface = ['w', 'x', 'y', 'z'];
    const concepts = [concept('deep'), ...surface.map((id) => concept(id, ['deep']))];
    const items = surface.flatMap((id, s) => [
      ...times(3, (i) =>
        item(`${id}${i}`, i < 2, [id], { system: `s${s}`, causes: i < 2 ? [id] : [] }),
      ),
    ]);
    const result = traceRoots(logOf({ concepts, items }));
    expect(result.roots[0]!.conceptId).toBe('deep');
    // It shows in four systems about equally.
    expect(result.roots[0]!.reach).toBeGreaterThan(3.8);
    // Counting puts it nowhere.
    expect(countNamedCauses({ items }).map((each) => each.conceptId)).toEqual(surface);
  });

  test('a reason of haste moves a miss towards a slip, "not known" away from it', () => {
    const slipOf = (reason: TraceItem['reason']) =>
      traceRoots(logOf({ concepts: [concept('a')], items: [item('m', true, ['a'], { reason })] }))
        .slipEvidence[0]!.share;
    expect(slipOf('misread')).toBeGreaterThan(slipOf(undefined));
    expect(slipOf('two-left')).toBe(slipOf(undefined));
    expect(slipOf('not-known')).toBeLessThan(slipOf(undefined));
    expect(slipOf('overthought')).toBe(slipOf('out-of-time'));
  });

  test('a named cause out of reach of the topics counts, and more than the same unnamed', () => {
    const concepts = [concept('a'), concept('far')];
    const named = traceRoots(
      logOf({ concepts, items: [item('m', true, ['a'], { causes: ['far'] })] }),
    );
    expect(rootOf(named, 'far').evidence).toHaveLength(1);
    // All that the topics do not reach has 0.15 together, each concept of the map its part.
    expect(rootOf(named, 'far').exposure).toBeCloseTo(0.15 / 2, 14);
    const unnamed = traceRoots(logOf({ concepts, items: [item('m', true, ['a'])] }));
    expect(rootOf(unnamed, 'far').evidence).toHaveLength(0);
  });
});

describe('time', () => {
  const concepts = [concept('a'), concept('b')];

  test('evidence of one half-life ago weighs half, in misses and in exposure', () => {
    const items = [
      item('m', true, ['a'], { at: -30 * day }),
      item('r', false, ['a'], { at: -60 * day }),
    ];
    const root = rootOf(traceRoots(logOf({ concepts, items }), { halfLifeDays: 30 }), 'a');
    expect(root.evidence[0]!.weight).toBeCloseTo(0.5, 14);
    expect(root.exposure).toBeCloseTo(0.5 + 0.25, 14);
    const always = rootOf(traceRoots(logOf({ concepts, items }), { halfLifeDays: Infinity }), 'a');
    expect(always.exposure).toBe(2);
  });

  test('a reading halves what is older than it for its concept alone', () => {
    const items = [
      item('before', true, ['a', 'b'], { at: -10 * day }),
      item('after', false, ['a'], { at: -2 * day }),
    ];
    const readings = [
      { at: -5 * day, concepts: ['a'] },
      { at: 3 * day, concepts: ['b'] },
    ];
    const result = traceRoots(logOf({ concepts, items, readings }), { halfLifeDays: Infinity });
    expect(rootOf(result, 'a').evidence[0]!.weight).toBe(0.5);
    expect(rootOf(result, 'a').exposure).toBeCloseTo(1.5, 14);
    expect(rootOf(result, 'b').evidence[0]!.weight).toBe(1);
  });

  test('trend compares two windows and is undefined where either saw too little', () => {
    const lately = times(10, (i) => item(`n${i}`, i < 1, ['a'], { at: -i * day }));
    const earlier = times(10, (i) => item(`e${i}`, i < 8, ['a'], { at: (-30 - i) * day }));
    const result = traceRoots(logOf({ concepts, items: [...lately, ...earlier] }));
    expect(rootOf(result, 'a').trend).toBeLessThan(-40);
    expect(rootOf(result, 'b').trend).toBeUndefined();
    const once = traceRoots(logOf({ concepts, items: lately }));
    expect(rootOf(once, 'a').trend).toBeUndefined();
  });
});

describe('items known only by count', () => {
  test('count in the window of time they were answered in', () => {
    const concepts = [concept('a')];
    const items = [
      item('now', true, ['a'], { at: -1 * day }),
      item('before', true, ['a'], { at: -30 * day }),
    ];
    const unitemised = [
      { at: -2 * day, right: 49, missed: 0 },
      { at: -31 * day, right: 9, missed: 0 },
    ];
    const root = rootOf(traceRoots(logOf({ concepts, items, unitemised })), 'a');
    // The same part of a miss in 50 items now and in 10 before.
    const of = (id: string) => root.evidence.find((each) => each.itemId === id)!.share;
    const most = 100 * (of('now') / 50 - of('before') / 10);
    // Not all of it is traced to a gap; what is, keeps the proportion of the two windows.
    expect(root.trend).toBeLessThan(0);
    expect(root.trend! / most).toBeCloseTo(
      root.traced / (of('now') * 2 ** (-1 / 90) + of('before') * 2 ** (-30 / 90)),
      2,
    );
  });

  test('right ones weigh against the concepts of their system, missed ones for them', () => {
    const concepts = [concept('a', [], ['s']), concept('b', [], ['t'])];
    const items = [item('m', true, ['a'], { system: 's' })];
    const bare = traceRoots(logOf({ concepts, items }));
    const right = traceRoots(
      logOf({ concepts, items, unitemised: [{ at: 0, system: 's', right: 40, missed: 0 }] }),
    );
    expect(rootOf(right, 'a').gapChance).toBeLessThan(rootOf(bare, 'a').gapChance);
    // One leaf and one itemised topic in s, the same concept: all 40 lie on it.
    expect(rootOf(right, 'a').exposure).toBeCloseTo(41, 12);
    expect(rootOf(right, 'b').exposure).toBe(0);
    const missed = traceRoots(
      logOf({ concepts, items, unitemised: [{ at: 0, system: 's', right: 0, missed: 9 }] }),
    );
    expect(rootOf(missed, 'a').traced).toBeGreaterThan(3);
    expect(missed.diagnostics.unitemisedMissCount).toBe(9);
  });

  test('missed ones: half follow the topics itemised, half lie evenly over the leaves', () => {
    const concepts = ['a', 'b', 'c', 'd'].map((id) => concept(id));
    const items = [
      item('1', true, ['a'], { system: 's' }),
      item('2', true, ['a'], { system: 's' }),
      item('3', true, ['b'], { system: 's' }),
    ];
    const unitemised = [{ at: 0, system: 's', right: 0, missed: 80 }];
    const result = traceRoots(logOf({ concepts, items, unitemised }));
    expect(rootOf(result, 'a').exposure).toBeCloseTo(2 + 40 * (2 / 3) + 10, 10);
    expect(rootOf(result, 'b').exposure).toBeCloseTo(1 + 40 / 3 + 10, 10);
    expect(rootOf(result, 'd').exposure).toBeCloseTo(10, 10);
  });

  test('right ones all lie somewhere, and less than in proportion on what is missed often', () => {
    const concepts = ['a', 'b', 'c', 'd'].map((id) => concept(id));
    const items = times(12, (i) => item(`${i}`, true, [i < 9 ? 'a' : 'b'], { system: 's' }));
    const unitemised = [{ at: 0, system: 's', right: 80, missed: 0 }];
    const result = traceRoots(logOf({ concepts, items, unitemised }), { halfLifeDays: Infinity });
    const total = result.roots.reduce((sum, root) => sum + root.exposure, 0);
    expect(total).toBeCloseTo(92, 9);
    const right = (id: string, missed: number) => rootOf(result, id).exposure - missed;
    // Nine misses against three: three times the right ones would take gaps for popular topics.
    expect(right('a', 9)).toBeLessThan(3 * right('b', 3));
    expect(rootOf(result, 'a').gapChance).toBeGreaterThan(rootOf(result, 'b').gapChance);
    expect(right('c', 0)).toBeCloseTo(right('d', 0), 9);
  });
});

describe('what-if', () => {
  test('avoidable is what is saved at the mean rates, over the mix', () => {
    const concepts = [concept('deep'), concept('x', ['deep']), concept('y')];
    const items = [
      ...times(12, (i) => item(`x${i}`, i < 6, ['x'])),
      ...times(8, (i) => item(`y${i}`, i < 1, ['y'])),
    ];
    const result = traceRoots(logOf({ concepts, items }));
    const rate = rootOf(result, 'x').faultRate;
    // By hand: 12 of 20 items meet x in full and what it rests on by 0.35; a sound rate is 1/25.
    const right = Math.exp(-(result.slipRate + rate + 0.35 * rootOf(result, 'deep').faultRate));
    const saved = (12 / 20) * 100 * right * (Math.exp(rate - 1 / 25) - 1);
    expect(rootOf(result, 'x').avoidable).toBeCloseTo(saved, 10);
    expect(rootOf(result, 'x').exposurePer100).toBeCloseTo(60, 12);
    // The deep concept is met at 0.35, so only that part of its rate is saved.
    const deepRate = rootOf(result, 'deep').faultRate;
    expect(deepRate).toBeGreaterThan(1 / 25);
    const savedDeep = (12 / 20) * 100 * right * (Math.exp(0.35 * (deepRate - 1 / 25)) - 1);
    expect(rootOf(result, 'deep').avoidable).toBeCloseTo(savedDeep, 10);
    expect(rootOf(result, 'deep').exposurePer100).toBeCloseTo(60 * 0.35, 12);
  });

  test('chances of a miss come to as many misses as there were, or near it', () => {
    // Forty topics on three others each, asked about five times and missed once in ten.
    const ids = Array.from({ length: 40 }, (_, t) => `t${t}`);
    const concepts = [
      ...['p', 'q', 'r'].map((id) => concept(id)),
      ...ids.map((id) => concept(id, ['p', 'q', 'r'])),
    ];
    const items = times(200, (i) => item(`${i}`, i % 10 === 0, [ids[i % 40]!]));
    const result = traceRoots(logOf({ concepts, items }));
    const expected = items.reduce((sum, each) => sum + result.missChance(each), 0);
    // The prior holds it back by forty items' worth.
    expect(Math.abs(expected - 20)).toBeLessThan(1.5);
  });

  test('missChance is a noisy-OR and names an unknown topic', () => {
    const log = logOf({ concepts: [concept('a'), concept('b')], items: [item('m', true, ['a'])] });
    const result = traceRoots(log);
    const right = (topics: string[]) => 1 - result.missChance({ topics });
    expect(right(['a', 'b']) * right([])).toBeCloseTo(right(['a']) * right(['b']), 14);
    expect(() => result.missChance({ topics: ['z'] })).toThrow('"z"');
  });
});

describe('order and names', () => {
  test('results do not depend on the order of concepts, links or items, nor on their names', () => {
    const options = { tolerance: 1e-10, mostPasses: 5_000 };
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1_000_000 }), (seed) => {
        const random = randomFrom(seed);
        const log = randomLog(random, { concepts: 7, right: 20, missed: 12 });
        const shuffled = <T>(list: readonly T[]): T[] =>
          list
            .map((value) => ({ value, key: random.uniform() }))
            .sort((a, b) => a.key - b.key)
            .map(({ value }) => value);
        const renamed = (id: string) => `z${9 - Number(id.slice(1))}`;
        const other: TraceLog = {
          ...log,
          concepts: shuffled(log.concepts).map((each) => ({
            ...each,
            id: renamed(each.id),
            restsOn: shuffled(each.restsOn).map((link) => ({ ...link, id: renamed(link.id) })),
          })),
          items: shuffled(log.items).map((each) => ({
            ...each,
            topics: shuffled(each.topics).map(renamed),
            causes: shuffled(each.causes).map(renamed),
          })),
        };
        const one = traceRoots(log, options);
        const two = traceRoots(other, options);
        for (const root of one.roots) {
          const twin = rootOf(two, renamed(root.conceptId));
          expect(twin.traced).toBeCloseTo(root.traced, 7);
          expect(twin.gapChance).toBeCloseTo(root.gapChance, 7);
          expect(twin.avoidable).toBeCloseTo(root.avoidable, 6);
        }
        expect(two.slip).toBeCloseTo(one.slip, 7);
      }),
      { numRuns: 40, seed: 45 },
    );
  });

  test('starting from an earlier result leads to the same place in fewer passes', () => {
    const log = randomLog(randomFrom(46), { concepts: 30, right: 300, missed: 150 });
    const options = { tolerance: 1e-9, mostPasses: 5_000 };
    const shorter = { ...log, items: log.items.slice(1) };
    const cold = traceRoots(log, options);
    const warm = traceRoots(log, { ...options, previous: traceRoots(shorter, options) });
    expect(warm.diagnostics.iterations).toBeLessThan(cold.diagnostics.iterations);
    for (const root of cold.roots)
      expect(rootOf(warm, root.conceptId).traced).toBeCloseTo(root.traced, 5);
  });

  test('says so when it did not settle', () => {
    const log = randomLog(randomFrom(46), { concepts: 30, right: 300, missed: 150 });
    const result = traceRoots(log, { mostPasses: 3, tolerance: 1e-12 });
    expect(result.diagnostics).toMatchObject({ converged: false, iterations: 3, method: 'quick' });
    expect(result.diagnostics.residual).toBeGreaterThan(1e-12);
  });
});

describe('nothing is NaN', { timeout: 60_000 }, () => {
  const map = [
    concept('deep', [], ['s', 't']),
    concept('x', ['deep']),
    concept('y', ['deep'], ['t']),
    concept('alone'),
  ];
  const cases: Record<string, TraceLog> = {
    'no concepts': logOf({}),
    'no concepts but misses': logOf({ items: [item('m', true, []), item('r', false, [])] }),
    'no items': logOf({ concepts: map }),
    'no misses': logOf({ concepts: map, items: times(9, (i) => item(`r${i}`, false, ['x'])) }),
    'all missed': logOf({
      concepts: map,
      items: times(300, (i) => item(`m${i}`, true, [i % 2 ? 'x' : 'y'])),
    }),
    'an item with no topic': logOf({
      concepts: map,
      items: [item('m', true, []), item('r', false, [])],
    }),
    'an item with no topic but a cause': logOf({
      concepts: map,
      items: [item('m', true, [], { causes: ['x'] })],
    }),
    'one item right': logOf({ concepts: map, items: [item('r', false, ['x'])] }),
    'one item missed': logOf({ concepts: map, items: [item('m', true, ['x'])] }),
    'a concept tied to every system': logOf({
      concepts: [
        concept('all', [], ['s', 't', 'u']),
        ...['x', 'y', 'z'].map((id) => concept(id, ['all'])),
      ],
      items: ['x', 'y', 'z'].flatMap((id) =>
        times(3, (i) => item(`${id}${i}`, true, [id], { system: `s${id}` })),
      ),
    }),
    'only totals': logOf({ concepts: map, unitemised: [{ at: 0, right: 30, missed: 10 }] }),
    'totals of an unknown system': logOf({
      concepts: map,
      unitemised: [{ at: 0, system: 'q', right: 3, missed: 1 }],
    }),
    'totals without a map': logOf({ unitemised: [{ at: 0, right: 3, missed: 2 }] }),
    'totals of nothing': logOf({ concepts: map, unitemised: [{ at: 0, right: 0, missed: 0 }] }),
    'evidence from centuries ago': logOf({
      concepts: map,
      items: [item('m', true, ['x'], { at: -400_000 * day })],
    }),
    'evidence from after now': logOf({
      concepts: map,
      items: [item('m', true, ['x'], { at: 5 * day })],
    }),
    'ten thousand misses of one concept': logOf({
      concepts: map,
      items: times(10_000, (i) => item(`m${i}`, true, ['alone'])),
    }),
    'a million right': logOf({
      concepts: map,
      unitemised: [{ at: 0, right: 1_000_000, missed: 0 }],
    }),
  };
  test.each(Object.keys(cases))('with %s', (name) => {
    const log = cases[name]!;
    const result = traceRoots(log);
    expectSound(result);
    expect(result.roots.map((root) => root.conceptId).sort()).toEqual(
      log.concepts.map((each) => each.id).sort(),
    );
    expect(result.missChance({ topics: log.concepts.map((each) => each.id) })).toBeLessThanOrEqual(
      1,
    );
  });
});

describe('mistakes', () => {
  const concepts = [concept('a')];
  test.each<[string, TraceLog, string]>([
    [
      'an unknown topic',
      logOf({ concepts, items: [item('i7', false, ['q'])] }),
      'item "i7" has the topic "q"',
    ],
    [
      'an unknown cause',
      logOf({ concepts, items: [item('i7', true, [], { causes: ['q'] })] }),
      'item "i7" has the cause "q"',
    ],
    [
      'an unknown concept in a reading',
      logOf({ concepts, readings: [{ at: 0, concepts: ['q'] }] }),
      'readings[0] covers "q"',
    ],
    [
      'a reading at no time',
      logOf({ concepts, readings: [{ at: NaN, concepts: [] }] }),
      'readings[0]',
    ],
    ['an unknown link', logOf({ concepts: [concept('a', ['q'])] }), '"a" rests on "q"'],
    ['a repeated concept', logOf({ concepts: [concept('a'), concept('a')] }), '"a" twice'],
    [
      'a loop',
      logOf({ concepts: [concept('a', ['b']), concept('b', ['a'])] }),
      'loop: "a" on "b" on "a"',
    ],
    [
      'a negative count',
      logOf({ concepts, unitemised: [{ at: 0, right: 4, missed: -2 }] }),
      'unitemised[0].missed = -2',
    ],
    [
      'a count that is no number',
      logOf({ concepts, unitemised: [{ at: 0, right: NaN, missed: 2 }] }),
      'unitemised[0].right = NaN',
    ],
    [
      'totals at no time',
      logOf({ concepts, unitemised: [{ at: NaN, right: 1, missed: 2 }] }),
      'unitemised[0]',
    ],
    [
      'an item at no time',
      logOf({ concepts, items: [item('i7', true, ['a'], { at: NaN })] }),
      'item "i7"',
    ],
    ['no present', logOf({ now: NaN }), 'now = NaN'],
  ])('%s is named', (_name, log, message) => {
    expect(() => traceRoots(log)).toThrow(RangeError);
    expect(() => traceRoots(log)).toThrow(message);
  });

  test('options out of range are named', () => {
    expect(() => traceRoots(logOf({}), { halfLifeDays: 0 })).toThrow('halfLifeDays = 0');
    expect(() => traceRoots(logOf({}), { mostPasses: 0 })).toThrow('mostPasses = 0');
    expect(() => traceRoots(logOf({}), { tolerance: NaN })).toThrow('tolerance = NaN');
  });
});

describe('countNamedCauses', () => {
  test('counts each miss once for each concept it names, largest first, ties by id', () => {
    const items = [
      item('1', true, [], { causes: ['b', 'b'] }),
      item('2', true, [], { causes: ['c', 'a'] }),
      item('3', true, [], { causes: ['c'] }),
      item('4', false, [], { causes: ['b'] }),
    ];
    expect(countNamedCauses({ items })).toEqual([
      { conceptId: 'c', count: 2 },
      { conceptId: 'a', count: 1 },
      { conceptId: 'b', count: 1 },
    ]);
  });
});
