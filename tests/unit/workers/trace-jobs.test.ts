import { describe, expect, it } from 'vitest';
import { traceRoots } from '../../../src/engine';
import { randomFrom } from '../../../src/engine/numeric/random';
import {
  traceJobs,
  type Ranking,
  type TraceConcept,
  type TraceItem,
  type TracePatch,
} from '../../../src/workers/trace-jobs';
import { fakeContext } from './linked-worker';

const now = Date.UTC(2026, 2, 20);
const daysAgo = (days: number) => now - days * 86_400_000;

/** pump -> seal -> steel, and rope by itself; "a -> b" for "a rests on b". */
const map: readonly TraceConcept[] = [
  { id: 'pump', systems: ['deck'], restsOn: [{ id: 'seal', strength: 0.8 }] },
  { id: 'valve', systems: ['engine'], restsOn: [{ id: 'seal', strength: 0.7 }] },
  { id: 'seal', systems: [], restsOn: [{ id: 'steel' }] },
  { id: 'steel', systems: [], restsOn: [] },
  { id: 'rope', systems: ['deck'], restsOn: [] },
];

function item(
  id: string,
  topic: string,
  missed: boolean,
  fields: Partial<TraceItem> = {},
): TraceItem {
  return { id, at: daysAgo(9), missed, topics: [topic], causes: [], ...fields };
}

function patch(fields: Partial<TracePatch>): TracePatch {
  return {
    now,
    reset: false,
    items: [],
    removedItems: [],
    unitemised: [],
    readings: [],
    ...fields,
  };
}

const first = (items: readonly TraceItem[], fields: Partial<TracePatch> = {}) =>
  patch({ reset: true, concepts: map, items, ...fields });

/** The part of a ranking that a patch may change, by concept. */
const tracedOf = (ranking: Ranking) =>
  new Map(ranking.roots.map(({ conceptId, traced }) => [conceptId, traced]));

const trace = async (jobs: ReturnType<typeof traceJobs>, given: TracePatch) =>
  jobs.trace(given, fakeContext());

/** The whole log in one message to a worker that knows nothing. */
const traceFresh = (
  items: readonly TraceItem[],
  concepts: readonly TraceConcept[] = map,
  fields: Partial<TracePatch> = {},
) => trace(traceJobs(), patch({ reset: true, concepts, items, ...fields }));

/**
 * The same ranking, whatever the passes that settled on it began from.
 *
 * Passes stop once one moves no count by more than 1e-3 of 1 + count (the engine's default);
 * where each pass takes off a tenth of what is left, ten such steps are still to go: 1e-2.
 * An item too many or too few moves a count by some tenths.
 */
function expectSameRanking(one: Ranking, other: Ranking): void {
  const [a, b] = [tracedOf(one), tracedOf(other)];
  expect([...a.keys()].sort()).toEqual([...b.keys()].sort());
  for (const [id, traced] of a) {
    const expected = b.get(id) ?? NaN;
    expect(Math.abs(traced - expected), `${id}: ${traced} for ${expected}`).toBeLessThan(
      1e-2 * (1 + expected),
    );
  }
  expect(one.counted).toEqual(other.counted);
  expect([one.itemCount, one.missCount]).toEqual([other.itemCount, other.missCount]);
}

const startItems = [
  item('i1', 'pump', true, { causes: ['seal'] }),
  item('i2', 'valve', true, { causes: ['seal', 'steel'] }),
  item('i3', 'rope', false),
  item('i4', 'pump', false),
  item('i5', 'pump', true),
];

