import { readdirSync, readFileSync } from 'node:fs';
import { beforeEach, describe, expect, it } from 'vitest';
import type { DeviceId } from '../../../src/model/ids';
import { mergeCopies } from '../../../src/model/merge';
import { settingsId } from '../../../src/model/settings';
import { recordKinds } from '../../../src/model/records';
import { Beginnings, type SeedFiles } from '../../../src/state/beginnings.svelte';
import { freshIndexedDB, requireRecords, requireStore } from '../storage/harness';
import { openTab, until, type Tab } from './tab';

const seedData = new URL('../../../seed-data/', import.meta.url);

/** Read anew each time, so that no test can damage what another is given. */
const readJson = (path: string): unknown =>
  JSON.parse(readFileSync(new URL(path, seedData), 'utf8'));

/** The files of a map as the app loads them: the head first. */
function mapParts(name: string): unknown[] {
  const parts = readdirSync(new URL(`maps/${name}/`, seedData)).filter(
    (file) => file.endsWith('.json') && file !== 'map.json',
  );
  return ['map.json', ...parts].map((file) => readJson(`maps/${name}/${file}`));
}

interface Part {
  readonly concepts?: readonly { readonly id: string; readonly restsOn: readonly object[] }[];
  readonly systems?: readonly unknown[];
  readonly disciplines?: readonly unknown[];
}
const countIn = (name: string, list: keyof Part) =>
  mapParts(name).reduce<number>((sum, part) => sum + ((part as Part)[list]?.length ?? 0), 0);

const seedFiles: SeedFiles = {
  map: (name) => Promise.resolve(mapParts(name)),
  readings: (name) =>
    Promise.resolve(name === 'human' ? readJson('readings/human.json') : undefined),
  demo: () => Promise.resolve(readJson('demo/demo.json')),
};

interface Desk extends Tab {
  readonly beginnings: Beginnings;
}

async function openDesk(seeds: Partial<SeedFiles> = {}, device?: DeviceId): Promise<Desk> {
  const tab = await openTab(0, device);
  const beginnings = new Beginnings(tab.workspace, tab.store, { ...seedFiles, ...seeds });
  return { ...tab, beginnings };
}

/** Records of every kind on the disk, deletion marks included; kinds without any left out. */
async function storedCounts(): Promise<Record<string, number>> {
  const records = await requireRecords(await requireStore());
  const counts = recordKinds.map((kind): [string, number] => [kind, records[kind].length]);
  return Object.fromEntries(counts.filter(([, count]) => count > 0));
}

const humanReadings = (readJson('readings/human.json') as { readings: unknown[] }).readings;

const humanMap = {
  readings: humanReadings.length,
  concepts: countIn('human', 'concepts'),
  systems: countIn('human', 'systems'),
  disciplines: countIn('human', 'disciplines'),
  settings: 1,
};

beforeEach(freshIndexedDB);

