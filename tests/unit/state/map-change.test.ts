/** Another map for a log: planned in memory over the shipped files, stored once over a small one. */
import { readdirSync, readFileSync } from 'node:fs';
import { beforeEach, describe, expect, it } from 'vitest';
import { parseMapFile, parseReadingsFile, type MapContent } from '../../../src/formats';
import type { ConceptId } from '../../../src/model/ids';
import { layOut } from '../../../src/state/lay-out';
import {
  planMapChange,
  type MapChangeManner,
  type MapChangePlan,
  type MapInUse,
} from '../../../src/state/map-change';
import { planMapFrom } from '../../../src/state/map-from';
import type { DraftChange } from '../../../src/state/workspace.svelte';
import type { LocalDay } from '../../../src/model/time';
import { freshIndexedDB } from '../storage/harness';
import { openTab } from './tab';

const seedData = new URL('../../../seed-data/', import.meta.url);
const readJson = (path: string): unknown =>
  JSON.parse(readFileSync(new URL(path, seedData), 'utf8'));
const mapParts = (name: string): unknown[] => [
  readJson(`maps/${name}/map.json`),
  ...readdirSync(new URL(`maps/${name}/`, seedData))
    .filter((file) => file !== 'map.json')
    .map((file) => readJson(`maps/${name}/${file}`)),
];
const humanReadings = readJson('readings/human.json');

function requireMap(name: string): MapContent {
  const checked = parseMapFile(mapParts(name));
  if (checked.kind === 'rejected') throw new Error(checked.faults[0]?.message);
  return checked.value;
}
const maps = { human: requireMap('human'), veterinary: requireMap('veterinary') };
const readingsOf = {
  human: (() => {
    const checked = parseReadingsFile(humanReadings);
    return checked.kind === 'ok' ? checked.value : [];
  })(),
  veterinary: [],
};

/** Kinds of record by id, as the workspace would hold them after these changes. */
type Held = Record<string, Map<string, { id: string }>>;

function held(changes: readonly DraftChange[], before: Held = {}): Held {
  const after: Held = Object.fromEntries(
    Object.entries(before).map(([kind, records]) => [kind, new Map(records)]),
  );
  for (const change of changes) {
    const records = (after[change.kind] ??= new Map<string, { id: string }>());
    if ('put' in change) records.set(change.put.id, change.put);
    else records.delete(change.remove);
  }
  return after;
}

function begun(demo: unknown): Held {
  const files = { map: mapParts('human'), readings: humanReadings, demo };
  const changes = layOut(files, 20_600 as LocalDay, () => 0);
  if (typeof changes === 'string') throw new Error(changes);
  return held(changes);
}

function planFor(there: Held, name: keyof typeof maps, manner: MapChangeManner): MapChangePlan {
  const kinds = [
    'disciplines',
    'systems',
    'concepts',
    'blocks',
    'items',
    'notes',
    'lines',
    'readings',
    'readingEvents',
    'topicMatches',
  ];
  // Only ids, names, links and positions are read: the records lack no more than their stamps.
  const inUse = Object.fromEntries(
    kinds.map((kind) => [kind, there[kind] ?? new Map()]),
  ) as unknown as MapInUse;
  const planned = planMapChange(inUse, maps[name], readingsOf[name], manner);
  if (planned.kind === 'refused') throw new Error(planned.message);
  return planned;
}

const idsOf = (there: Held, kind: string) => [...(there[kind]?.keys() ?? [])].sort();

/** Every kind that holds what the candidate wrote. */
const written = ['blocks', 'items', 'notes', 'looks', 'lines', 'days', 'rehearsals'];

const mapText = (concepts: object[]) =>
  JSON.stringify({ format: 'hypocentre-map', version: 1, name: 'Mine', concepts });
const concept = (id: string, name: string, restsOn: string[] = []) => ({
  id,
  name,
  aliases: [],
  covers: '',
  disciplines: [],
  systems: [],
  restsOn: restsOn.map((each) => ({ concept: each })),
});

beforeEach(freshIndexedDB);