describe('the log a trace worker builds from patches', () => {
  it('W2 is exactly what was sent after a reset, whatever was known before', async () => {
    const jobs = traceJobs();
    await trace(jobs, first([item('old', 'rope', true, { causes: ['rope'] })]));
    const after = await trace(jobs, first(startItems));
    expect(after).toMatchObject({
      itemCount: 5,
      missCount: 3,
      counted: [
        { conceptId: 'seal', count: 2 },
        { conceptId: 'steel', count: 1 },
      ],
    });
    expectSameRanking(after, await traceFresh(startItems));
  });

  it('W2 has an item sent again in its new form, not twice', async () => {
    const jobs = traceJobs();
    await trace(jobs, first(startItems));
    const corrected = item('i1', 'rope', true, { causes: ['rope'] });
    const after = await trace(jobs, patch({ items: [corrected] }));
    expect([after.itemCount, after.missCount]).toEqual([5, 3]);
    expect(after.counted.map(({ conceptId, count }) => `${conceptId} ${count}`)).toEqual([
      'rope 1',
      'seal 1',
      'steel 1',
    ]);
    expectSameRanking(after, await traceFresh([corrected, ...startItems.slice(1)]));
  });

  it('W2 is without the items that were removed, and an unknown id removes nothing', async () => {
    const jobs = traceJobs();
    await trace(jobs, first(startItems));
    const after = await trace(jobs, patch({ removedItems: ['i2', 'i4', 'never-was'] }));
    expect([after.itemCount, after.missCount]).toEqual([3, 2]);
    expectSameRanking(
      after,
      await traceFresh(startItems.filter(({ id }) => id !== 'i2' && id !== 'i4')),
    );
  });

  it('W2 keeps the map while none is sent, and takes a new one over whole', async () => {
    const jobs = traceJobs();
    const before = await trace(jobs, first(startItems));
    const same = await trace(jobs, patch({}));
    expectSameRanking(same, before);

    const cutMap = map.map((concept) => ({ ...concept, restsOn: [] }));
    const after = await trace(jobs, patch({ concepts: cutMap }));
    expectSameRanking(after, await traceFresh(startItems, cutMap));
    // Nothing rests on anything any more: the pump missed in i5 does not lead down to the seal.
    const evidence = await jobs.evidence({ conceptId: 'seal' }, fakeContext());
    expect(evidence.map(({ itemId }) => itemId)).not.toContain('i5');
    expect(tracedOf(before).get('seal')).not.toBeCloseTo(tracedOf(after).get('seal') ?? NaN, 3);
  });

  it('W2 takes counts and readings anew with each patch', async () => {
    const jobs = traceJobs();
    const unitemised = [{ at: daysAgo(3), system: 'deck', right: 11, missed: 4 }];
    const readings = [{ at: daysAgo(2), concepts: ['seal'] }];
    const with_ = await trace(jobs, first(startItems, { unitemised, readings }));
    // Three itemised misses and four known by count only.
    expect([with_.itemCount, with_.missCount]).toEqual([20, 7]);
    expectSameRanking(with_, await traceFresh(startItems, map, { unitemised, readings }));
    const without = await trace(jobs, patch({}));
    expect(without.itemCount).toBe(5);
    expectSameRanking(without, await traceFresh(startItems));
  });

  it('W2 gives, after any run of patches, what a fresh trace of the same log gives', async () => {
    const random = randomFrom(77);
    const pick = <T>(values: readonly T[]): T =>
      values[Math.floor(random.uniform() * values.length)]!;
    for (let round = 0; round < 12; round += 1) {
      const jobs = traceJobs();
      const log = new Map<string, TraceItem>();
      let ranking = await trace(jobs, first([]));
      let count = 0;
      for (let step = 0; step < 9; step += 1) {
        const removedItems = [...log.keys()].filter(() => random.uniform() < 0.15);
        for (const id of removedItems) log.delete(id);
        const replaced = [...log.keys()].filter(() => random.uniform() < 0.2);
        const added = Array.from(
          { length: 1 + Math.floor(random.uniform() * 7) },
          () => `n${++count}`,
        );
        const items = [...replaced, ...added].map((id) =>
          item(id, pick(map).id, random.uniform() < 0.5, {
            at: daysAgo(Math.floor(random.uniform() * 120)),
            causes: random.uniform() < 0.5 ? [pick(map).id] : [],
          }),
        );
        for (const each of items) log.set(each.id, each);
        ranking = await trace(jobs, patch({ items, removedItems }));
      }
      expectSameRanking(ranking, await traceFresh([...log.values()]));
    }
  });
});

