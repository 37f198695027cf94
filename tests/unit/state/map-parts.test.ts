/** Disciplines and organ systems added, renamed and deleted, with what names them. */
import { describe, expect, it } from 'vitest';
import { addPart, countNaming, deletePart, renamePart } from '../../../src/state/map-parts';
import type { Edit } from '../../../src/state/map-edit';

type Records = Parameters<typeof addPart>[0];

const there = (records: Record<string, readonly { readonly id: string }[]>) =>
  ({
    of: (kind: string) => ({ live: new Map((records[kind] ?? []).map((each) => [each.id, each])) }),
  }) as never as Records;

const map = there({
  systems: [
    { id: 'renal', name: 'Kidney', shortName: 'Kid.', position: 0 },
    { id: 'lung', name: 'Lung', position: 4 },
  ] as never,
  disciplines: [{ id: 'physio', name: 'Physiology', position: 0 }] as never,
  concepts: [
    { id: 'a', systems: ['renal', 'lung'], disciplines: ['physio'] },
    { id: 'b', systems: ['lung'], disciplines: [] },
  ] as never,
  notes: [{ id: 'n', systems: ['renal'], disciplines: ['physio'] }] as never,
  items: [
    { id: 'i', system: 'renal' },
    { id: 'j', system: 'lung' },
  ] as never,
  blocks: [
    {
      id: 'k',
      system: 'renal',
      rightBySystem: [
        { system: 'renal', count: 7 },
        { system: 'lung', count: 5 },
      ],
    },
  ] as never,
});

const changesOf = (edit: Edit) => {
  if (edit.kind !== 'ok') throw new Error(JSON.stringify(edit));
  return edit.changes.map((change) =>
    'put' in change ? [change.kind, change.put] : [change.kind, `remove ${change.remove}`],
  );
};

describe('the frame of the map', () => {
  it('takes a new part at its end, and none of a name that is there', () => {
    expect(changesOf(addPart(map, 'systems', 'skin', '  Skin '))).toEqual([
      ['systems', { id: 'skin', name: 'Skin', position: 5 }],
    ]);
    expect(addPart(map, 'systems', 'x', 'kidney')).toMatchObject({ kind: 'refused' });
    expect(addPart(map, 'disciplines', 'x', ' ')).toMatchObject({ kind: 'refused' });
  });

  it('renames a part and the head of its column', () => {
    expect(changesOf(renamePart(map, 'systems', 'renal', 'Kidney and tract', ''))).toEqual([
      ['systems', { id: 'renal', name: 'Kidney and tract', shortName: undefined, position: 0 }],
    ]);
    expect(changesOf(renamePart(map, 'systems', 'renal', 'Kidney', 'Kid.'))).toEqual([]);
    expect(renamePart(map, 'systems', 'renal', 'LUNG')).toMatchObject({ kind: 'refused' });
  });

  it('counts what names a part', () => {
    expect(countNaming(map, 'systems', 'renal')).toEqual({
      concepts: 1,
      notes: 1,
      items: 1,
      blocks: 1,
    });
    expect(countNaming(map, 'disciplines', 'physio')).toMatchObject({
      concepts: 1,
      notes: 1,
      items: 0,
    });
  });

  it('hands what named a deleted system to its heir, and counts of right items with it', () => {
    expect(changesOf(deletePart(map, 'systems', 'renal', 'lung'))).toEqual([
      ['concepts', { id: 'a', systems: ['lung'], disciplines: ['physio'] }],
      ['notes', { id: 'n', systems: ['lung'], disciplines: ['physio'] }],
      ['items', { id: 'i', system: 'lung' }],
      ['blocks', { id: 'k', system: 'lung', rightBySystem: [{ system: 'lung', count: 12 }] }],
      ['systems', 'remove renal'],
    ]);
  });

  it('lets a discipline go without an heir, but no system under which right items are counted', () => {
    expect(changesOf(deletePart(map, 'disciplines', 'physio'))).toEqual([
      ['concepts', { id: 'a', systems: ['renal', 'lung'], disciplines: [] }],
      ['notes', { id: 'n', systems: ['renal'], disciplines: [] }],
      ['disciplines', 'remove physio'],
    ]);
    expect(deletePart(map, 'systems', 'lung')).toMatchObject({ kind: 'refused' });
  });
});
