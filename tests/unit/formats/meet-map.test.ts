/** Bringing a foreign map in: what is met by name, what is new, and no loop. */
import { describe, expect, it } from 'vitest';
import { meetMap, type MetMap, type SkosMap } from '../../../src/formats';

const nothing = { concepts: [], disciplines: [], systems: [] };

const concept = (id: string, name: string, restsOn: readonly string[] = [], more: object = {}) => ({
  id,
  name,
  aliases: [] as string[],
  covers: '',
  disciplines: [] as string[],
  systems: [] as string[],
  restsOn: restsOn.map((below) => ({ concept: below })),
  ...more,
});

const fileOf = (concepts: readonly object[], more: object = {}) =>
  ({
    name: '',
    disciplines: [],
    systems: [],
    concepts,
    isOurs: false,
    notes: [],
    ...more,
  }) as never as SkosMap;

const idsOf = (met: MetMap) => [...met.systems, ...met.concepts].map(({ id }) => id);

describe('bringing a map in from a file', () => {
  it('takes a concept, a discipline or a system of the same folded name for the one that is there', () => {
    const met = meetMap(
      {
        concepts: [concept('buffer', 'Bicarbonate buffer', [], { aliases: ['HCO3 buffer'] })],
        disciplines: [{ id: 'physio', name: 'Physiology' }],
        systems: [{ id: 'renal', name: 'Kidney' }],
      },
      fileOf(
        [
          concept('x1', 'bicarbonate  BUFFER'),
          concept('x2', 'HCO3 buffer'),
          concept('x3', 'Renal compensation', ['x1', 'x2'], {
            disciplines: ['d'],
            systems: ['s', 't'],
          }),
        ],
        {
          disciplines: [{ id: 'd', name: 'physiology' }],
          systems: [
            { id: 's', name: 'KIDNEY' },
            { id: 't', name: 'Lung' },
          ],
        },
      ),
    );
    expect(met.disciplines).toEqual([]);
    expect(idsOf(met)).toEqual(['t', 'x3']);
    expect(met.met).toBe(2);
    expect(met.concepts[0]).toMatchObject({
      disciplines: ['physio'],
      systems: ['renal', 't'],
      restsOn: [{ concept: 'buffer' }],
    });
  });

  it('leaves out the link that would close a loop once two names of the file are one', () => {
    // a on b, b on "A" again: taken for a, so that b would rest on what rests on it.
    const met = meetMap(
      nothing,
      fileOf([concept('a', 'Alpha', ['b']), concept('b', 'Beta', ['a2']), concept('a2', 'alpha')]),
    );
    expect(idsOf(met)).toEqual(['a', 'b']);
    expect(met.broken).toEqual(['Beta on Alpha']);
    expect(met.concepts[1]).toMatchObject({ restsOn: [] });
  });
});
