import { beforeEach, describe, expect, it } from 'vitest';
import type { BlockId, ConceptId, ItemId, ReadingEventId, ReadingId } from '../../../src/model/ids';
import { noonOf, type LocalDay } from '../../../src/model/time';
import { newBlock, newConcept } from '../../../src/state/new-records';
import { Roots } from '../../../src/state/roots.svelte';
import type { Draft, DraftChange, Workspace } from '../../../src/state/workspace.svelte';
import { WorkerClient } from '../../../src/workers/client';
import type { HalfLifeChoice } from '../../../src/engine';
import type { JobHandlers } from '../../../src/workers/serve-jobs';
import {
  traceJobs,
  type Ranking,
  type TraceJobs,
  type TracePatch,
} from '../../../src/workers/trace-jobs';
import { at, freshIndexedDB } from '../storage/harness';
import { linkedWorker, type LinkedWorker } from '../workers/linked-worker';
import { openTab, until } from './tab';

const day = 20_480 as LocalDay;
const pump = 'pump' as ConceptId;
const seal = 'seal' as ConceptId;
const rope = 'rope' as ConceptId;
const dawn = 'dawn' as BlockId;
const dusk = 'dusk' as BlockId;

function item(id: string, block: BlockId, position: number, topic: ConceptId): Draft<'items'> {
  return {
    id: id as ItemId,
    block,
    position,
    outcome: 'missed',
    topics: [topic],
    causes: [],
    missingPiece: '',
    optionTurns: [],
  };
}

/** Three items in one block and one in another, on a map of three concepts. */
const log: readonly DraftChange[] = [
  {
    kind: 'concepts',
    put: { ...newConcept(pump, 'Pump', undefined), restsOn: [{ concept: seal, strength: 0.9 }] },
  },
  { kind: 'concepts', put: newConcept(seal, 'Seal', undefined) },
  { kind: 'concepts', put: newConcept(rope, 'Rope', undefined) },
  { kind: 'blocks', put: { ...newBlock(dawn, day, undefined), itemCount: 3 } },
  { kind: 'blocks', put: { ...newBlock(dusk, day, undefined), itemCount: 5 } },
  { kind: 'items', put: item('a', dawn, 1, pump) },
  { kind: 'items', put: item('b', dawn, 2, pump) },
  { kind: 'items', put: item('c', dawn, 3, rope) },
  { kind: 'items', put: item('d', dusk, 1, rope) },
];

interface Desk {
  readonly workspace: Workspace;
  readonly roots: Roots;
  /** Every patch the worker was sent. */
  readonly patches: TracePatch[];
  readonly workers: LinkedWorker[];
}

async function openDesk(
  change: (jobs: JobHandlers<TraceJobs>) => Partial<JobHandlers<TraceJobs>> = () => ({}),
  rest?: () => Promise<void>,
): Promise<Desk> {
  const { workspace } = await openTab();
  await workspace.commit('the log', log);
  const patches: TracePatch[] = [];
  const workers: LinkedWorker[] = [];
  const client = new WorkerClient<TraceJobs>(
    () => {
      const jobs = traceJobs();
      const changed: JobHandlers<TraceJobs> = {
        ...jobs,
        // The careful pass has its own tests; here it never has anything to add.
        sample: () => undefined,
        ...change(jobs),
      };
      const worker = linkedWorker<TraceJobs>({
        ...changed,
        trace: (patch, context) => {
          patches.push(patch);
          return changed.trace(patch, context);
        },
      });
      workers.push(worker);
      return worker;
    },
    () => roots.forgetSent(),
  );
  const roots = new Roots(workspace, client, study(), rest);
  return { workspace, roots, patches, workers };
}

/** The worker that looks into the half-life; each asks for one of its own. */
const study = (choice?: HalfLifeChoice) =>
  new WorkerClient<TraceJobs>(() => {
    const jobs = traceJobs();
    return linkedWorker<TraceJobs>({
      ...jobs,
      halfLife: (patch, context) => choice ?? jobs.halfLife(patch, context),
    });
  });

