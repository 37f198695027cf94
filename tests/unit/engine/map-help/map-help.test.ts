/** Proposals for the map. */
import { describe, expect, it } from 'vitest';
import { adjustForMany } from '../../../../src/engine/map-help/false-discovery';
import { chanceOfAtLeast, findMissingLinks } from '../../../../src/engine/map-help/missed-together';
import {
  findBroadConcepts,
  findImpliedLinks,
  findNearNames,
} from '../../../../src/engine/map-help/tidy';
import { turned } from '../../../../src/engine/graph/reach';
import { randomFrom } from '../../../../src/engine/numeric/random';
import { foldName } from '../../../../src/model/fold-name';

const picker = (seed: number) => {
  const random = randomFrom(seed);
  return (below: number) => Math.floor(random.uniform() * below);
};

describe('many tests at once', () => {
  it('rejects as many as the step-up rule does by its own words, on 200 random lists', () => {
    const random = randomFrom(4);
    for (let round = 0; round < 200; round++) {
      const pValues = Array.from({ length: 1 + (random.word() % 20) }, () => random.uniform() ** 4);
      const tests = pValues.length + (random.word() % 10);
      // Benjamini and Hochberg 1995, (1): the largest k with p(k) <= k q / m; reject 1..k.
      const sorted = [...pValues].sort((a, b) => a - b);
      let k = 0;
      sorted.forEach((p, i) => {
        if (p <= ((i + 1) * 0.05) / tests) k = i + 1;
      });
      expect(adjustForMany(pValues, tests).filter((p) => p <= 0.05)).toHaveLength(k);
    }
  });

  it('gives the worked example of two', () => {
    const [one, two] = adjustForMany([0.01, 0.04], 2);
    expect(one).toBeCloseTo(0.02, 12);
    expect(two).toBeCloseTo(0.04, 12);
  });
});

describe('concepts missed together', () => {
  it('knows the chance of an overlap as counting every drawing does', () => {
    // All ways to draw 4 of 9, of which the first 3 are marked.
    const drawings: number[][] = [];
    for (let bits = 0; bits < 512; bits++) {
      const drawn = Array.from({ length: 9 }, (_, k) => k).filter((k) => bits & (1 << k));
      if (drawn.length === 4) drawings.push(drawn);
    }
    for (const both of [0, 1, 2, 3]) {
      const hits = drawings.filter((drawn) => drawn.filter((k) => k < 3).length >= both).length;
      expect(chanceOfAtLeast(both, 3, 4, 9)).toBeCloseTo(hits / drawings.length, 10);
    }
  });

  const ids = Array.from({ length: 30 }, (_, k) => `c${k}`);
  const unlinked = new Map<string, string[]>(ids.map((id) => [id, []]));
  const byChance = (seed: number) => {
    const pick = picker(seed);
    return Array.from({ length: 300 }, () => ({
      topics: [ids[pick(28)]!],
      causes: [ids[pick(28)]!],
    }));
  };
  const planted = Array.from({ length: 14 }, () => ({ topics: ['c28'], causes: ['c29'] }));

  it('finds a planted pair, from the topic to the cause, and little else', () => {
    const found = findMissingLinks([...byChance(6), ...planted], unlinked);
    expect(found[0]).toMatchObject({ from: 'c28', to: 'c29', together: 14 });
    expect(found.length).toBeLessThanOrEqual(2);
  });

  it('proposes nothing in logs made by chance, in nearly all of 40', () => {
    const withAny = Array.from({ length: 40 }, (_, seed) =>
      findMissingLinks(byChance(100 + seed), unlinked),
    ).filter((found) => found.length > 0);
    // At a false share of 5 % two are expected; eight would be a chance of under 1 in 1,000.
    expect(withAny.length).toBeLessThan(8);
  });

  it('proposes no link where a way leads already', () => {
    const linked = new Map(unlinked).set('c28', ['c3']).set('c3', ['c29']);
    const found = findMissingLinks([...byChance(6), ...planted], linked);
    expect(found.some(({ from, to }) => from === 'c28' && to === 'c29')).toBe(false);
  });
});

describe('tidying', () => {
  it('points out exactly the links without which every way remains, on 40 random maps', () => {
    const pick = picker(12);
    const ways = (below: Map<string, string[]>, from: string): Set<string> =>
      new Set((below.get(from) ?? []).flatMap((to) => [to, ...ways(below, to)]));
    for (let round = 0; round < 40; round++) {
      const count = 3 + pick(6);
      const below = new Map(
        Array.from({ length: count }, (_, i) => [
          `n${i}`,
          Array.from({ length: count - i - 1 }, (_, k) => `n${i + 1 + k}`).filter(
            () => pick(2) === 0,
          ),
        ]),
      );
      const slow = [...below].flatMap(([from, list]) =>
        list.flatMap((to) => {
          const without = new Map(below).set(
            from,
            list.filter((each) => each !== to),
          );
          return ways(without, from).has(to) ? [{ from, to }] : [];
        }),
      );
      expect(findImpliedLinks(below)).toEqual(slow);
    }
  });

  it('calls a concept broad when more than a quarter of the map rests on it', () => {
    const below = new Map<string, string[]>(
      Array.from({ length: 24 }, (_, k) => [`c${k}`, k > 0 && k <= 8 ? ['c0'] : []]),
    );
    const broad = findBroadConcepts(turned(below), [...below.keys()]);
    expect(broad).toEqual([{ id: 'c0', share: 8 / 23, direct: 8 }]);
  });

  it('finds names that fold alike or are a letter apart, but not short ones or other numbers', () => {
    const near = findNearNames([
      { id: 'a', names: ['Oedema of the lung'] },
      { id: 'b', names: ['edema of the lungs'] },
      { id: 'c', names: ['Glomerular filtration'] },
      { id: 'd', names: ['Glomerular filtrations x', 'Glomerular filtratiom'] },
      { id: 'e', names: ['Ileum'] },
      { id: 'f', names: ['Ilium'] },
      { id: 'g', names: ['Hypersensitivity type 1'] },
      { id: 'h', names: ['Hypersensitivity type 2'] },
    ]);
    expect(near.map(({ one, other, same }) => [one, other, same])).toEqual([
      ['a', 'b', true],
      ['c', 'd', false],
    ]);
  });

  it('finds the same near names as comparing every pair, on 30 random lists', () => {
    const pick = picker(44);
    for (let round = 0; round < 30; round++) {
      // Few letters, so that many are near; eight or more of them, as is asked of names.
      const names = Array.from({ length: 40 }, () =>
        Array.from({ length: 8 + pick(2) }, () => 'ab'[pick(2)]!).join(''),
      );
      const near = (a: string, b: string) =>
        a.length === b.length
          ? [...a].filter((letter, k) => letter !== b[k]).length <= 1
          : [...(a.length > b.length ? a : b)].some(
              (_, k, long) => long.toSpliced(k, 1).join('') === (a.length > b.length ? b : a),
            );
      const slow = names.flatMap((a, i) =>
        names.flatMap((b, k) =>
          i < k && Math.abs(a.length - b.length) < 2 && near(foldName(a), foldName(b))
            ? [[i, k].map((at) => `n${String(at).padStart(2, '0')}`).join(' ')]
            : [],
        ),
      );
      const found = findNearNames(
        names.map((name, i) => ({ id: `n${String(i).padStart(2, '0')}`, names: [name] })),
      );
      expect(found.map(({ one, other }) => `${one} ${other}`).sort()).toEqual(slow.sort());
    }
  });
});
