import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { missReasons } from '../../../src/model/log';
import { packItems, unpackItems } from '../../../src/workers/packed-items';
import { traceJobs, type TraceItem, type TracePatch } from '../../../src/workers/trace-jobs';
import { fakeContext } from './linked-worker';

const name = fc.constantFrom('pump', 'seal', 'rope', 'déjà-vu', '');
const anItem: fc.Arbitrary<TraceItem> = fc.record({
  id: fc.uuid(),
  at: fc.integer(),
  missed: fc.boolean(),
  system: fc.option(name, { nil: undefined }),
  topics: fc.array(name, { maxLength: 4 }),
  causes: fc.array(name, { maxLength: 4 }),
  reason: fc.option(fc.constantFrom(...missReasons), { nil: undefined }),
});

describe('packed items', () => {
  it('come out as they went in, and survive the copy that a message makes', () => {
    fc.assert(
      fc.property(fc.array(anItem), (items) => {
        expect(unpackItems(structuredClone(packItems(items)))).toEqual(items);
      }),
    );
  });
});

describe('a period', () => {
  const day = 86_400_000;
  const now = 1_000 * day;
  const items = Array.from({ length: 40 }, (_, i): TraceItem => ({
    id: String(i),
    at: now - i * day,
    missed: i % 3 === 0,
    topics: [i % 2 === 0 ? 'pump' : 'rope'],
    causes: [],
  }));
  const patch = (fields: Partial<TracePatch>): TracePatch => ({
    now,
    reset: true,
    concepts: ['pump', 'rope'].map((id) => ({ id, systems: [], restsOn: [] })),
    items: [],
    removedItems: [],
    unitemised: [
      { at: now - 5 * day, system: undefined, right: 8, missed: 2 },
      { at: now - 30 * day, system: undefined, right: 80, missed: 20 },
    ],
    readings: [],
    ...fields,
  });

  it('is traced from what was sat in it alone, packed or not', async () => {
    const jobs = traceJobs();
    const from = now - 10 * day;
    const since = await jobs.period(
      {
        patch: patch({ packed: [packItems(items.slice(0, 15)), packItems(items.slice(15))] }),
        from,
      },
      fakeContext(),
    );
    expect(since.itemCount).toBe(11 + 10);
    expect(since.missCount).toBe(items.filter(({ at, missed }) => missed && at >= from).length + 2);
    // What the worker holds is the whole log still.
    const then = await jobs.period(
      { patch: patch({ reset: false, concepts: undefined }), until: from },
      fakeContext(),
    );
    expect(then.itemCount).toBe(29 + 100);
  });

  it('that ended counts evidence as old as it was then', async () => {
    const until = now - 10 * day;
    const earlier = await traceJobs().period({ patch: patch({ items }), until }, fakeContext());
    const atThatTime = await traceJobs().trace(
      patch({
        now: until,
        items: items.filter(({ at }) => at < until),
        unitemised: patch({}).unitemised.filter(({ at }) => at < until),
      }),
      fakeContext(),
    );
    expect(earlier.roots).toEqual(atThatTime.roots);
  });
});