/** Traces until the half-life that was looked into is the worker's too; how many patches that took. */
async function settled(roots: Roots, patches: readonly TracePatch[]): Promise<number> {
  await roots.retrace();
  await until(() => roots.halfLife !== undefined);
  await roots.retrace();
  return patches.length;
}

const words = { missingPiece: 'The seal weeps before the pump does.' };

const idsOf = (patch: TracePatch | undefined) => patch?.items.map(({ id }) => id).sort();

function requireRanking(roots: Roots): Ranking {
  const { ranking } = roots;
  if (ranking.kind !== 'ready') throw new Error(JSON.stringify(ranking));
  return ranking.value;
}

/** What a worker that knows nothing makes of the log as it is now. */
async function freshRanking(workspace: Workspace): Promise<Ranking> {
  const jobs = { ...traceJobs(), sample: () => undefined };
  const client = new WorkerClient<TraceJobs>(() => linkedWorker<TraceJobs>(jobs));
  const roots = new Roots(workspace, client, study());
  await roots.retrace();
  return requireRanking(roots);
}

/** The same numbers, however the passes that settled on them began. */
function expectSameRanking(one: Ranking, other: Ranking): void {
  expect([one.itemCount, one.missCount, one.counted]).toEqual([
    other.itemCount,
    other.missCount,
    other.counted,
  ]);
  const traced = (ranking: Ranking) =>
    Object.fromEntries(ranking.roots.map((root) => [root.conceptId, root.traced]));
  for (const [id, value] of Object.entries(traced(one))) {
    const expected = traced(other)[id] ?? NaN;
    // Either has settled within 1e-2 of 1 + count (see the tests of the trace worker's jobs).
    expect(Math.abs(value - expected), id).toBeLessThan(1e-2 * (1 + expected));
  }
}

beforeEach(freshIndexedDB);

