import { beforeEach, describe, expect, it } from 'vitest';
import { foldName } from '../../../src/model/fold-name';
import type { ConceptId, SystemId, TopicMatchId } from '../../../src/model/ids';
import { recordKinds } from '../../../src/model/records';
import { Importer, type PlanView } from '../../../src/state/importer.svelte';
import { newConcept } from '../../../src/state/new-records';
import { WorkerClient } from '../../../src/workers/client';
import { importJobs, type ImportJobs } from '../../../src/workers/import-jobs';
import type { JobHandlers } from '../../../src/workers/serve-jobs';
import { freshIndexedDB, requireRecords, requireStore } from '../storage/harness';
import { linkedWorker, type LinkedWorker } from '../workers/linked-worker';
import { openTab, until, type Tab } from './tab';

const seal = 'seal' as ConceptId;
const deck = 'deck' as SystemId;

interface Desk extends Tab {
  readonly importer: Importer;
  /** Workers started so far, the newest last. */
  readonly workers: readonly LinkedWorker[];
}

/** A tab with a small map on it and an importer over a worker in the same thread. */
async function openDesk(
  change: (jobs: JobHandlers<ImportJobs>) => Partial<JobHandlers<ImportJobs>> = () => ({}),
  minutesEast = 0,
): Promise<Desk> {
  const tab = await openTab(minutesEast);
  if (tab.workspace.of('concepts').live.size === 0) {
    await tab.workspace.commit('the map', [
      { kind: 'systems', put: { id: deck, name: 'Deck' } },
      { kind: 'concepts', put: newConcept(seal, 'Pump seal', deck) },
    ]);
    tab.workspace.forgetSteps();
  }
  const workers: LinkedWorker[] = [];
  const client = new WorkerClient<ImportJobs>(() => {
    const jobs = importJobs();
    const worker = linkedWorker<ImportJobs>({ ...jobs, ...change(jobs) });
    workers.push(worker);
    return worker;
  });
  return { ...tab, importer: new Importer(tab.workspace, client), workers };
}

interface Row {
  readonly block: string;
  readonly item: number;
  readonly result: 'right' | 'missed';
  readonly topic: string;
}

const topics = ['Pump seal', 'Bilge pump', 'Towing rope', 'pump seals'];

/** Blocks of one to four items, so that no two neighbours have the same size. */
function rowsOf(blocks: number): Row[] {
  return Array.from({ length: blocks }, (_, block) =>
    Array.from({ length: 1 + ((block * 3) % 4) }, (__, item): Row => ({
      block: `Watch ${block + 1}`,
      item: item + 1,
      result: (block + item) % 3 === 0 ? 'right' : 'missed',
      topic: topics[(block + item * 2) % topics.length]!,
    })),
  ).flat();
}

const textOf = (rows: readonly Row[]) =>
  [
    'Date,Block,Item,Result,Topic',
    ...rows.map(({ block, item, result, topic }) =>
      ['2026-02-02', block, item, result, topic].join(','),
    ),
  ].join('\n');

function requirePlan(importer: Importer): PlanView {
  const { plan } = importer;
  if (plan?.kind !== 'plan') throw new Error(JSON.stringify(plan ?? importer.failure));
  return plan;
}

/** How many records of each kind the disk holds that are not deleted; kinds without any left out. */
async function storedCounts(): Promise<Record<string, number>> {
  const records = await requireRecords(await requireStore());
  const counts = recordKinds.map((kind): [string, number] => [
    kind,
    records[kind].filter(({ stamp }) => !stamp.deleted).length,
  ]);
  return Object.fromEntries(counts.filter(([, count]) => count > 0));
}

const nothingButTheMap = { systems: 1, concepts: 1 };

beforeEach(freshIndexedDB);

