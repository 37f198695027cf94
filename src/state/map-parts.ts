/**
 * Edits of the frame of the map, its disciplines and organ systems, as changes to be
 * committed in one step.
 */
import { foldName } from '../model/fold-name';
import type { RecordKind, RecordOf } from '../model/records';
import type { Edit } from './map-edit';
import type { Draft, DraftChange } from './workspace.svelte';

export type PartKind = 'disciplines' | 'systems';
type NamingKind = PartKind | 'concepts' | 'items' | 'blocks' | 'notes';

/** What an edit reads: the live records of the kinds that name a part, and the parts. */
export interface PartRecords {
  of<K extends NamingKind>(kind: K): { readonly live: ReadonlyMap<string, RecordOf<K>> };
}

const put = <K extends RecordKind>(kind: K, record: Draft<K>): DraftChange =>
  ({ kind, put: record }) as unknown as DraftChange;

const nounOf = { disciplines: 'discipline', systems: 'organ system' } as const;

/** Why a name cannot be given; undefined where it can. */
function refused(
  records: PartRecords,
  kind: PartKind,
  name: string,
  except?: string,
): string | undefined {
  if (name === '') return 'The name is empty. Write at least one letter.';
  for (const part of records.of(kind).live.values()) {
    if (part.id !== except && foldName(part.name) === foldName(name))
      return `There is a ${nounOf[kind]} “${part.name}” already. Choose another name.`;
  }
  return undefined;
}

/** A new part at the end of its row. */
export function addPart(records: PartRecords, kind: PartKind, id: string, name: string): Edit {
  const wanted = name.trim();
  const why = refused(records, kind, wanted);
  if (why) return { kind: 'refused', why };
  const positions = Array.from(records.of(kind).live.values(), (part) => part.position ?? -1);
  const position = 1 + Math.max(-1, ...positions);
  return { kind: 'ok', changes: [put(kind, { id, name: wanted, position } as never)] };
}

/**
 * Another name, and for a system another short one for its column's head.
 *
 * @param shortName empty: the name stands over the column
 */
export function renamePart(
  records: PartRecords,
  kind: PartKind,
  id: string,
  name: string,
  shortName = '',
): Edit {
  const part = records.of(kind).live.get(id);
  if (!part) return { kind: 'refused', why: `This ${nounOf[kind]} was deleted in the meantime.` };
  const wanted = name.trim();
  const why = refused(records, kind, wanted, id);
  if (why) return { kind: 'refused', why };
  const short = shortName.trim();
  const before = 'shortName' in part ? (part.shortName ?? '') : '';
  if (part.name === wanted && before === short) return { kind: 'ok', changes: [] };
  const renamed =
    kind === 'systems'
      ? { ...part, name: wanted, shortName: short === '' ? undefined : short }
      : { ...part, name: wanted };
  return { kind: 'ok', changes: [put(kind, renamed as never)] };
}

/** What names a part, counted, for the question before it is deleted. */
export function countNaming(records: PartRecords, kind: PartKind, id: string) {
  const count = <K extends NamingKind>(of: K, names: (record: RecordOf<K>) => boolean) =>
    [...records.of(of).live.values()].filter(names).length;
  const named = (ids: readonly string[]) => ids.includes(id);
  return {
    concepts: count('concepts', (concept) => named(concept[kind])),
    notes: count('notes', (note) => named(note[kind])),
    items: kind === 'systems' ? count('items', ({ system }) => system === id) : 0,
    blocks: kind === 'systems' ? count('blocks', (block) => systemsOf(block).includes(id)) : 0,
  };
}

const systemsOf = ({
  system,
  rightBySystem,
}: RecordOf<'blocks'>): readonly (string | undefined)[] => [
  system,
  ...(rightBySystem ?? []).map((each) => each.system),
];

/**
 * Deletes a part.
 *
 * @param heir takes its place wherever it is named; without one it is named no more,
 *   which is refused where right items are counted under it: their count would be lost
 */
export function deletePart(records: PartRecords, kind: PartKind, id: string, heir?: string): Edit {
  if (!records.of(kind).live.has(id))
    return { kind: 'refused', why: `This ${nounOf[kind]} was deleted in the meantime.` };
  if (heir === id) return { kind: 'refused', why: 'Choose another one to take over.' };
  const counted = [...records.of('blocks').live.values()].some(({ rightBySystem }) =>
    rightBySystem?.some(({ system }) => system === id),
  );
  if (kind === 'systems' && !heir && counted) {
    return {
      kind: 'refused',
      why: 'Right items of some blocks are counted under it. Choose the organ system that takes them over.',
    };
  }
  const swap = (ids: readonly string[]) => [
    ...new Set(ids.flatMap((each) => (each === id ? (heir ?? []) : each))),
  ];
  const lists = (['concepts', 'notes'] as const).flatMap((of) =>
    [...records.of(of).live.values()]
      .filter((record) => (record[kind] as readonly string[]).includes(id))
      .map((record) => put(of, { ...record, [kind]: swap(record[kind]) })),
  );
  if (kind === 'disciplines') return { kind: 'ok', changes: [...lists, { kind, remove: id }] };
  const items = [...records.of('items').live.values()]
    .filter(({ system }) => system === id)
    .map((item) => put('items', { ...item, system: heir } as never));
  const blocks = [...records.of('blocks').live.values()]
    .filter((block) => systemsOf(block).includes(id))
    .map((block) => {
      const counts = new Map<string | undefined, number>();
      for (const { system, count } of block.rightBySystem ?? []) {
        const target = system === id ? heir : system;
        if (target !== undefined) counts.set(target, (counts.get(target) ?? 0) + count);
      }
      return put('blocks', {
        ...block,
        system: block.system === id ? heir : block.system,
        rightBySystem:
          block.rightBySystem && Array.from(counts, ([system, count]) => ({ system, count })),
      } as never);
    });
  return {
    kind: 'ok',
    changes: [...lists, ...items, ...blocks, { kind, remove: id }],
  };
}
