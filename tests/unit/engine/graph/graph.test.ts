import { describe, expect, test } from 'vitest';
import { buildClosures } from '../../../../src/engine/graph/closure';
import { buildConceptGraph, restedOn } from '../../../../src/engine/graph/concept-graph';
import { findLoop, restingOrder } from '../../../../src/engine/graph/loop';
import { randomFrom } from '../../../../src/engine/numeric/random';
import { bestProducts, type Link } from '../../../oracles/engine/best-paths';

/** n0 rests on both of a pair, both of which rest on n1, and so on: 2^count paths. */
function diamonds(count: number) {
  const concepts: { id: string; restsOn: { id: string; strength?: number }[] }[] = [];
  for (let i = 0; i < count; i++) {
    concepts.push({ id: `n${i}`, restsOn: [{ id: `l${i}` }, { id: `r${i}` }] });
    concepts.push({ id: `l${i}`, restsOn: [{ id: `n${i + 1}` }] });
    concepts.push({ id: `r${i}`, restsOn: [{ id: `n${i + 1}` }] });
  }
  concepts.push({ id: `n${count}`, restsOn: [] });
  return concepts;
}

describe('buildConceptGraph', () => {
  test('names the entry that is wrong', () => {
    const build = (concepts: Parameters<typeof buildConceptGraph>[1]) => () =>
      buildConceptGraph('here', concepts);
    expect(build([{ id: 'a', restsOn: [{ id: 'z' }] }])).toThrow('here: concept "a" rests on "z"');
    expect(
      build([
        { id: 'a', restsOn: [] },
        { id: 'a', restsOn: [] },
      ]),
    ).toThrow('"a" twice');
    for (const strength of [0, -0.1, 1.2, NaN])
      expect(
        build([
          { id: 'a', restsOn: [{ id: 'b', strength }] },
          { id: 'b', restsOn: [] },
        ]),
      ).toThrow(`strength ${strength} for "a" on "b"`);
  });

  test('names the concepts of a loop in order, and a concept that rests on itself', () => {
    expect(() =>
      buildConceptGraph('here', [
        { id: 'top', restsOn: [{ id: 'a' }] },
        { id: 'a', restsOn: [{ id: 'b' }] },
        { id: 'b', restsOn: [{ id: 'c' }] },
        { id: 'c', restsOn: [{ id: 'a' }] },
      ]),
    ).toThrow('in a loop: "a" on "b" on "c" on "a"');
    expect(() => buildConceptGraph('here', [{ id: 'a', restsOn: [{ id: 'a' }] }])).toThrow(
      '"a" on "a"',
    );
  });

  test('knows the leaves', () => {
    const graph = buildConceptGraph('here', [
      { id: 'deep', restsOn: [] },
      { id: 'leaf', restsOn: [{ id: 'deep' }] },
    ]);
    expect([...restedOn(graph)]).toEqual([1, 0]);
  });
});

describe('findLoop', () => {
  test('enters each concept of a chain of 40 diamonds once', () => {
    const graph = buildConceptGraph('here', diamonds(40));
    let visits = 0;
    expect(findLoop(graph.linkStart, graph.linkTarget, () => (visits += 1))).toBeUndefined();
    expect(visits).toBe(121);
  });

  test('does not run out of stack on a path of 200,000', () => {
    const start = Int32Array.from({ length: 200_001 }, (_, i) => Math.min(i, 199_999));
    const target = Int32Array.from({ length: 199_999 }, (_, i) => i + 1);
    expect(findLoop(start, target)).toBeUndefined();
    expect(restingOrder(start, target)[0]).toBe(199_999);
  });
});

describe('restingOrder', () => {
  test('puts what is rested on first, and counts what is left in a loop', () => {
    const graph = buildConceptGraph('here', diamonds(6));
    const order = [...restingOrder(graph.linkStart, graph.linkTarget)];
    expect(new Set(order).size).toBe(19);
    for (let node = 0; node < 19; node++)
      for (let link = graph.linkStart[node]!; link < graph.linkStart[node + 1]!; link++)
        expect(order.indexOf(graph.linkTarget[link]!)).toBeLessThan(order.indexOf(node));
    expect(() => restingOrder(Int32Array.of(0, 1, 2, 2), Int32Array.of(1, 0))).toThrow('2 nodes');
  });
});

describe('buildClosures', () => {
  test('multiplies strengths along a path and stops three links down', () => {
    const chain = ['a', 'b', 'c', 'd', 'e'].map((id, i, all) => ({
      id,
      restsOn: i < 4 ? [{ id: all[i + 1]!, strength: 0.5 }] : [],
    }));
    const closures = buildClosures(buildConceptGraph('here', chain));
    expect([...closures.weight.subarray(0, closures.start[1])]).toEqual([1, 0.5, 0.25, 0.125]);
  });

  test('takes the best path, also where a longer one beats a shorter', () => {
    const graph = buildConceptGraph('here', [
      {
        id: 'a',
        restsOn: [
          { id: 'c', strength: 0.1 },
          { id: 'b', strength: 0.9 },
        ],
      },
      { id: 'b', restsOn: [{ id: 'c', strength: 0.8 }] },
      { id: 'c', restsOn: [{ id: 'd', strength: 0.5 }] },
      { id: 'd', restsOn: [{ id: 'e', strength: 1 }] },
      { id: 'e', restsOn: [] },
    ]);
    const closures = buildClosures(graph);
    const ofA = new Map<string, number>();
    for (let k = 0; k < closures.start[1]!; k++)
      ofA.set(graph.ids[closures.concept[k]!]!, closures.weight[k]!);
    expect(ofA.get('c')).toBeCloseTo(0.72, 14);
    expect(ofA.get('d')).toBeCloseTo(0.36, 14);
    // Four links by the better path, so the weaker path of three counts.
    expect(ofA.get('e')).toBeCloseTo(0.05, 14);
  });

  test('agrees with walking every path on 200 random maps', () => {
    const random = randomFrom(3);
    for (let round = 0; round < 200; round++) {
      const count = 2 + Math.floor(random.uniform() * 9);
      const links: Link[] = [];
      for (let from = 1; from < count; from++)
        for (let to = 0; to < from; to++)
          if (random.uniform() < 0.4)
            links.push({ from, to, strength: 0.05 + 0.95 * random.uniform() });
      const graph = buildConceptGraph(
        'here',
        Array.from({ length: count }, (_, i) => ({
          id: `c${i}`,
          restsOn: links
            .filter((link) => link.from === i)
            .map((link) => ({ id: `c${link.to}`, strength: link.strength })),
        })),
      );
      for (const depth of [1, 2, 3, 5]) {
        const closures = buildClosures(graph, depth);
        for (let topic = 0; topic < count; topic++) {
          const expected = bestProducts(links, topic, depth);
          const first = closures.start[topic]!;
          const end = closures.start[topic + 1]!;
          expect(end - first).toBe(expected.size);
          for (let k = first; k < end; k++)
            expect(closures.weight[k]).toBeCloseTo(expected.get(closures.concept[k]!)!, 14);
        }
      }
    }
  });
});
