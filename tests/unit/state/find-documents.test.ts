import { describe, expect, it } from 'vitest';
import {
  conceptDocument,
  itemDocument,
  lastLooksOf,
  lineDocument,
  noteDocument,
  readingDocument,
  stillStands,
  watched,
  type FindSource,
} from '../../../src/state/find-documents';

const stamp = { revision: 1 } as never;
const concept = (id: string, name: string, more: object = {}) =>
  ({
    id,
    name,
    aliases: [],
    covers: '',
    disciplines: [],
    systems: [],
    restsOn: [],
    stamp,
    ...more,
  }) as never;
const picture = (id: string, alt: string) => ({ id, alt, stamp }) as never;

function source(more: Partial<Record<keyof FindSource, [string, unknown][]>> = {}): FindSource {
  const map = (kind: keyof FindSource) => new Map(more[kind] ?? []) as never;
  return {
    concepts: map('concepts'),
    blocks: map('blocks'),
    lastLooks: map('lastLooks'),
    pictures: map('pictures'),
  };
}

const miss = (more: object = {}) =>
  ({
    id: 'i1',
    block: 'b1',
    position: 4,
    outcome: 'missed',
    topics: [],
    causes: [],
    missingPiece: 'the pump is working',
    optionTurns: [],
    stamp,
    ...more,
  }) as never;

describe('what Find looks through', () => {
  it('holds a concept’s other names, what it covers, its mnemonic and what its pictures show', () => {
    const made = conceptDocument(
      concept('c1', 'Pump', {
        aliases: ['ATPase'],
        covers: 'three out',
        mnemonic: 'two in',
        pictures: ['p1', 'gone'],
      }),
      source({ pictures: [['p1', picture('p1', 'a drawn membrane')]] }),
    );
    expect([made.title, made.names, made.text]).toEqual([
      'Pump',
      ['ATPase'],
      'three out\ntwo in\na drawn membrane',
    ]);
  });

  it('holds a miss’s missing piece, option turns, reason and reference, its day and its places', () => {
    const made = itemDocument(
      miss({
        topics: ['c1'],
        causes: ['c2', 'c1'],
        system: 's0',
        reason: 'two-left',
        reference: 'Q 17',
        optionTurns: [{ option: 'shunt', turn: 'if oxygen did not help' }],
      }),
      source({
        blocks: [['b1', { id: 'b1', day: 19_000 }]],
        concepts: [
          ['c1', concept('c1', 'Pump', { systems: ['s1'], disciplines: ['d1'] })],
          ['c2', concept('c2', 'Gradient', { systems: ['s1', 's2'] })],
        ],
      }),
    )!;
    expect(made.title).toBe('the pump is working');
    expect(made.text).toBe('shunt: if oxygen did not help\ntwo left and chose wrong\nQ 17');
    expect(made.links).toBe('Gradient\nPump');
    expect([made.systems, made.disciplines]).toEqual([['s0', 's1', 's2'], ['d1']]);
    expect([made.day, made.settled]).toEqual([19_000, false]);
  });

  it('holds no right item without words, and a right one with a missing piece', () => {
    expect(itemDocument(miss({ outcome: 'right', missingPiece: '' }), source())).toBeUndefined();
    expect(itemDocument(miss({ outcome: 'guessed-right' }), source())).toBeDefined();
  });

  it('calls a miss settled by the last second look, whatever order the looks come in', () => {
    const looks = [
      { id: 'l2', item: 'i1', at: 20, outcome: 'had-it' },
      { id: 'l1', item: 'i1', at: 10, outcome: 'not-yet' },
      { id: 'l3', item: 'i2', at: 30, outcome: 'not-yet' },
    ] as never[];
    const lastLooks = lastLooksOf(looks);
    expect(itemDocument(miss(), { ...source(), lastLooks })?.settled).toBe(true);
    expect(itemDocument(miss({ id: 'i2' }), { ...source(), lastLooks })?.settled).toBe(false);
  });

  it('joins a note’s own systems and disciplines with those of its concepts', () => {
    const made = noteDocument(
      {
        id: 'n1',
        title: 'T',
        text: 'x',
        concepts: ['c1'],
        disciplines: ['d9', 'd1'],
        systems: [],
        stamp,
      } as never,
      source({
        concepts: [['c1', concept('c1', 'Pump', { systems: ['s1'], disciplines: ['d1'] })]],
      }),
    );
    expect([made.systems, made.disciplines]).toEqual([['s1'], ['d9', 'd1']]);
  });

  it('holds a line under its heading, or under its text where it has none', () => {
    const line = { id: 'l1', text: 'Na - Cl', concepts: [], timesNeeded: 0, stamp };
    const bare = lineDocument(line as never, source());
    const headed = lineDocument({ ...line, heading: 'Gap' } as never, source());
    expect([bare.title, bare.text]).toEqual(['Na - Cl', '']);
    expect([headed.title, headed.text]).toEqual(['Gap', 'Na - Cl']);
  });

  it('holds a reading with its source and place', () => {
    const reading = {
      id: 'r1',
      title: 'Pumps',
      source: 'A book',
      locator: 'ch. 3',
      main: [],
      touched: [],
      stamp,
    };
    expect(readingDocument(reading as never, source()).text).toBe('A book\nch. 3');
  });

  it('has another mark once anything of it changes, and knows what it was made from', () => {
    const before = source({ concepts: [['c1', concept('c1', 'Pump')]] });
    const watching = watched(before);
    const made = itemDocument(miss({ topics: ['c1', 'missing'] }), watching.source)!;
    expect(stillStands(watching.uses, before)).toBe(true);
    const renamed = source({ concepts: [['c1', concept('c1', 'Sponge')]] });
    expect(stillStands(watching.uses, renamed)).toBe(false);
    expect(itemDocument(miss({ topics: ['c1', 'missing'] }), renamed)!.mark).not.toBe(made.mark);
    const appeared = source({ blocks: [['b1', { id: 'b1', day: 3 }]] });
    expect(stillStands(watching.uses, appeared)).toBe(false);
  });
});
