import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { ConceptId } from '../../../src/model/ids';
import { Finder } from '../../../src/state/find.svelte';
import { newConcept } from '../../../src/state/new-records';
import { newNote } from '../../../src/state/new-study';
import { readSearchIndex, writeSearchIndex } from '../../../src/storage';
import { WorkerClient } from '../../../src/workers/client';
import { searchJobs, type SearchJobs } from '../../../src/workers/search-jobs';
import { freshIndexedDB } from '../storage/harness';
import { linkedWorker, type LinkedWorker } from '../workers/linked-worker';
import { openTab, until, type Tab } from './tab';

beforeEach(() => {
  freshIndexedDB();
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
});
afterEach(() => vi.useRealTimers());

/** A finder over a worker in the same thread, with a list of the documents it was sent. */
function finderOver({ workspace, store }: Tab, onupdate: () => void = () => undefined) {
  const sent: string[] = [];
  const workers: LinkedWorker[] = [];
  const client = new WorkerClient<SearchJobs>(
    () => {
      const jobs = searchJobs();
      const worker = linkedWorker<SearchJobs>({
        ...jobs,
        update: (input, context) => {
          sent.push(...input.put.map(({ key }) => key));
          onupdate();
          return jobs.update(input, context);
        },
      });
      workers.push(worker);
      return worker;
    },
    () => finder.forgetSent(),
  );
  const finder: Finder = new Finder(workspace, store, client);
  const keys = async (typed: string) => {
    const found = await finder.find(typed, {}, 20);
    if (found.kind !== 'ready') return [found.kind];
    return found.value.groups.flatMap(({ first }) => first.map(({ key }) => key)).sort();
  };
  const upToDate = async () => {
    finder.follow();
    await finder.settled();
  };
  return { finder, keys, upToDate, sent, workers };
}

async function write({ workspace }: Tab, id: string, text: string, concepts: string[] = []) {
  const put = newNote(id as never, id, text, concepts as ConceptId[]);
  expect(await workspace.commit('write', [{ kind: 'notes', put }])).toMatchObject({
    kind: 'saved',
  });
}

async function remove({ workspace }: Tab, id: string) {
  await workspace.commit('delete', [{ kind: 'notes', remove: id }]);
}

describe('Find', () => {
  it('finds what was written, edited and deleted since, sending only what changed', async () => {
    const tab = await openTab();
    await write(tab, 'one', 'acidosis of the kidney');
    await write(tab, 'two', 'alkalosis');
    const { keys, upToDate, sent } = finderOver(tab);
    await upToDate();
    expect(await keys('kidney')).toEqual(['notes:one']);
    expect(sent).toEqual(['notes:one', 'notes:two']);

    const note = tab.workspace.of('notes').find('one')!;
    await tab.workspace.commit('edit', [{ kind: 'notes', put: { ...note, text: 'of the lung' } }]);
    await upToDate();
    expect(await keys('kidney ')).toEqual([]);
    expect(await keys('lung')).toEqual(['notes:one']);
    await remove(tab, 'two');
    await upToDate();
    expect(await keys('alkalosis ')).toEqual([]);
    expect(sent).toEqual(['notes:one', 'notes:two', 'notes:one']);
  });

  it('finds a record by the new name of a concept it is linked to, and sends no other', async () => {
    const tab = await openTab();
    const concept = newConcept('c1' as ConceptId, 'Buffers', undefined);
    await tab.workspace.commit('add', [{ kind: 'concepts', put: concept }]);
    await write(tab, 'one', 'linked', ['c1']);
    await write(tab, 'two', 'not linked');
    const { keys, upToDate, sent } = finderOver(tab);
    await upToDate();
    sent.length = 0;
    const before = tab.workspace.of('concepts').find('c1')!;
    await tab.workspace.commit('rename', [
      { kind: 'concepts', put: { ...before, name: 'Proton sponges' } },
    ]);
    await upToDate();
    expect(await keys('sponges')).toEqual(['concepts:c1', 'notes:one']);
    expect(sent.sort()).toEqual(['concepts:c1', 'notes:one']);
  });

  it('W3 begins the next time with what was saved, and sends only what is new, stale or gone', async () => {
    const tab = await openTab();
    await write(tab, 'one', 'first');
    await write(tab, 'two', 'second');
    await write(tab, 'three', 'third');
    const before = finderOver(tab);
    await before.upToDate();
    await vi.runAllTimersAsync();
    await untilSaved(tab, 1);

    await write(tab, 'four', 'fourth');
    await remove(tab, 'two');
    const note = tab.workspace.of('notes').find('one')!;
    await tab.workspace.commit('edit', [{ kind: 'notes', put: { ...note, text: 'changed' } }]);
    const after = finderOver(tab);
    await after.upToDate();
    expect(after.sent.sort()).toEqual(['notes:four', 'notes:one']);
    expect(await after.keys('third')).toEqual(['notes:three']);
    expect(await after.keys('second ')).toEqual([]);
    expect(await after.keys('changed')).toEqual(['notes:one']);
  });

  it('W3 lets a damaged part go from the storage and indexes its documents again', async () => {
    const tab = await openTab();
    await write(tab, 'one', 'first');
    await writeSearchIndex(tab.store, [
      { id: 'part-0', content: { format: 'hypocentre-search', version: 3, documents: 'no' } },
      { id: 'old', content: { format: 'hypocentre-search', version: 2 } },
    ]);
    const { keys, upToDate, sent } = finderOver(tab);
    await upToDate();
    expect(sent).toEqual(['notes:one']);
    expect(await keys('first')).toEqual(['notes:one']);
    expect(await savedParts(tab)).toEqual([]);
  });

  it('W2 sends everything again after its worker has died', async () => {
    const tab = await openTab();
    await write(tab, 'one', 'first');
    const { keys, upToDate, finder, workers } = finderOver(tab);
    await upToDate();
    const [worker] = workers;
    worker!.die('out of memory');
    await until(() => workers.length === 2);
    await finder.settled();
    expect(await keys('first')).toEqual(['notes:one']);
  });

  it('answers a question in the middle of indexing many documents', async () => {
    const tab = await openTab();
    const puts = Array.from({ length: 400 }, (_, i) => ({
      kind: 'notes' as const,
      put: newNote(`n${i}` as never, `Note ${i}`, i === 0 ? 'needle' : 'hay', []),
    }));
    await tab.workspace.commit('write', puts);
    let updates = 0;
    let asked: Promise<{ found: string[]; waiting: number }> | undefined;
    const { finder, keys, upToDate } = finderOver(tab, () => {
      updates += 1;
      if (updates !== 2) return;
      asked = keys('needle').then((found) => ({ found, waiting: finder.waiting }));
    });
    await upToDate();
    const answer = await asked!;
    expect(answer.found).toEqual(['notes:n0']);
    expect(answer.waiting).toBeGreaterThan(0);
    expect(finder.waiting).toBe(0);
  });
});

async function savedParts(tab: Tab): Promise<readonly unknown[]> {
  const parts: unknown[] = [];
  await readSearchIndex(tab.store, (some) => parts.push(...some));
  return parts;
}

async function untilSaved(tab: Tab, parts: number): Promise<void> {
  while ((await savedParts(tab)).length !== parts);
}