describe('a beginning', () => {
  it('S1 with the starter map stores the whole map and that the choice was made', async () => {
    const { beginnings, workspace } = await openDesk();
    expect(humanMap.concepts).toBeGreaterThan(0);
    expect(await beginnings.begin('starter')).toBe(true);
    expect(beginnings.failure).toBe('');
    expect(await storedCounts()).toEqual(humanMap);
    expect(workspace.of('settings').find(settingsId)).toMatchObject({ started: true, demo: false });
  });

  it('M6 two devices that began with one map have nothing of it to settle when they meet', async () => {
    const copies = [];
    for (const name of ['quay', 'cabin']) {
      freshIndexedDB();
      const { beginnings, workspace } = await openDesk({}, name as DeviceId);
      await beginnings.begin('starter');
      const concept = workspace.of('concepts').live.get('bicarbonate-buffer')!;
      if (name === 'cabin')
        await workspace.amend('mnemonic', 'concepts', concept.id, { mnemonic: 'written at sea' });
      copies.push(await requireRecords(await requireStore()));
    }
    const merged = mergeCopies(copies[0]!, copies[1]!);
    expect(merged.length).toBe(Object.values(humanMap).reduce((sum, count) => sum + count, 0));
    const disputed = merged.filter(({ aside }) => aside.length > 0);
    // Each device has settings of its own.
    expect(disputed.filter(({ kind }) => kind !== 'settings')).toEqual([]);
    const shown = merged.find(({ id }) => id === 'bicarbonate-buffer')?.shown;
    expect(shown).toMatchObject({ mnemonic: 'written at sea' });
  });

  it('S1 with the demo stores the map and a log that ended yesterday, and says it is a demo', async () => {
    const { beginnings, workspace } = await openDesk();
    expect(await beginnings.begin('demo')).toBe(true);
    const demo = readJson('demo/demo.json') as Record<string, unknown>;
    const lists = Object.entries(demo).flatMap(([name, value]) =>
      Array.isArray(value) ? [[name, value.length] as const] : [],
    );
    expect(lists.map(([name]) => name).sort()).toEqual([
      'blocks',
      'days',
      'items',
      'lines',
      'looks',
      'notes',
      'readingEvents',
      'rehearsals',
    ]);
    expect(await storedCounts()).toEqual({ ...humanMap, ...Object.fromEntries(lists) });
    const settings = workspace.of('settings').find(settingsId);
    expect(settings).toMatchObject({ started: true, demo: true });
    expect(settings!.paperDay! - workspace.today).toBeGreaterThan(14);
    const days = [...workspace.of('blocks').live.values()].map((block) => block.day);
    expect(workspace.today - Math.max(...days)).toBeGreaterThanOrEqual(1);
    expect(workspace.today - Math.max(...days)).toBeLessThan(7);
  });

  it('S1 with the veterinary map stores that map alone', async () => {
    const { beginnings, workspace } = await openDesk();
    expect(await beginnings.begin('veterinary')).toBe(true);
    expect(await storedCounts()).toEqual({
      concepts: countIn('veterinary', 'concepts'),
      disciplines: countIn('veterinary', 'disciplines'),
      systems: countIn('veterinary', 'systems'),
      settings: 1,
    });
    expect(workspace.of('settings').find(settingsId)).toMatchObject({ started: true, demo: false });
  });

  it('S1 with an empty map stores disciplines and organ systems and no concept', async () => {
    const { beginnings } = await openDesk();
    expect(await beginnings.begin('empty')).toBe(true);
    expect(await storedCounts()).toEqual({
      disciplines: countIn('blank', 'disciplines'),
      systems: countIn('blank', 'systems'),
      settings: 1,
    });
  });

  it('S1 cannot be undone: the log would be left without its map', async () => {
    const { beginnings, workspace } = await openDesk();
    await beginnings.begin('empty');
    expect(workspace.undoLabel).toBeUndefined();
  });

  it('S1 is laid out once, however often it is asked for meanwhile', async () => {
    const { beginnings } = await openDesk();
    const first = beginnings.begin('empty');
    expect(beginnings.busy).toBe('empty');
    expect(await beginnings.begin('starter')).toBe(false);
    expect(await first).toBe(true);
    expect(beginnings.busy).toBeUndefined();
    expect(await storedCounts()).not.toHaveProperty('concepts');
  });

  it('S2 that another tab made first is kept whole, and this tab shows it', async () => {
    const [here, there] = [await openDesk(), await openDesk()];
    // Both begin at once: neither has heard of the other yet.
    const began = await Promise.all([
      here.beginnings.begin('empty'),
      there.beginnings.begin('starter'),
    ]);
    expect([...began].sort()).toEqual([false, true]);
    const [winner, loser] = began[0] ? [here, there] : [there, here];
    expect(loser.beginnings.failure).toBe(
      'Another tab has begun already; this tab now shows what it chose.',
    );
    const concepts = began[0] ? 0 : humanMap.concepts;
    expect((await storedCounts())['concepts'] ?? 0).toBe(concepts);
    await until(() => loser.workspace.of('concepts').live.size === concepts);
    expect(loser.workspace.of('settings').live.size).toBe(1);
    expect(winner.beginnings.failure).toBe('');
  });
});

