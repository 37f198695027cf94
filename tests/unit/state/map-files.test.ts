/** Bringing a foreign map in: what is met by name, what is new, and no loop. */
import { describe, expect, it } from 'vitest';
import { planBringIn, type SkosMap } from '../../../src/state/map-files';

type Records = Parameters<typeof planBringIn>[0];

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

const there = (records: Record<string, readonly { readonly id: string }[]>) =>
  ({
    of: (kind: string) => ({ live: new Map((records[kind] ?? []).map((each) => [each.id, each])) }),
  }) as never as Records;

const idsPut = (plan: ReturnType<typeof planBringIn>) =>
  plan.changes.map((change) => ('put' in change ? `${change.kind} ${change.put.id}` : ''));

describe('bringing a map in from a file', () => {
  it('takes a concept, a discipline or a system of the same folded name for the one that is there', () => {
    const plan = planBringIn(
      there({
        concepts: [concept('buffer', 'Bicarbonate buffer', [], { aliases: ['HCO3 buffer'] })],
        disciplines: [{ id: 'physio', name: 'Physiology' }] as never,
        systems: [{ id: 'renal', name: 'Kidney' }] as never,
      }),
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
    expect(idsPut(plan)).toEqual(['systems t', 'concepts x3']);
    expect([plan.added, plan.met]).toEqual([1, 2]);
    expect(plan.changes[1]).toMatchObject({
      put: {
        disciplines: ['physio'],
        systems: ['renal', 't'],
        restsOn: [{ concept: 'buffer' }],
      },
    });
  });

  it('leaves out the link that would close a loop once two names of the file are one', () => {
    // a on b, b on "A" again: taken for a, so that b would rest on what rests on it.
    const plan = planBringIn(
      there({}),
      fileOf([concept('a', 'Alpha', ['b']), concept('b', 'Beta', ['a2']), concept('a2', 'alpha')]),
    );
    expect(idsPut(plan)).toEqual(['concepts a', 'concepts b']);
    expect(plan.broken).toEqual(['Beta on Alpha']);
    expect(plan.changes[1]).toMatchObject({ put: { restsOn: [] } });
  });
});
