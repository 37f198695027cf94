/** What is bright, drawn and named when a concept or a discipline is looked at; where heads may break. */
import { describe, expect, it } from 'vitest';
import { breakable } from '../../../../src/screens/map/breakable';
import { highlightOf, type Looked } from '../../../../src/screens/map/highlight';
import { linksOf } from '../../../../src/screens/map/section-model';
import type { Concept } from '../../../../src/model/concept-map';

/** Two chains that meet in "base"; "aside" rests on what the chosen one does not. */
const restsOn: Record<string, Record<string, number | undefined>> = {
  top: { middle: 1, side: 0.5 },
  middle: { base: undefined },
  side: { base: 0.2 },
  aside: { other: 0.5 },
  base: {},
  other: {},
};
const concepts = new Map(
  Object.entries(restsOn).map(([id, below]) => [
    id,
    {
      id,
      restsOn: Object.entries(below).map(([concept, strength]) => ({ concept, strength })),
    } as unknown as Concept,
  ]),
);
const looked = (more: Partial<Looked>): Looked => ({
  concepts,
  links: linksOf(concepts),
  rootOf: new Map([
    ['side', { traced: 4 }],
    ['middle', { traced: 1 }],
  ]),
  chosen: undefined,
  lit: undefined,
  rays: undefined,
  ...more,
});

describe('the highlight', () => {
  it('of a concept is it with all above and below, every link between these, and no other', () => {
    const { bright, links, wanted } = highlightOf(looked({ chosen: { id: 'base' as never } }));
    expect([...bright!].sort()).toEqual(['base', 'middle', 'side', 'top']);
    expect(links.map(({ from, to }) => `${from} ${to}`).sort()).toEqual([
      'middle base',
      'side base',
      'top middle',
      'top side',
    ]);
    // Itself, then what rests on it directly, the heavier first.
    expect(wanted.slice(0, 3)).toEqual(['base', 'side', 'middle']);
    expect(new Set(wanted)).toEqual(bright);
  });

  it('leaves out a way round that does not pass the chosen one', () => {
    const { links } = highlightOf(looked({ chosen: { id: 'middle' as never } }));
    expect(links.map(({ from, to }) => `${from} ${to}`).sort()).toEqual([
      'middle base',
      'top middle',
    ]);
  });

  it('draws a stronger link wider', () => {
    const { links } = highlightOf(looked({ chosen: { id: 'top' as never } }));
    const widthOf = (from: string, to: string) =>
      links.find((link) => link.from === from && link.to === to)!.width;
    expect(widthOf('top', 'middle')).toBeGreaterThan(widthOf('top', 'side'));
    expect(widthOf('top', 'side')).toBeGreaterThan(widthOf('middle', 'base'));
    expect(widthOf('middle', 'base')).toBeGreaterThan(widthOf('side', 'base'));
  });

  it('shows rays in place of links, the widest first to be named', () => {
    const rays = [
      { from: 'aside', to: 'base', width: 2, kind: 'ray' },
      { from: 'top', to: 'base', width: 9, kind: 'ray' },
    ] as const;
    const found = highlightOf(looked({ chosen: { id: 'base' as never }, rays }));
    expect(found.links).toBe(rays);
    expect(found.wanted).toEqual(['base', 'top', 'aside']);
  });

  it('of a discipline is its concepts, without links', () => {
    const lit = new Set(['middle', 'side']);
    expect(highlightOf(looked({ lit }))).toEqual({
      chosen: undefined,
      bright: lit,
      lit,
      links: [],
      wanted: ['side', 'middle'],
    });
  });
});

describe('the heads of narrow columns', () => {
  it('may break after the vowel nearest to the middle of a long word, and short ones nowhere', () => {
    expect(breakable('Endocrine')).toBe('Endo\u00adcrine');
    expect(breakable('Bone, muscle')).toBe('Bone, muscle');
    expect(breakable('Reproductive').replace('\u00ad', '')).toBe('Reproductive');
  });
});