describe('a ranking', () => {
  it('counts evidence instead of sending it, and agrees with the engine', async () => {
    const ranking = await traceFresh(startItems);
    const direct = traceRoots({
      now,
      concepts: map,
      items: startItems,
      unitemised: [],
      readings: [],
    });
    expect(ranking.roots.some((root) => 'evidence' in root)).toBe(false);
    expect(ranking.roots.map(({ conceptId, evidenceCount }) => [conceptId, evidenceCount])).toEqual(
      direct.roots.map(({ conceptId, evidence }) => [conceptId, evidence.length]),
    );
    expect(ranking.slip).toBe(direct.slip);
  });

  it('of an empty log has every concept and no miss', async () => {
    const ranking = await traceFresh([]);
    expect(ranking.roots).toHaveLength(map.length);
    expect(ranking).toMatchObject({ counted: [], itemCount: 0, missCount: 0 });
  });
});

describe('evidence', () => {
  it('lists the misses that count towards a concept, largest share first', async () => {
    const jobs = traceJobs();
    await trace(jobs, first(startItems));
    const evidence = await jobs.evidence({ conceptId: 'seal' }, fakeContext());
    expect(evidence.map(({ itemId }) => itemId).sort()).toEqual(['i1', 'i2', 'i5']);
    const shares = evidence.map(({ share }) => share);
    expect(shares).toEqual([...shares].sort((a, b) => b - a));
    // i5 names no cause: least of the three can be laid to the seal.
    expect(evidence.at(-1)?.itemId).toBe('i5');
  });

  it('is of the log as last traced', async () => {
    const jobs = traceJobs();
    await trace(jobs, first(startItems));
    await trace(jobs, patch({ removedItems: ['i1', 'i5'] }));
    const evidence = await jobs.evidence({ conceptId: 'seal' }, fakeContext());
    expect(evidence.map(({ itemId }) => itemId)).toEqual(['i2']);
  });

  it('of a concept that is not on the map is empty, and so is any before the first trace', async () => {
    const jobs = traceJobs();
    expect(await jobs.evidence({ conceptId: 'seal' }, fakeContext())).toEqual([]);
    await trace(jobs, first(startItems));
    expect(await jobs.evidence({ conceptId: 'no-such' }, fakeContext())).toEqual([]);
  });
});

// Its chains run on until they agree: long on a busy machine.
describe('the careful pass', { timeout: 120_000 }, () => {
  it('W1 needs a log', async () => {
    await expect(Promise.resolve(traceJobs().sample(null, fakeContext()))).rejects.toThrow(
      'sample: no log was traced',
    );
  });

  it('W1 counts the same log as the quick one, says how far it is, and is what evidence then shows', async () => {
    const jobs = traceJobs();
    const quick = await trace(jobs, first(startItems));
    const job = fakeContext();
    const sampled = await jobs.sample(null, job);
    expect(quick.method).toBe('quick');
    expect(sampled).toMatchObject({
      method: 'sampled',
      itemCount: quick.itemCount,
      missCount: quick.missCount,
      counted: quick.counted,
    });
    const done = job.reports.map(([sweeps]) => sweeps);
    expect(done).toEqual([...done].sort((a, b) => a - b));
    expect(job.reports.at(-1)?.[0]).toBe(job.reports.at(-1)?.[1]);
    const evidence = await jobs.evidence({ conceptId: 'seal' }, fakeContext());
    const seal = sampled?.roots.find(({ conceptId }) => conceptId === 'seal');
    expect(evidence).toHaveLength(seal?.evidenceCount ?? -1);
  });

  it('W1 leaves off when it is stopped, and evidence stays that of the quick one', async () => {
    const jobs = traceJobs();
    await trace(jobs, first(startItems));
    const before = await jobs.evidence({ conceptId: 'seal' }, fakeContext());
    expect(await jobs.sample(null, fakeContext(1))).toBeUndefined();
    expect(await jobs.evidence({ conceptId: 'seal' }, fakeContext())).toEqual(before);
  });

  it('W1 gives nothing when a newer log came in between', async () => {
    const jobs = traceJobs();
    await trace(jobs, first(startItems));
    const sampling = jobs.sample(null, fakeContext());
    await trace(jobs, patch({ removedItems: ['i1', 'i5'] }));
    expect(await sampling).toBeUndefined();
    const evidence = await jobs.evidence({ conceptId: 'seal' }, fakeContext());
    expect(evidence.map(({ itemId }) => itemId)).toEqual(['i2']);
  });
});
