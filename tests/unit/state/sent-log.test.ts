import { describe, expect, it } from 'vitest';
import type { Item } from '../../../src/model/log';
import { otherWork } from '../../../src/state/other-work';
import { SentLog } from '../../../src/state/sent-log';
import type { Workspace } from '../../../src/state/workspace.svelte';
import { unpackItems } from '../../../src/workers/packed-items';
import type { TracePatch } from '../../../src/workers/trace-jobs';

const count = 5_000;

/** A log of many items; `amend` replaces one of them and the map, as a change of a concept does. */
function manyItems() {
  const item = (i: number, missed: boolean) =>
    ({
      id: `i${i}`,
      block: 'b',
      outcome: missed ? 'missed' : 'right',
      topics: ['pump'],
      causes: [],
    }) as unknown as Item;
  const maps: Record<string, Map<string, unknown>> = {
    items: new Map(Array.from({ length: count }, (_, i) => [`i${i}`, item(i, i % 3 === 0)])),
    blocks: new Map([['b', { id: 'b', day: 20_000, itemCount: count }]]),
    concepts: new Map([['pump', { id: 'pump', systems: [], restsOn: [] }]]),
    readings: new Map(),
    readingEvents: new Map(),
  };
  const workspace = {
    now: 1_750_000_000_000,
    of: (kind: string) => ({ live: maps[kind] }),
  } as unknown as Workspace;
  const amend = (i: number, missed: boolean) => {
    maps['items']!.set(`i${i}`, item(i, missed));
    maps['concepts'] = new Map(maps['concepts']);
  };
  return { log: new SentLog(workspace, new WeakMap()), amend };
}

const allIn = (patch: TracePatch) => [
  ...patch.items,
  ...(patch.packed ?? []).flatMap((packed) => unpackItems(packed)),
];

describe('a log that is sent to a worker', () => {
  it('travels in several packs, each item once and in order', async () => {
    const { log } = manyItems();
    const patch = await log.patch(undefined);
    expect(patch.packed?.length).toBeGreaterThan(1);
    expect(allIn(patch).map(({ id }) => id)).toEqual(
      Array.from({ length: count }, (_, i) => `i${i}`),
    );
    expect(await log.patchIfNews(undefined)).toMatchObject({ items: [], reset: false });
    expect(await log.patchIfNews(undefined)).toBeUndefined();
  });

  it('is sent anew where the worker lost its memory while the patch was made', async () => {
    const { log, amend } = manyItems();
    await log.patch(undefined);
    amend(7, true);
    const making = log.patch(undefined);
    await otherWork();
    log.forget();
    const patch = await making;
    expect(patch.reset).toBe(true);
    expect(patch.concepts).toHaveLength(1);
    expect(allIn(patch)).toHaveLength(count);
  });

  it('makes one patch after the other, so that the second says only what the first did not', async () => {
    const { log, amend } = manyItems();
    const first = log.patch(undefined);
    const second = log.patch(undefined);
    expect(allIn(await first)).toHaveLength(count);
    expect(allIn(await second)).toHaveLength(0);
    amend(1, true);
    expect(allIn(await log.patch(undefined)).find(({ id }) => id === 'i1')?.missed).toBe(true);
  });
});