describe('a beginning whose files are damaged or away', () => {
  const damagedMap = () => {
    const parts = mapParts('human');
    const part = parts.at(-1) as { concepts: { name: unknown }[] };
    part.concepts[2]!.name = 7;
    return parts;
  };
  const loopedMap = () => {
    const parts = mapParts('human') as Part[];
    const concepts = parts.flatMap((part) => part.concepts ?? []);
    const upper = concepts.find(({ restsOn }) => restsOn.length > 0)!;
    const below = (upper.restsOn[0] as { concept: string }).concept;
    const lower = concepts.find(({ id }) => id === below)!;
    (lower.restsOn as object[]).push({ concept: upper.id });
    return parts;
  };
  const damagedDemo = () => {
    const demo = readJson('demo/demo.json') as { items: { outcome: string }[] };
    demo.items[11]!.outcome = 'perhaps';
    return demo;
  };

  it.each([
    [
      'starter',
      { map: () => Promise.resolve(damagedMap()) },
      /^The map that came with the app is damaged: parts\.\d+\.concepts\.2\.name: /,
    ],
    ['starter', { map: () => Promise.resolve(loopedMap()) }, /rest on each other in a loop/],
    ['starter', { map: () => Promise.resolve([]) }, /^The map that came with the app is/],
    ['empty', { map: () => Promise.resolve([null]) }, /^The map that came with the app is/],
    [
      'demo',
      { demo: () => Promise.resolve(damagedDemo()) },
      /^The demo that came with the app is damaged: items\.11\.outcome: /,
    ],
    [
      'starter',
      { readings: () => Promise.resolve({ format: 'hypocentre-readings', version: 2 }) },
      /^The readings that came with the app are damaged: version: /,
    ],
    ['demo', { demo: () => Promise.resolve('{}') }, /^The demo that came with the app is damaged/],
    [
      'demo',
      { demo: () => Promise.reject(new TypeError('Failed to fetch')) },
      /^The files could not be read .+ Start the app again, then try once more\.$/,
    ],
    [
      'empty',
      { map: () => Promise.reject(new TypeError('Failed to fetch')) },
      /^The files could not be read/,
    ],
  ] as const)('S1 says what is wrong and stores nothing: %s, %o', async (kind, seeds, sentence) => {
    const { beginnings } = await openDesk(seeds);
    expect(await beginnings.begin(kind)).toBe(false);
    expect(beginnings.failure).toMatch(sentence);
    expect(beginnings.busy).toBeUndefined();
    expect(await storedCounts()).toEqual({});
  });

  it('S1 can be tried again once the files are there, and the sentence is gone', async () => {
    let away = true;
    const { beginnings } = await openDesk({
      map: (name) => (away ? Promise.reject(new TypeError('away')) : seedFiles.map(name)),
    });
    await beginnings.begin('empty');
    expect(beginnings.failure).not.toBe('');
    away = false;
    expect(await beginnings.begin('empty')).toBe(true);
    expect(beginnings.failure).toBe('');
  });
});

describe('the end', () => {
  it('S12 leaves nothing in the store or in any tab, and a new beginning can be made', async () => {
    const [here, there] = [await openDesk(), await openDesk()];
    await here.beginnings.begin('demo');
    await until(() => there.workspace.of('settings').live.size === 1);
    expect(await here.beginnings.end()).toBeUndefined();
    expect(await storedCounts()).toEqual({});
    for (const { workspace } of [here, there]) {
      await until(() => recordKinds.every((kind) => workspace.of(kind).live.size === 0));
      expect(workspace.undoLabel).toBeUndefined();
    }
    expect(await here.beginnings.begin('empty')).toBe(true);
    expect(await storedCounts()).toMatchObject({ settings: 1 });
  });

  it('S5 says what went wrong when the store cannot be reached, and keeps everything', async () => {
    const { beginnings, workspace, store } = await openDesk();
    await beginnings.begin('empty');
    const stored = await storedCounts();
    store.db.close();
    expect(await beginnings.end()).toMatch(/^[A-Z].+\. .+\.$/);
    expect(await storedCounts()).toEqual(stored);
    expect(workspace.of('settings').live.size).toBe(1);
  });
});