describe('another map', () => {
  const demo = begun(readJson('demo/demo.json'));
  const starter = begun(undefined);

  it('S1 added to the demo brings all its concepts and touches nothing else', () => {
    const plan = planFor(demo, 'veterinary', 'add');
    expect(plan.added).toHaveLength(102);
    expect([plan.removed, plan.kept]).toEqual([[], []]);
    const after = held(plan.changes, demo);
    expect(idsOf(after, 'concepts')).toHaveLength(620 + 102);
    for (const kind of written) expect(after[kind]).toEqual(demo[kind]);
  });

  it('S1 in place of the demo’s keeps every entry and all that it uses, with what that rests on', () => {
    const plan = planFor(demo, 'veterinary', 'replace');
    expect(plan.kept.length + plan.removed.length).toBe(620);
    expect(plan.removed.length).toBeGreaterThan(0);
    const after = held(plan.changes, demo);
    for (const kind of written) expect(after[kind]).toEqual(demo[kind]);

    const items = [...after['items']!.values()] as unknown as {
      topics: string[];
      causes: string[];
      system: string;
    }[];
    const concepts = after['concepts']!;
    const named = items.flatMap(({ topics, causes }) => [...topics, ...causes]);
    expect(named.filter((id) => !concepts.has(id))).toEqual([]);
    expect(items.filter(({ system }) => !after['systems']!.has(system))).toEqual([]);
    const all = [...concepts.values()] as unknown as {
      restsOn: { concept: string }[];
      disciplines: string[];
      systems: string[];
    }[];
    const below = all.flatMap(({ restsOn }) => restsOn.map((link) => link.concept));
    expect(below.filter((id) => !concepts.has(id))).toEqual([]);
    const of = all.flatMap(({ disciplines }) => disciplines);
    expect(of.filter((id) => !after['disciplines']!.has(id))).toEqual([]);
    const seenIn = all.flatMap(({ systems }) => systems);
    expect(seenIn.filter((id) => !after['systems']!.has(id))).toEqual([]);
    const events = [...after['readingEvents']!.values()] as unknown as { reading: string }[];
    expect(events.filter(({ reading }) => !after['readings']!.has(reading))).toEqual([]);
  });

  it('S1 takes the place of an unused one whole, and the first comes back whole', () => {
    const toVeterinary = planFor(starter, 'veterinary', 'replace');
    expect([toVeterinary.removed.length, toVeterinary.kept.length]).toEqual([620, 0]);
    const veterinary = held(toVeterinary.changes, starter);
    expect(idsOf(veterinary, 'concepts')).toHaveLength(102);
    expect(idsOf(veterinary, 'readings')).toEqual([]);
    const again = held(planFor(veterinary, 'human', 'replace').changes, veterinary);
    for (const kind of ['concepts', 'systems', 'disciplines', 'readings'])
      expect(idsOf(again, kind)).toEqual(idsOf(starter, kind));
  });

  it('S1 leaves a concept that carries a mnemonic or a picture, with what it rests on', () => {
    const mine = held([], starter);
    const carry = (id: string, fields: object) =>
      mine['concepts']!.set(id, { ...mine['concepts']!.get(id)!, ...fields });
    carry('anion-gap', { mnemonic: 'sodium less the two' });
    carry('hardy-weinberg', { pictures: ['p'] });
    carry('gluconeogenesis', { mnemonic: ' ', pictures: [] });
    const plan = planFor(mine, 'veterinary', 'replace');
    const after = idsOf(held(plan.changes, mine), 'concepts');
    expect(after).toEqual(expect.arrayContaining(['anion-gap', 'hardy-weinberg']));
    expect(after).toContain('bicarbonate-buffer');
    expect(after).not.toContain('gluconeogenesis');
  });

  it.each(['add', 'replace'] as const)('S1 that is there already changes nothing: %s', (manner) => {
    const plan = planFor(starter, 'human', manner);
    expect([plan.changes, plan.same.length]).toEqual([[], 620]);
  });

  it('S1 joins a concept of the same name to the one that is there, as one step that can be undone', async () => {
    const { workspace } = await openTab();
    const put = concept('anion-gap', 'Anion gap');
    await workspace.commit('one concept', [{ kind: 'concepts', put } as unknown as DraftChange]);
    const text = mapText([
      concept('mine-gap', 'anion gap'),
      concept('mine-new', 'Gap sums', ['mine-gap']),
    ]);
    const plan = planMapFrom(workspace, text, undefined, 'add');
    if (plan.kind === 'refused') throw new Error(plan.message);
    expect([plan.same, plan.added]).toEqual([['Anion gap'], ['Gap sums']]);
    await workspace.commit('another map', plan.changes);
    const { live } = workspace.of('concepts');
    expect(live.get('mine-new')?.restsOn).toEqual([{ concept: 'anion-gap' }]);
    expect([...live.keys()].sort()).toEqual(['anion-gap', 'mine-new']);
    expect(workspace.undoLabel).toBe('another map');
    await workspace.undo();
    expect([...workspace.of('concepts').live.keys()]).toEqual(['anion-gap']);
  });

  it('S1 is refused with the loop named where both maps together would run in one', async () => {
    const { workspace } = await openTab();
    const put = { ...concept('upper', 'Upper'), restsOn: [{ concept: 'lower' as ConceptId }] };
    // A link that still names a concept that is not there.
    await workspace.commit('one concept', [{ kind: 'concepts', put } as unknown as DraftChange]);
    const text = mapText([concept('lower', 'Lower', ['other']), concept('other', 'upper')]);
    expect(planMapFrom(workspace, text, undefined, 'add')).toMatchObject({
      kind: 'refused',
      message: expect.stringMatching(/“Upper” rests on “Lower”|“Lower” rests on “Upper”/) as string,
    });
  });

  it.each([
    ['{', 'This is not JSON: choose a map file of Hypocentre.'],
    ['{"format":"else"}', 'this is not a map file of Hypocentre'],
    [mapText([concept('a', 'A', ['gone'])]), 'there is no concept "gone"'],
  ])('S1 that cannot be read is refused with the place and the reason: %s', async (text, says) => {
    const { workspace } = await openTab();
    const planned = planMapFrom(workspace, text, undefined, 'add');
    expect(planned.kind === 'refused' && planned.message).toContain(says);
  });
});