describe('bringing in a table', () => {
  it('I1 stores nothing before it is confirmed, then every row in one step', async () => {
    const { importer, workspace } = await openDesk();
    // More blocks than the worker hands over at a time, and no multiple of it.
    const rows = rowsOf(57);
    await importer.openText(textOf(rows));
    expect(importer.stage).toEqual({ kind: 'mapping' });
    expect(requirePlan(importer).totals).toMatchObject({ items: rows.length, blocks: 57 });
    expect(await storedCounts()).toEqual(nothingButTheMap);

    expect(await importer.commit()).toMatchObject({ kind: 'saved' });
    expect(await storedCounts()).toEqual({ ...nothingButTheMap, blocks: 57, items: rows.length });
    const blocks = workspace.of('blocks').live;
    const seen = [...workspace.of('items').live.values()].map(({ block, position, outcome }) => ({
      size: blocks.get(block)?.itemCount,
      position,
      outcome,
    }));
    const sizes = new Map(rows.map(({ block, item }) => [block, item]));
    const given = rows.map(({ block, item, result }) => ({
      size: sizes.get(block),
      position: item,
      outcome: result,
    }));
    expect(seen).toEqual(given);
    expect(importer.stage).toEqual({ kind: 'choosing' });
  });

  it('I1 is taken back and done again as one step, with what was decided', async () => {
    const { importer, workspace } = await openDesk();
    const rows = rowsOf(30);
    await importer.openText(textOf(rows));
    await importer.decide(foldName('Bilge pump'), { kind: 'concept', concept: seal });
    await importer.makeConcepts(
      requirePlan(importer).unmatched.filter(({ name }) => name === 'Towing rope'),
    );
    await importer.commit();
    expect(workspace.undoLabel).toBe(`bring in ${rows.length} items`);
    const all = { systems: 1, concepts: 2, blocks: 30, items: rows.length, topicMatches: 1 };
    expect(await storedCounts()).toEqual(all);

    expect(await workspace.undo()).toMatchObject({ kind: 'saved' });
    expect(await storedCounts()).toEqual(nothingButTheMap);
    expect(workspace.undoLabel).toBeUndefined();
    expect(await workspace.redo()).toMatchObject({ kind: 'saved' });
    expect(await storedCounts()).toEqual(all);
  });

  it('I1 stores nothing when another tab was first with a decision', async () => {
    const here = await openDesk();
    await here.workspace.commit('a match', [
      {
        kind: 'topicMatches',
        put: { id: 'm' as TopicMatchId, folded: foldName('Bilge pump'), concepts: [] },
      },
    ]);
    const there = await openDesk();
    for (const { importer } of [here, there]) {
      await importer.openText(textOf(rowsOf(7)));
      await importer.decide(foldName('Bilge pump'), { kind: 'concept', concept: seal });
    }
    // Both write at once: neither has heard of the other yet.
    const results = await Promise.all([here.importer.commit(), there.importer.commit()]);
    expect(results.map(({ kind }) => kind).sort()).toEqual(['conflict', 'saved']);
    const loser = results[0].kind === 'conflict' ? here : there;
    expect(loser.importer.stage).toEqual({ kind: 'mapping' });
    expect(await storedCounts()).toMatchObject({ blocks: 7, topicMatches: 1 });
  });

  it('I1 does not come in twice when it is confirmed twice', async () => {
    const { importer } = await openDesk();
    await importer.openText(textOf(rowsOf(61)));
    await Promise.all([importer.commit(), importer.commit()]);
    expect(await storedCounts()).toMatchObject({ blocks: 61 });
  });

  it('I1 says that there is no plan yet when nothing was opened', async () => {
    const { importer } = await openDesk();
    expect((await importer.commit()).kind).toBe('failed');
  });

  it('I1 gives a block its start by the clock on the candidate’s wall', async () => {
    const { importer, workspace } = await openDesk(undefined, 120);
    await importer.openText(
      'Date,Start time,Block,Item,Result\n2026-02-02,09:30,Dawn,1,missed\n2026-02-02,21:05,Dusk,1,right',
    );
    await importer.commit();
    const starts = [...workspace.of('blocks').live.values()].map(({ startedAt }) => startedAt);
    // Two hours east of UTC: 09:30 there is 07:30 UTC.
    expect(starts).toEqual([Date.UTC(2026, 1, 2, 7, 30), Date.UTC(2026, 1, 2, 19, 5)]);
  });

  it('I3 waits for an answer before there is a plan', async () => {
    const { importer, workspace } = await openDesk();
    await importer.openText(
      'Date,Block,Item,Result\n02/03/2026,Dawn,1,missed\n04/03/2026,Dusk,1,right',
    );
    expect(importer.plan).toMatchObject({ kind: 'questions', questions: [{ kind: 'dayOrder' }] });
    expect((await importer.commit()).kind).toBe('failed');
    await importer.answer({ dayOrder: 'month-first' });
    await importer.commit();
    // 3 February and 3 April 2026.
    expect([...workspace.of('blocks').live.values()].map(({ day }) => day)).toEqual([
      Date.UTC(2026, 1, 3) / 86_400_000,
      Date.UTC(2026, 3, 3) / 86_400_000,
    ]);
  });

  it('I2 shows the faults of the rows that stay out and brings in the rest', async () => {
    const { importer } = await openDesk();
    await importer.openText(
      'Date,Block,Item,Result\n2026-02-02,Dawn,1,missed\n2026-02-31,Dawn,2,missed\n2026-02-02,Dawn,3,right',
    );
    const { rejected, totals } = requirePlan(importer);
    expect(rejected.map(({ row, column, value }) => [row, column, value])).toEqual([
      [3, 'Date', '2026-02-31'],
    ]);
    expect(totals.items).toBe(2);
    await importer.commit();
    expect(await storedCounts()).toMatchObject({ items: 2 });
  });

  it('I1 follows the columns as they are set by hand', async () => {
    const { importer } = await openDesk();
    await importer.openText(textOf(rowsOf(5)));
    expect(requirePlan(importer).totals.itemsWithTopics).toBeGreaterThan(0);
    await importer.setField(4, null);
    expect(requirePlan(importer)).toMatchObject({ unmatched: [], totals: { itemsWithTopics: 0 } });
    await importer.setField(4, 'missingPiece');
    await importer.commit();
    const { items } = await requireRecords(await requireStore());
    // By contents: the ids under which records come back are in no order of the file.
    const pieces = items.map(({ missingPiece }) => missingPiece);
    expect(pieces).toContain('Pump seal');
    expect(pieces).not.toContain('');
  });

  it('I1 reads the next file of the same header as the last one was set by hand', async () => {
    const { importer, workspace } = await openDesk();
    const text = 'date,item,result,zz\n2026-03-02,1,missed,It ran dry at sea\n';
    await importer.openText(text);
    const guessed = importer.mapping.fields[3];
    await importer.setField(3, 'missingPiece');
    await importer.commit();
    expect(guessed).not.toBe('missingPiece');
    expect(workspace.of('columnMappings').live.size).toBe(1);

    await importer.openText(text.replace('03-02', '03-09'));
    expect(importer.asBefore).toBe(true);
    expect(importer.mapping.fields[3]).toBe('missingPiece');
    await importer.openText('date,item,result,yy\n2026-03-02,1,missed,It ran dry at sea\n');
    expect(importer.asBefore).toBe(false);
  });

  it('I1 takes several files one after another, each looked at on its own', async () => {
    const { importer } = await openDesk();
    const file = (name: string, day: string) =>
      new File([`date,item,result\n2026-03-${day},1,missed\n`], name);
    await importer.openFiles([file('a.csv', '02'), file('b.csv', '03')]);
    expect([importer.name, importer.waiting]).toEqual(['a.csv', ['b.csv']]);
    // Dropped while a table is looked at: it stays, the new one joins the row.
    await importer.openFiles([file('c.csv', '04')]);
    expect([importer.name, importer.waiting]).toEqual(['a.csv', ['b.csv', 'c.csv']]);
    await importer.commit();
    expect(await importer.openNext()).toBe(true);
    expect([importer.name, importer.waiting]).toEqual(['b.csv', ['c.csv']]);
    importer.forgetWaiting();
    expect(await importer.openNext()).toBe(false);
  });

  it('I1 stores no concept that no item of the plan names any more', async () => {
    const { importer, workspace } = await openDesk();
    const before = workspace.of('concepts').live.size;
    await importer.openText('date,item,result,topic\n2026-03-02,1,missed,Towing rope\n');
    const plan = importer.plan;
    if (plan?.kind !== 'plan') throw new Error('no plan');
    await importer.makeConcepts(plan.unmatched);
    await importer.setField(3, null);
    expect(await importer.commit()).toMatchObject({ kind: 'saved' });
    expect(workspace.of('concepts').live.size).toBe(before);
  });
});