describe('what is sent to be traced', () => {
  it('W2 is everything at first and nothing when nothing changed', async () => {
    const { roots, patches } = await openDesk();
    expect(roots.behind).toBe(true);
    await roots.retrace();
    expect(idsOf(patches[0])).toEqual(['a', 'b', 'c', 'd']);
    expect(patches[0]).toMatchObject({ reset: true, removedItems: [] });
    expect(patches[0]?.concepts?.map(({ id }) => id).sort()).toEqual(['pump', 'rope', 'seal']);
    // Block "dusk" has five items, one of them written down.
    expect(patches[0]?.unitemised).toMatchObject([{ right: 4, missed: 0 }]);
    expect(requireRanking(roots)).toMatchObject({ itemCount: 8, missCount: 4 });
    expect(roots.behind).toBe(false);

    const before = await settled(roots, patches);
    await roots.retrace();
    expect(patches).toHaveLength(before);
    expect(roots.behind).toBe(false);
  });

  it('W2 is nothing while only words are written, and the item itself once it says something new', async () => {
    const { workspace, roots, patches } = await openDesk();
    const before = await settled(roots, patches);
    await workspace.amend('missing piece', 'items', 'b', words);
    await workspace.amend('where from', 'blocks', dawn, { source: 'Pilot boat notes' });
    await roots.retrace();
    expect(patches).toHaveLength(before);
    await workspace.amend('reason', 'items', 'b', { reason: 'misread' });
    await roots.retrace();
    expect(idsOf(patches[before])).toEqual(['b']);
    expectSameRanking(requireRanking(roots), await freshRanking(workspace));
  });

  it('W2 is the one item that changed', async () => {
    const { workspace, roots, patches } = await openDesk();
    await roots.retrace();
    await workspace.amend('a cause', 'items', 'b', { causes: [seal] });
    await roots.retrace();
    expect(patches[1]?.items).toMatchObject([{ id: 'b', causes: ['seal'] }]);
    expect(patches[1]?.removedItems).toEqual([]);
    expect(requireRanking(roots).counted).toEqual([{ conceptId: 'seal', count: 1 }]);
  });

  it('W2 is the item that came new', async () => {
    const { workspace, roots, patches } = await openDesk();
    await roots.retrace();
    await workspace.commit('mark item 2', [{ kind: 'items', put: item('e', dusk, 2, seal) }]);
    await roots.retrace();
    expect(idsOf(patches[1])).toEqual(['e']);
    expect(requireRanking(roots)).toMatchObject({ itemCount: 8, missCount: 5 });
  });

  it('W2 is the items of a block whose day or system changed', async () => {
    const { workspace, roots, patches } = await openDesk();
    await roots.retrace();
    await workspace.amend('the day', 'blocks', dawn, { day: (day - 40) as LocalDay });
    await roots.retrace();
    expect(idsOf(patches[1])).toEqual(['a', 'b', 'c']);
  });

  it('W2 names the item that was deleted, and all items of a block that was', async () => {
    const { workspace, roots, patches } = await openDesk();
    await roots.retrace();
    await workspace.commit('unmark', [{ kind: 'items', remove: 'c' }]);
    await roots.retrace();
    expect(patches[1]).toMatchObject({ items: [], removedItems: ['c'] });
    await workspace.commit('delete block', [{ kind: 'blocks', remove: dawn }]);
    await roots.retrace();
    expect([...(patches[2]?.removedItems ?? [])].sort()).toEqual(['a', 'b']);
    expect(requireRanking(roots)).toMatchObject({ itemCount: 5, missCount: 1 });
  });

  it('W2 brings an item back that was undeleted', async () => {
    const { workspace, roots, patches } = await openDesk();
    await roots.retrace();
    await workspace.commit('unmark', [{ kind: 'items', remove: 'c' }]);
    await roots.retrace();
    await workspace.undo();
    await roots.retrace();
    expect(idsOf(patches[2])).toEqual(['c']);
    expectSameRanking(requireRanking(roots), await freshRanking(workspace));
  });

  it('W2 is the map and every item, without a reset, when the map changed', async () => {
    const { workspace, roots, patches } = await openDesk();
    await roots.retrace();
    await workspace.commit('delete concept', [{ kind: 'concepts', remove: rope }]);
    await roots.retrace();
    expect(patches[1]?.reset).toBe(false);
    expect(patches[1]?.concepts?.map(({ id }) => id).sort()).toEqual(['pump', 'seal']);
    // The topic that is gone is named by no item any more.
    expect(
      Object.fromEntries(patches[1]?.items.map(({ id, topics }) => [id, topics]) ?? []),
    ).toEqual({ a: ['pump'], b: ['pump'], c: [], d: [] });
    expectSameRanking(requireRanking(roots), await freshRanking(workspace));
  });

  it('W2 says what was read', async () => {
    const { workspace, roots, patches } = await openDesk();
    const reading = 'manual' as ReadingId;
    await workspace.commit('a reading', [
      {
        kind: 'readings',
        put: {
          id: reading,
          title: 'Pump manual',
          source: '',
          locator: '',
          minutes: 20,
          kind: 'text',
          main: [seal],
          touched: [rope],
        },
      },
      {
        kind: 'readingEvents',
        put: { id: 'read-1' as ReadingEventId, reading, at: at(5) },
      },
    ]);
    await roots.retrace();
    expect(patches[0]?.readings).toEqual([{ at: at(5), concepts: ['seal'] }]);
  });

  it('W2 adds up to the log as it is, after any run of changes', async () => {
    const { workspace, roots } = await openDesk();
    await roots.retrace();
    const steps: readonly (() => Promise<unknown>)[] = [
      () => workspace.amend('topic', 'items', 'a', { topics: [rope, pump] }),
      () => workspace.commit('more', [{ kind: 'items', put: item('f', dusk, 4, seal) }]),
      () => workspace.amend('right', 'items', 'd', { outcome: 'right' }),
      () => workspace.commit('less', [{ kind: 'items', remove: 'b' }]),
      () => workspace.amend('link', 'concepts', rope, { restsOn: [{ concept: seal }] }),
      () => workspace.undo(),
      () => workspace.amend('total', 'blocks', dusk, { missedCount: 4 }),
    ];
    for (const step of steps) {
      await step();
      await roots.retrace();
    }
    expectSameRanking(requireRanking(roots), await freshRanking(workspace));
  });

  it('W2 is everything again once the worker has failed', async () => {
    let broken = false;
    const { workspace, roots, patches } = await openDesk((jobs) => ({
      trace: (patch, context) => {
        if (broken) throw new RangeError('traceRoots: got a loop');
        return jobs.trace(patch, context);
      },
    }));
    await roots.retrace();
    broken = true;
    await workspace.commit('unmark', [{ kind: 'items', remove: 'c' }]);
    await roots.retrace();
    expect(roots.ranking).toEqual({ kind: 'failed', message: 'traceRoots: got a loop' });
    expect(roots.behind).toBe(false);

    broken = false;
    await roots.retrace();
    expect(patches[2]).toMatchObject({ reset: true, removedItems: [] });
    expect(idsOf(patches[2])).toEqual(['a', 'b', 'd']);
    expect(patches[2]?.concepts).toHaveLength(3);
    expect(requireRanking(roots)).toMatchObject({ itemCount: 8, missCount: 3 });
  });

  it('W2 is everything again to the worker that follows one that died', async () => {
    const { roots, patches, workers } = await openDesk();
    await roots.retrace();
    workers[0]?.die('out of memory');
    await roots.retrace();
    expect(workers).toHaveLength(2);
    expect(patches[1]?.reset).toBe(true);
    expect(idsOf(patches[1])).toEqual(['a', 'b', 'c', 'd']);
  });
});

