import { describe, expect, it } from 'vitest';
import type { Concept } from '../../../src/model/concept-map';
import { ConceptNames } from '../../../src/state/concept-names';

const concept = (id: string, name: string, ...aliases: string[]) =>
  ({ id, name, aliases }) as unknown as Concept;

const names = new ConceptNames([
  concept('rope-care', 'Care of the tow rope', 'hawser'),
  concept('rope', 'Rope'),
  concept('rope-walk', 'Ropewalk'),
  concept('oedema', 'Oedema formation', 'dropsy'),
  concept('curve', 'Haemoglobin dissociation curve', 'oxygen curve'),
  concept('varix', 'Oesophageal varices'),
  concept('nerves', 'Cranial nerves'),
  concept('line', 'Mooring line', 'rope'),
]);

const idsOf = (typed: string, limit?: number, first?: ReadonlySet<string>) =>
  names.find(typed, limit, first).map(({ id }) => id as string);

describe('ConceptNames.find', () => {
  it('lists the whole name first, then a name that begins so, then an alias, then the rest', () => {
    const ids = idsOf('rope');
    expect(ids.slice(0, 2)).toEqual(['rope', 'rope-walk']);
    expect([...ids].sort()).toEqual(['line', 'rope', 'rope-care', 'rope-walk']);
    expect(ids.indexOf('line')).toBeLessThan(ids.indexOf('rope-care'));
  });

  it('finds a concept by an alias', () => {
    expect(idsOf('hawser')).toEqual(['rope-care']);
    expect(idsOf('drop')).toEqual(['oedema']);
  });

  it.each([
    ['edema', 'oedema'],
    ['hemoglobin', 'curve'],
    ['Esophageal varix', 'varix'],
    ['OESOPHAGEAL-VARICES', 'varix'],
    ['cranial nerve', 'nerves'],
    ['ropes', 'rope'],
  ])('meets American spelling, plurals, case and hyphens: %s', (typed, id) => {
    expect(idsOf(typed)[0]).toBe(id);
  });

  it('lists recent ones before others that fit as well, but not before a better fit', () => {
    expect(idsOf('')[0]).toBe('rope-care');
    expect(idsOf('', 3, new Set(['nerves']))[0]).toBe('nerves');
    expect(idsOf('rope', 12, new Set(['rope-care']))[0]).toBe('rope');
  });

  it('lists all by name while nothing is typed, and no more than asked for', () => {
    expect(idsOf('', 4)).toEqual(['rope-care', 'nerves', 'curve', 'line']);
    expect(idsOf('', 99)).toHaveLength(8);
  });

  it('lists nothing for what is nowhere on the map', () => {
    expect(idsOf('anchor')).toEqual([]);
    expect(new ConceptNames([]).find('rope')).toEqual([]);
  });

  it('finds a name by words of it in any order', () => {
    expect(idsOf('curve hemoglobin')).toEqual(['curve']);
    expect(idsOf('care rope')).toEqual(['rope-care']);
  });

  // Defect: the letters typed so far are brought to the singular ("atri" to "atrus"), which is
  // then no beginning of the name any more.
  it('still finds a name while the letters typed so far look like a plural', () => {
    const atrium = new ConceptNames([concept('atrial', 'Atrial septum')]);
    expect(atrium.find('atri').map(({ id }) => id as string)).toEqual(['atrial']);
  });

  it('ranks a word that begins so above letters inside a word', () => {
    const ranked = new ConceptNames([concept('a', 'Aft nylon'), concept('z', 'Zinc on hulls')]);
    expect(ranked.find('on')[0]?.id).toBe('z');
  });
});

describe('ConceptNames.findExact', () => {
  it('knows a name or alias whatever its spelling, and nothing that is only part of one', () => {
    expect(names.findExact('edema formations')?.id).toBe('oedema');
    expect(names.findExact('Oxygen Curve')?.id).toBe('curve');
    expect(names.findExact('oedema')).toBeUndefined();
  });

  it('knows no concept without a name typed', () => {
    expect(names.findExact('')).toBeUndefined();
    expect(names.findExact(' - ')).toBeUndefined();
  });
});