describe('names decided by hand', () => {
  const bilge = foldName('Bilge pump');
  const rope = foldName('Towing rope');

  it('I4 are remembered and need no decision in the next table, in any tab', async () => {
    const { importer, workspace } = await openDesk();
    await importer.openText(textOf(rowsOf(12)));
    expect(
      requirePlan(importer)
        .unmatched.map(({ folded }) => folded)
        .sort(),
    ).toEqual([bilge, rope]);
    await importer.decide(bilge, { kind: 'concept', concept: seal });
    await importer.decide(rope, { kind: 'leave-out' });
    expect(requirePlan(importer).unmatched).toEqual([]);
    await importer.commit();
    const matches = [...workspace.of('topicMatches').live.values()];
    expect(matches.map(({ folded, concepts }) => [folded, concepts])).toEqual([
      [bilge, [seal]],
      [rope, []],
    ]);

    const later = await openDesk();
    await later.importer.openText(textOf(rowsOf(8)).replaceAll('Bilge pump', 'BILGE-PUMPS'));
    // The same rows as before: brought in once more on purpose.
    await later.importer.answer({ inLog: 'bring-in' });
    expect(later.importer.decisions.size).toBe(0);
    expect(requirePlan(later.importer).unmatched).toEqual([]);
    await later.importer.commit();
    const topicsOf = (rows: readonly Row[]) =>
      rows.map(({ topic }) => (topic === 'Towing rope' ? [] : [seal]));
    expect(
      [...later.workspace.of('items').live.values()].map((item) => item.topics).sort(),
    ).toEqual([...topicsOf(rowsOf(12)), ...topicsOf(rowsOf(8))].sort());
    expect(later.workspace.of('topicMatches').live.size).toBe(2);
  });

  it('I4 put the chosen concept on every item that bore the name, and none on those left out', async () => {
    const { importer, workspace } = await openDesk();
    const rows = rowsOf(16);
    await importer.openText(textOf(rows));
    await importer.decide(bilge, { kind: 'concept', concept: seal });
    await importer.decide(rope, { kind: 'leave-out' });
    await importer.commit();
    expect([...workspace.of('items').live.values()].map((item) => item.topics)).toEqual(
      rows.map(({ topic }) => (topic === 'Towing rope' ? [] : [seal])),
    );
  });

  it('I4 replace what was decided about the same name before', async () => {
    const { importer, workspace } = await openDesk();
    await importer.openText(textOf(rowsOf(8)));
    await importer.decide(bilge, { kind: 'leave-out' });
    await importer.commit();
    await importer.openText(textOf(rowsOf(8)));
    const remembered = requirePlan(importer).totals.itemsWithTopics;
    await importer.decide(bilge, { kind: 'concept', concept: seal });
    // The preview shows at once what the new decision makes of the name.
    const bearing = rowsOf(8).filter(({ topic }) => topic === 'Bilge pump').length;
    expect(bearing).toBeGreaterThan(0);
    expect(requirePlan(importer).totals.itemsWithTopics).toBe(remembered + bearing);
    await importer.commit();
    expect(
      [...workspace.of('topicMatches').live.values()].map(({ folded, concepts }) => [
        folded,
        concepts,
      ]),
    ).toEqual([[bilge, [seal]]]);
  });

  it('I4 can be taken back until they are stored', async () => {
    const { importer, workspace } = await openDesk();
    await importer.openText(textOf(rowsOf(8)));
    await importer.decide(bilge, { kind: 'concept', concept: seal });
    await importer.decide(rope, { kind: 'leave-out' });
    await importer.decide(bilge, undefined);
    expect(requirePlan(importer).unmatched.map(({ folded }) => folded)).toEqual([bilge]);
    await importer.decide(rope, undefined);
    expect(requirePlan(importer).unmatched).toHaveLength(2);
    await importer.commit();
    expect(workspace.of('topicMatches').live.size).toBe(0);
  });

  it('I4 of one table are not carried over to another that was never brought in', async () => {
    const { importer } = await openDesk();
    await importer.openText(textOf(rowsOf(8)));
    await importer.decide(bilge, { kind: 'leave-out' });
    await importer.openText(textOf(rowsOf(8)));
    expect(importer.decisions.size).toBe(0);
    expect(requirePlan(importer).unmatched).toHaveLength(2);
  });

  it('I1 become concepts that the items carry, found by name the next time', async () => {
    const { importer, workspace } = await openDesk();
    const rows = rowsOf(10);
    await importer.openText(textOf(rows));
    await importer.makeConcepts(requirePlan(importer).unmatched);
    expect(requirePlan(importer).unmatched).toEqual([]);
    expect(workspace.of('concepts').live.size).toBe(1);
    await importer.commit();
    const concepts = workspace.of('concepts').live;
    const names = (item: { readonly topics: readonly string[] }) =>
      item.topics.map((id) => concepts.get(id)?.name);
    expect([...workspace.of('items').live.values()].map(names)).toEqual(
      rows.map(({ topic }) => [topic === 'pump seals' ? 'Pump seal' : topic]),
    );
    expect(workspace.of('topicMatches').live.size).toBe(0);

    await importer.openText(textOf(rows));
    expect(requirePlan(importer).unmatched).toEqual([]);
  });

  it('I1 become organ systems that the items name', async () => {
    const { importer, workspace } = await openDesk();
    await importer.openText(
      'Date,Block,Item,Result,System\n2026-02-02,Dawn,1,missed,Engine room\n2026-02-02,Dawn,2,missed,Deck\n2026-02-02,Dawn,3,right,Engine room',
    );
    expect(requirePlan(importer).unmatchedSystems).toEqual([{ name: 'Engine room', rows: 2 }]);
    await importer.makeSystems(['Engine room']);
    expect(requirePlan(importer).unmatchedSystems).toEqual([]);
    await importer.commit();
    const systems = workspace.of('systems').live;
    expect(
      [...workspace.of('items').live.values()].map(({ system }) => systems.get(system ?? '')?.name),
    ).toEqual(['Engine room', 'Deck', 'Engine room']);
  });
});