describe('which answer is shown', () => {
  it('W1 never the older one, though it arrives last', async () => {
    const releases: (() => void)[] = [];
    const { workspace, roots, patches } = await openDesk((jobs) => ({
      trace: async (patch, context) => {
        const ranking = await jobs.trace(patch, context);
        await new Promise<void>((resolve) => releases.push(resolve));
        return ranking;
      },
    }));
    const older = roots.retrace();
    await workspace.commit('mark item 2', [{ kind: 'items', put: item('e', dusk, 2, seal) }]);
    const newer = roots.retrace();
    await older;
    expect(roots.ranking).toEqual({ kind: 'loading' });
    expect(roots.behind).toBe(true);
    await until(() => releases.length === 2);
    releases[1]?.();
    await newer;
    releases[0]?.();
    await new Promise((resolve) => setImmediate(resolve));
    // The older patch was still taken in: the newer one only adds to it.
    expect(idsOf(patches[1])).toEqual(['e']);
    expect(requireRanking(roots).missCount).toBe(5);
    expect(roots.behind).toBe(false);
  });

  it('the careful one once it is there, and how far it is until then', async () => {
    let release: () => void = () => undefined;
    const { roots } = await openDesk((jobs) => ({
      sample: async (_input, context) => {
        context.progress(1, 4);
        await new Promise<void>((resolve) => (release = resolve));
        const quick = await jobs.trace(
          { now: at(60), reset: false, items: [], removedItems: [], unitemised: [], readings: [] },
          context,
        );
        return { ...quick, method: 'sampled' as const };
      },
    }));
    const tracing = roots.retrace();
    await until(() => roots.sampling === 0.25);
    expect(requireRanking(roots).method).toBe('quick');
    release();
    await tracing;
    expect(requireRanking(roots).method).toBe('sampled');
    expect(roots.sampling).toBeUndefined();
  });

  it('the quick one alone while the log is still being written', async () => {
    let sampled = 0;
    const { workspace, roots, patches } = await openDesk(
      () => ({
        sample: () => {
          sampled += 1;
          return undefined;
        },
      }),
      () => new Promise((resolve) => setTimeout(resolve, 40)),
    );
    const first = roots.retrace();
    await until(() => roots.ranking.kind === 'ready');
    await workspace.amend('reason', 'items', 'b', { reason: 'misread' });
    await Promise.all([first, roots.retrace()]);
    expect(patches).toHaveLength(2);
    expect(sampled).toBe(1);
  });

  it('the quick one when the careful one fails', async () => {
    const { roots } = await openDesk(() => ({
      sample: () => {
        throw new Error('sample: no memory');
      },
    }));
    await roots.retrace();
    expect(requireRanking(roots).method).toBe('quick');
    expect(roots.sampling).toBeUndefined();
  });
});

