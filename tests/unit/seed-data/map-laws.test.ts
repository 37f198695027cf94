/** The laws that judge the shipped maps, tried on maps small enough to check by eye. */
import { describe, expect, it } from 'vitest';
import * as v from 'valibot';
import { conceptContent } from '../../../src/model/concept-map';
import { foldedLabel } from './map-files';
import { closures, connectedParts, idsOnCycles, longestPath, unmeantShortcuts } from './map-laws';

/** 'a>b,c' means a rests on b and c; 'a>b!' states the strength of that link. */
function mapOf(...lines: readonly string[]) {
  return lines.map((line) => {
    const [id = '', below = ''] = line.split('>');
    const restsOn = below
      .split(',')
      .filter(Boolean)
      .map((text) =>
        text.endsWith('!') ? { concept: text.slice(0, -1), strength: 0.5 } : { concept: text },
      );
    return v.parse(v.object(conceptContent), {
      id,
      name: id,
      aliases: [],
      covers: '',
      disciplines: [],
      systems: [],
      restsOn,
    });
  });
}

//   a ──► b ──► d      e ──► f
//   └──────────►┘
const small = mapOf('a>b,d', 'b>d', 'd', 'e>f', 'f');

describe('the laws of map links', () => {
  it('gather everything below a concept', () => {
    expect([...(closures(small).get('a') ?? [])].sort()).toEqual(['b', 'd']);
  });

  it('count the links of the longest path', () => {
    expect(longestPath(small)).toBe(2);
  });

  it('find both parts of a map in two pieces', () => {
    expect(connectedParts(small).map((part) => part.sort())).toEqual([
      ['a', 'b', 'd'],
      ['e', 'f'],
    ]);
  });

  it('report a shortcut that states no strength, and only that', () => {
    expect(unmeantShortcuts(small)).toEqual(['a -> d']);
    expect(unmeantShortcuts(mapOf('a>b,d!', 'b>d', 'd'))).toEqual([]);
  });

  it('name every concept on a loop and refuse to measure its depth', () => {
    const looped = mapOf('a>b', 'b>c', 'c>b', 'd');
    expect(idsOnCycles(looped).sort()).toEqual(['b', 'c']);
    expect(() => longestPath(looped)).toThrow(RangeError);
  });

  it('fold British and American spellings, accents and marks into one label', () => {
    expect(foldedLabel('Anaemia')).toBe(foldedLabel('anemia'));
    expect(foldedLabel('Tumour')).toBe(foldedLabel('tumor'));
    expect(foldedLabel('Sjögren-syndrome')).toBe(foldedLabel('sjogren syndrome'));
    expect(foldedLabel('HLA-B27')).not.toBe(foldedLabel('HLA-B7'));
  });
});