describe('an import that breaks off', () => {
  it('I1 leaves nothing when it is stopped before anything was written', async () => {
    const { importer, workspace } = await openDesk();
    await importer.openText(textOf(rowsOf(60)));
    const saving = importer.commit();
    expect(importer.stage).toEqual({ kind: 'saving' });
    importer.stop();
    expect(await saving).toEqual({ kind: 'stopped' });
    expect(importer.stage).toEqual({ kind: 'mapping' });
    expect(workspace.undoLabel).toBeUndefined();
    expect(await storedCounts()).toEqual(nothingButTheMap);
  });

  it('I1 leaves nothing when it is stopped in the middle of writing, and can be brought in after all', async () => {
    const { importer } = await openDesk();
    const rows = rowsOf(400);
    await importer.openText(textOf(rows));
    const saving = importer.commit();
    // The first report of records written; several chunks are still to come.
    await until(() => (importer.progress?.done ?? 0) > 0);
    expect(importer.progress?.done).toBeLessThan(rows.length);
    importer.stop();
    expect(await saving).toEqual({ kind: 'stopped' });
    expect(await storedCounts()).toEqual(nothingButTheMap);

    expect(await importer.commit()).toMatchObject({ kind: 'saved' });
    expect(await storedCounts()).toMatchObject({ blocks: 400, items: rows.length });
  });

  it('I1 plans anew after it was stopped', async () => {
    const { importer } = await openDesk();
    await importer.openText(textOf(rowsOf(5)));
    const saving = importer.commit();
    importer.stop();
    await saving;
    await importer.setField(4, null);
    expect(requirePlan(importer).totals.itemsWithTopics).toBe(0);
  });

  it('I1 goes back to choosing when it is stopped while it reads', async () => {
    const { importer } = await openDesk();
    const opening = importer.openText(textOf(rowsOf(5)));
    importer.stop();
    await opening;
    expect(importer.stage.kind).toBe('choosing');
  });

  it('I1 brings in the plan with the last decision in it, or nothing', async () => {
    const { importer, workspace } = await openDesk();
    await importer.openText('Date,Block,Item,Result,Topic\n2026-02-02,Dawn,1,missed,Bilge pump');
    const deciding = importer.decide(foldName('Bilge pump'), { kind: 'concept', concept: seal });
    const result = await importer.commit();
    await deciding;
    const items = [...workspace.of('items').live.values()];
    if (result.kind === 'saved') expect(items.map((item) => item.topics)).toEqual([[seal]]);
    else expect(items).toEqual([]);
  });

  it('I2 names a file that can no longer be read and stays where one is chosen', async () => {
    const { importer } = await openDesk();
    const file = {
      name: 'watches.csv',
      arrayBuffer: () => Promise.reject(new DOMException('gone', 'NotReadableError')),
    } as unknown as File;
    await importer.openFile(file);
    expect(importer.name).toBe('watches.csv');
    expect(importer.stage).toMatchObject({
      kind: 'choosing',
      fault: { message: 'The file can no longer be read.', mend: 'Choose it once more.' },
    });
  });

  it('I1 reads a file from its bytes', async () => {
    const { importer } = await openDesk();
    const rows = rowsOf(3);
    await importer.openFile(new File([textOf(rows)], 'watches.csv'));
    expect(importer.name).toBe('watches.csv');
    expect(requirePlan(importer).totals.items).toBe(rows.length);
  });

  it('I2 shows the fault of a file that is no table', async () => {
    const { importer } = await openDesk();
    await importer.openFile(new File([Uint8Array.of(0x50, 0x4b, 3, 4, 20, 0)], 'watches.xlsx'));
    expect(importer.stage).toMatchObject({ kind: 'choosing', fault: { fault: 'workbook' } });
    expect(importer.plan).toBeUndefined();
  });

  it('I1 shows the table that was opened last, also when the one before answers later', async () => {
    const { importer } = await openDesk();
    const slow = importer.openFile({
      name: 'slow.csv',
      arrayBuffer: async () => {
        await new Promise((resolve) => setImmediate(resolve));
        return new TextEncoder().encode(textOf(rowsOf(40))).buffer;
      },
    } as unknown as File);
    const quick = importer.openText(textOf(rowsOf(3)));
    await Promise.all([slow, quick]);
    await new Promise((resolve) => setTimeout(resolve));
    expect(importer.name).toBe('pasted text');
    expect(requirePlan(importer).totals.blocks).toBe(3);
  });

  it('W1 says why the worker failed, stores nothing and can be tried again', async () => {
    let broken = true;
    const { importer } = await openDesk((jobs) => ({
      plan: (input, context) => {
        if (broken) throw new RangeError('plan: got too much; need less');
        return jobs.plan(input, context);
      },
    }));
    await importer.openText(textOf(rowsOf(4)));
    expect(importer.failure).toBe('plan: got too much; need less');
    expect(importer.stage).toEqual({ kind: 'mapping' });
    expect((await importer.commit()).kind).toBe('failed');
    expect(await storedCounts()).toEqual(nothingButTheMap);

    broken = false;
    await importer.replan();
    expect(importer.failure).toBe('');
    expect(requirePlan(importer).totals.blocks).toBe(4);
  });

  it('I1 comes in whole and once when the worker lost the plan halfway and can plan again', async () => {
    let slices = 0;
    const { importer } = await openDesk((jobs) => ({
      slice: (input, context) => {
        slices += 1;
        if (slices === 2) throw new RangeError('slice: lost');
        return jobs.slice(input, context);
      },
    }));
    const rows = rowsOf(60);
    await importer.openText(textOf(rows));
    expect(await importer.commit()).toMatchObject({ kind: 'saved' });
    expect(await storedCounts()).toEqual({ ...nothingButTheMap, blocks: 60, items: rows.length });
  });

  it('I1 stores nothing when the worker cannot hand the plan over', async () => {
    let broken = true;
    const { importer } = await openDesk((jobs) => ({
      slice: (input, context) => {
        if (broken && input.from > 0) throw new RangeError('slice: lost');
        return jobs.slice(input, context);
      },
    }));
    await importer.openText(textOf(rowsOf(60)));
    expect((await importer.commit()).kind).toBe('failed');
    expect(importer.stage).toEqual({ kind: 'mapping' });
    expect(await storedCounts()).toEqual(nothingButTheMap);
    broken = false;
    expect(await importer.commit()).toMatchObject({ kind: 'saved' });
    expect(await storedCounts()).toMatchObject({ blocks: 60 });
  });

  it('W2 says so when the worker dies while it reads, and reads with a fresh one', async () => {
    let reads = 0;
    const { importer, workers } = await openDesk((jobs) => ({
      read: (source, context) => {
        reads += 1;
        return reads === 1 ? new Promise(() => undefined) : jobs.read(source, context);
      },
    }));
    const opening = importer.openText(textOf(rowsOf(4)));
    await until(() => reads === 1);
    workers[0]?.die('out of memory');
    await opening;
    expect(importer.stage).toMatchObject({
      kind: 'choosing',
      fault: { message: 'The background work broke off: out of memory' },
    });
    await importer.openText(textOf(rowsOf(4)));
    expect(workers).toHaveLength(2);
    expect(requirePlan(importer).totals.blocks).toBe(4);
  });

  it('W2 comes in whole when the worker has died since the plan was shown', async () => {
    const { importer, workers } = await openDesk();
    const rows = rowsOf(4);
    await importer.openText(textOf(rows));
    workers[0]?.die('out of memory');
    expect(await importer.commit()).toMatchObject({ kind: 'saved' });
    expect(await storedCounts()).toEqual({ ...nothingButTheMap, blocks: 4, items: rows.length });
  });

  it('W2 stores nothing when the worker has died and the file is gone as well', async () => {
    const { importer, workers } = await openDesk();
    let reads = 0;
    await importer.openFile({
      name: 'watches.csv',
      arrayBuffer: () => {
        reads += 1;
        if (reads > 1) return Promise.reject(new DOMException('gone', 'NotReadableError'));
        return Promise.resolve(new TextEncoder().encode(textOf(rowsOf(4))).buffer);
      },
    } as unknown as File);
    await importer.decide(foldName('Bilge pump'), { kind: 'leave-out' });
    workers[0]?.die('out of memory');
    expect((await importer.commit()).kind).toBe('failed');
    expect(importer.failure).not.toBe('');
    expect(await storedCounts()).toEqual(nothingButTheMap);
  });

  it('W2 plans again after the worker died, the table being read anew', async () => {
    const { importer, workers } = await openDesk();
    await importer.openText(textOf(rowsOf(4)));
    workers[0]?.die('out of memory');
    await importer.setField(4, null);
    expect(importer.failure).toBe('');
    expect(requirePlan(importer).totals).toMatchObject({ blocks: 4, itemsWithTopics: 0 });
  });
});

