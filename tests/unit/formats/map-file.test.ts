import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { findLoop } from '../../../src/formats/find-loop';
import { parseMapFile } from '../../../src/formats/map-file';

const head = {
  format: 'hypocentre-map',
  version: 1,
  name: 'Small map',
  about: 'For tests.',
  disciplines: [{ id: 'physiology', name: 'Physiology' }],
  systems: [{ id: 'renal', name: 'Renal', shortName: 'Kidney' }],
};
const concept = (id: string, restsOn: readonly string[] = [], more: object = {}) => ({
  id,
  name: `Concept ${id}`,
  aliases: [],
  covers: '',
  disciplines: ['physiology'],
  systems: ['renal'],
  restsOn: restsOn.map((each) => ({ concept: each })),
  ...more,
});
const faultsOf = (...parts: unknown[]) => {
  const checked = parseMapFile(parts);
  return checked.kind === 'ok'
    ? []
    : checked.faults.map(({ path, message }) => `${path}: ${message}`);
};

describe('parseMapFile', () => {
  it('joins the head and its parts, in the order given', () => {
    const checked = parseMapFile([
      { ...head, files: ['a.json', 'b.json'], concepts: [concept('a')] },
      { concepts: [concept('b', ['a', 'c'])] },
      { concepts: [concept('c', [], { restsOn: [{ concept: 'a', strength: 0.6 }] })] },
    ]);
    if (checked.kind === 'rejected') throw new Error(checked.faults[0]!.message);
    expect(checked.value.concepts.map(({ id }) => id)).toEqual(['a', 'b', 'c']);
    expect(checked.value.concepts[2]!.restsOn).toEqual([{ concept: 'a', strength: 0.6 }]);
    expect(checked.value).toMatchObject({ name: 'Small map', about: 'For tests.', doubts: [] });
    expect(checked.value.systems).toEqual([{ id: 'renal', name: 'Renal', shortName: 'Kidney' }]);
  });

  it('names the field and the part that is wrong', () => {
    expect(faultsOf({ ...head, concepts: [{ ...concept('a'), name: 7 }] })).toEqual([
      'concepts.0.name: need text for name',
    ]);
    expect(
      faultsOf(head, {
        concepts: [concept('a'), concept('b', [], { restsOn: [{ concept: 'a', strength: 2 }] })],
      }),
    ).toEqual(['parts.1.concepts.1.restsOn.0.strength: a link strength is at most 1']);
  });

  it.each([
    [
      'another format',
      { ...head, format: 'other' },
      'format: this is not a map file of Hypocentre',
    ],
    [
      'a later version',
      { ...head, version: 2 },
      'version: this version of Hypocentre reads map files of version 1',
    ],
  ])('refuses %s', (_, part, fault) => {
    expect(faultsOf(part)).toEqual([fault]);
  });

  it.each([[undefined], [null], ['text'], [[]], [42]])('refuses %j without throwing', (part) => {
    expect(faultsOf(part).length).toBeGreaterThan(0);
  });

  it('refuses an id used twice, across parts too', () => {
    expect(faultsOf({ ...head, concepts: [concept('a')] }, { concepts: [concept('a')] })).toEqual([
      'parts.1.concepts.0.id: the id "a" is used already at parts.0.concepts.0',
    ]);
  });

  it('refuses links that lead nowhere or stand twice', () => {
    const concepts = [
      concept('a', ['b', 'b', 'gone'], { disciplines: ['alchemy'], systems: ['renal', 'moon'] }),
      concept('b'),
    ];
    expect(faultsOf({ ...head, concepts })).toEqual([
      'concepts.0.disciplines.0: there is no discipline "alchemy"',
      'concepts.0.systems.1: there is no organ system "moon"',
      'concepts.0.restsOn.1.concept: the concept "b" is named twice',
      'concepts.0.restsOn.2.concept: there is no concept "gone"',
    ]);
  });

  it('refuses a loop and names it', () => {
    const concepts = [
      concept('a', ['b']),
      concept('b', ['c']),
      concept('c', ['d', 'b']),
      concept('d'),
    ];
    expect(faultsOf({ ...head, concepts })).toEqual([
      'concepts.1.restsOn: these rest on each other in a loop: "Concept b" rests on "Concept c" rests on "Concept b"',
    ]);
    expect(faultsOf({ ...head, concepts: [concept('a', ['a'])] })[0]).toContain('in a loop');
  });

  it('reports a name that two concepts share, folded, and still takes the map', () => {
    const concepts = [
      concept('a', [], { name: 'Oedema' }),
      concept('b', [], { name: 'Swelling', aliases: ['swellings', 'edema'] }),
    ];
    const checked = parseMapFile([{ ...head, concepts }]);
    expect(checked.kind === 'ok' && checked.value.doubts).toEqual([
      { path: 'concepts.1.aliases.1', message: '"edema" also names the concept "Oedema"' },
    ]);
  });

  it('takes the starter map, in which no two concepts share a folded name', () => {
    const folder = new URL('../../../seed-data/maps/human/', import.meta.url);
    const read = (name: string) =>
      JSON.parse(readFileSync(new URL(name, folder), 'utf8')) as unknown;
    const others = readdirSync(folder).filter(
      (name) => name.endsWith('.json') && name !== 'map.json',
    );
    const checked = parseMapFile([read('map.json'), ...others.map(read)]);
    if (checked.kind === 'rejected') throw new Error(JSON.stringify(checked.faults.slice(0, 5)));
    expect(checked.value.concepts.length).toBeGreaterThanOrEqual(120);
    expect(checked.value.doubts).toEqual([]);
  });
});

describe('findLoop', () => {
  /** Each level of two nodes links to both of the next: 2^levels paths. */
  const diamonds = (levels: number) =>
    Array.from({ length: 2 * levels }, (_, row) => {
      const next = row - (row % 2) + 2;
      return next < 2 * levels ? [next, next + 1] : [];
    });

  it('visits each node of a chain of diamonds once', () => {
    let visits = 0;
    expect(findLoop(diamonds(40), () => (visits += 1))).toBeUndefined();
    expect(visits).toBe(80);
  });

  it('finds the loop that closes a chain of diamonds', () => {
    const links = diamonds(10).map((targets, row) => (row === 19 ? [0] : targets));
    const loop = findLoop(links)!;
    loop.forEach((row, i) => expect(links[row]).toContain(loop[(i + 1) % loop.length]));
  });

  it('agrees with powers of the adjacency matrix on all graphs of three nodes', () => {
    for (let code = 0; code < 512; code += 1) {
      const links = [0, 1, 2].map((a) => [0, 1, 2].filter((b) => code & (1 << (3 * a + b))));
      const reaches = links.map((targets) => [0, 1, 2].map((b) => targets.includes(b)));
      for (const via of [0, 1, 2])
        for (const a of [0, 1, 2])
          for (const b of [0, 1, 2]) {
            if (reaches[a]![via] && reaches[via]![b]) reaches[a]![b] = true;
          }
      const hasLoop = [0, 1, 2].some((a) => reaches[a]![a]);
      expect(findLoop(links) !== undefined).toBe(hasLoop);
    }
  });
});