describe('evidenceFor', () => {
  it('lists the misses of one concept, and none for a concept without any', async () => {
    const { roots } = await openDesk();
    await roots.retrace();
    const evidence = await roots.evidenceFor(seal);
    if (evidence.kind !== 'ready') throw new Error(evidence.kind);
    expect(evidence.value.map(({ itemId }) => itemId).sort()).toEqual(['a', 'b']);
    expect(await roots.evidenceFor('none' as ConceptId)).toEqual({ kind: 'ready', value: [] });
  });

  it('W1 says why it failed', async () => {
    const { roots } = await openDesk(() => ({
      evidence: () => {
        throw new Error('evidence: lost');
      },
    }));
    expect(await roots.evidenceFor(seal)).toEqual({ kind: 'failed', message: 'evidence: lost' });
  });
});

describe('a period', () => {
  it('is traced from its own blocks alone, and leaves the ranking of all of them as it was', async () => {
    const { workspace, roots } = await openDesk();
    await workspace.amend('the day', 'blocks', dusk, { day: (day + 20) as LocalDay });
    await roots.retrace();
    const whole = requireRanking(roots);
    expect([whole.itemCount, whole.missCount]).toEqual([8, 4]);

    const later = await roots.rankingSince(noonOf((day + 10) as LocalDay));
    if (later.kind !== 'ready') throw new Error(JSON.stringify(later));
    // One miss itemised and four of five known by count: by hand from the log above.
    expect([later.value.itemCount, later.value.missCount]).toEqual([5, 1]);
    expect(later.value.roots.find(({ conceptId }) => conceptId === pump)?.evidenceCount).toBe(0);
    expect(requireRanking(roots)).toBe(whole);

    const all = await roots.rankingSince(noonOf((day - 1) as LocalDay));
    if (all.kind !== 'ready') throw new Error(JSON.stringify(all));
    expectSameRanking(all.value, whole);
  });
});

describe('the half-life', () => {
  it('W2 traces again under the half-life that foretold the log best, and says which it is', async () => {
    const { workspace, patches, roots: first } = await openDesk();
    await first.retrace();
    expect(patches.map(({ halfLifeDays }) => halfLifeDays)).toEqual([undefined]);
    await until(() => first.halfLife !== undefined);
    expect(first.halfLife?.kind).toBe('few-items');

    const seen: (number | undefined)[] = [];
    const jobs = traceJobs();
    const client = new WorkerClient<TraceJobs>(() =>
      linkedWorker<TraceJobs>({
        ...jobs,
        sample: () => undefined,
        trace: (patch, context) => {
          seen.push(patch.halfLifeDays);
          return jobs.trace(patch, context);
        },
      }),
    );
    const best: HalfLifeChoice = { kind: 'best', halfLifeDays: 30, losses: [], itemCount: 3 };
    const roots = new Roots(workspace, client, study(best));
    await roots.retrace();
    await until(() => seen.length === 2);
    expect(seen).toEqual([undefined, 30]);
    expect(roots.halfLife).toEqual(best);
  });
});