describe('a table that overlaps with the log', () => {
  it('I5 shows what is in the log already, leaves it out, and adds the rest to the same block', async () => {
    const { importer, workspace } = await openDesk();
    const head = 'Date,Block,Item,Result,Topic';
    const row = (item: number, result = 'right') => `2026-02-02,Dawn,${item},${result},Seal`;
    await importer.openText([head, row(1, 'missed'), row(2), row(3)].join('\n'));
    await importer.commit();

    await importer.openText([head, row(1, 'missed'), row(2), row(3), row(4, 'missed')].join('\n'));
    const plan = requirePlan(importer);
    expect(plan.inLog.map((each) => each.row)).toEqual([2, 3, 4]);
    expect(plan.totals).toMatchObject({ items: 1, missed: 1, rowsInLog: 3 });
    expect(await importer.commit()).toMatchObject({ kind: 'saved' });
    expect(workspace.of('blocks').live.size).toBe(1);
    expect([...workspace.of('items').live.values()].map(({ position }) => position).sort()).toEqual(
      [1, 2, 3, 4],
    );
  });

  it('I5 brings the same rows in once more when asked to', async () => {
    const { importer, workspace } = await openDesk();
    await importer.openText(textOf(rowsOf(6)));
    await importer.commit();
    const stored = workspace.of('items').live.size;
    expect(stored).toBeGreaterThan(0);
    await importer.openText(textOf(rowsOf(6)));
    expect(requirePlan(importer).totals.items).toBe(0);
    await importer.answer({ inLog: 'bring-in' });
    expect(requirePlan(importer).totals.items).toBe(stored);
    await importer.commit();
    expect(workspace.of('items').live.size).toBe(2 * stored);
  });
});
