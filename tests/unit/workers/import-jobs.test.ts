import { describe, expect, it } from 'vitest';
import type { ConceptId } from '../../../src/model/ids';
import { importJobs, type PlanView, type TableView } from '../../../src/workers/import-jobs';
import { fakeContext, type FakeContext } from './linked-worker';

type Handlers = ReturnType<typeof importJobs>;
type PlanInput = Parameters<Handlers['plan']>[0];

const noContext: PlanInput['context'] = { concepts: [], systems: [], remembered: [] };

const bytesOf = (text: string): ArrayBuffer => Uint8Array.from(Buffer.from(text, 'utf8')).buffer;

const smallTable = [
  'Date,Block,Item,Result,Topic',
  '2026-03-02,Ferry,1,missed,Anchor',
  '2026-03-02,Ferry,2,right,Rudder',
  '2026-03-02,Ferry,3,missed,Anchor',
  '2026-03-05,Pilot,1,right,Keel',
  '2026-03-06,Tug,1,missed,Keel',
  '2026-03-06,Tug,2,missed,Mast',
].join('\n');

/** Blocks of two items each, so that their number is half the rows. */
function longTable(rows: number): string {
  const lines = Array.from(
    { length: rows },
    (_, row) => `2026-03-02,Block ${Math.floor(row / 2)},${(row % 2) + 1},missed,Anchor`,
  );
  return ['Date,Block,Item,Result,Topic', ...lines].join('\n');
}

async function requireTable(jobs: Handlers, text: string): Promise<TableView> {
  const read = await jobs.read({ kind: 'text', text }, fakeContext());
  if (read.kind !== 'table') throw new Error(read.message);
  return read;
}

async function requirePlan(
  jobs: Handlers,
  mapping: PlanInput['mapping'],
  context = noContext,
  job: FakeContext = fakeContext(),
): Promise<PlanView> {
  const plan = await jobs.plan({ mapping, context }, job);
  if (plan.kind !== 'plan') throw new Error(JSON.stringify(plan.questions));
  return plan;
}

describe('read', () => {
  it('I1 shows the header, the number of rows and the first five, and keeps the rest', async () => {
    const table = await requireTable(importJobs(), smallTable);
    expect(table.header).toEqual(['Date', 'Block', 'Item', 'Result', 'Topic']);
    expect(table.rowCount).toBe(6);
    expect(table.sample.map((cells) => cells[1])).toEqual([
      'Ferry',
      'Ferry',
      'Ferry',
      'Pilot',
      'Tug',
    ]);
    expect(table.guessed.fields).toEqual(['date', 'block', 'position', 'outcome', 'topics']);
  });

  it('I1 reads bytes as it reads text, and says how it understood them', async () => {
    const fromText = await requireTable(importJobs(), smallTable);
    const fromBytes = await importJobs().read(
      { kind: 'bytes', bytes: bytesOf(`${smallTable}\n`) },
      fakeContext(),
    );
    expect(fromBytes).toEqual(fromText);

    // "Ärzte" in Windows-1252: 0xC4 alone is no UTF-8.
    const latin = smallTable.replace('Mast', 'Ärzte');
    const bytes = Uint8Array.from(Buffer.from(latin, 'latin1')).buffer;
    const read = await importJobs().read({ kind: 'bytes', bytes }, fakeContext());
    if (read.kind !== 'table') throw new Error(read.message);
    expect(read.notes.map(({ message }) => message).join(' ')).toContain('Windows-1252');
  });

  it.each([
    ['a workbook', Uint8Array.of(0x50, 0x4b, 0x03, 0x04, 9, 9).buffer, 'workbook'],
    ['an empty file', new ArrayBuffer(0), 'empty'],
    ['a table without rows', bytesOf('Date,Item,Result\n'), 'no-rows'],
  ])('I2 says what is wrong with %s and how to mend it', async (_what, bytes, fault) => {
    const read = await importJobs().read({ kind: 'bytes', bytes }, fakeContext());
    if (read.kind !== 'fault') throw new Error('it was read');
    expect(read.fault).toBe(fault);
    expect([read.message, read.mend].every((sentence) => /^[A-Z].+\.$/.test(sentence))).toBe(true);
  });

  it('I1 forgets the table and the plan before it when a file cannot be read', async () => {
    const jobs = importJobs();
    const { guessed } = await requireTable(jobs, smallTable);
    await requirePlan(jobs, guessed);
    await jobs.read({ kind: 'text', text: '' }, fakeContext());
    expect(await jobs.slice({ from: 0, to: 9 }, fakeContext())).toEqual([]);
    await expect(
      Promise.resolve(jobs.plan({ mapping: guessed, context: noContext }, fakeContext())),
    ).rejects.toThrow('plan: no table was read');
  });
});

describe('plan', () => {
  it('I3 asks what only the candidate knows, and plans once it is answered', async () => {
    const jobs = importJobs();
    // Both orders give a day that exists.
    const text = smallTable
      .replaceAll('2026-03-02', '02/03/2026')
      .replaceAll('2026-03-05', '05/03/2026')
      .replaceAll('2026-03-06', '06/03/2026');
    const { guessed } = await requireTable(jobs, text);
    const asked = await jobs.plan({ mapping: guessed, context: noContext }, fakeContext());
    expect(asked).toMatchObject({ kind: 'questions', questions: [{ kind: 'dayOrder' }] });

    const answers = { dayOrder: 'day-first' } as const;
    const plan = await requirePlan(jobs, guessed, { ...noContext, answers });
    expect(plan.totals).toMatchObject({ items: 6, missed: 4, right: 2, blocks: 3 });
    const blocks = await jobs.slice({ from: 0, to: 3 }, fakeContext());
    // 2 March 2026 is day 20,514: 56 years of 365 days, 14 leap days, 31 + 28 + 1 days.
    expect(blocks[0]?.content.day).toBe(56 * 365 + 14 + 31 + 28 + 1);
  });

  it('I1 counts the blocks and leaves them in the worker', async () => {
    const jobs = importJobs();
    const { guessed } = await requireTable(jobs, smallTable);
    const plan = await requirePlan(jobs, guessed);
    expect(plan.blockCount).toBe(3);
    expect('blocks' in plan).toBe(false);
    expect(plan.unmatched.map(({ name, rows }) => [name, rows])).toEqual([
      ['Anchor', 2],
      ['Keel', 2],
      ['Rudder', 1],
      ['Mast', 1],
    ]);
  });

  it('I1 plans anew from the same table when the context changes', async () => {
    const jobs = importJobs();
    const { guessed } = await requireTable(jobs, smallTable);
    await requirePlan(jobs, guessed);
    const keel = 'keel' as ConceptId;
    const plan = await requirePlan(jobs, guessed, {
      ...noContext,
      concepts: [{ id: keel, name: 'Keel', aliases: [] }],
    });
    expect(plan.totals.itemsWithTopics).toBe(2);
    const [, pilot, tug] = await jobs.slice({ from: 0, to: 3 }, fakeContext());
    expect(pilot?.items.map(({ content }) => content.topics)).toEqual([[keel]]);
    expect(tug?.items.map(({ content }) => content.topics)).toEqual([[keel], []]);
  });

  it('W1 reports progress that never falls and ends with all rows', async () => {
    const jobs = importJobs();
    const { guessed } = await requireTable(jobs, longTable(1_234));
    const job = fakeContext();
    await requirePlan(jobs, guessed, noContext, job);
    const done = job.reports.map(([rows]) => rows);
    expect(done).toEqual([...done].sort((a, b) => a - b));
    expect(job.reports.length).toBeGreaterThan(2);
    expect(job.reports.at(-1)).toEqual([1_234, 1_234]);
  });

  it('W1 leaves off when it is stopped, and what was planned before stays', async () => {
    const jobs = importJobs();
    const { guessed } = await requireTable(jobs, longTable(1_234));
    await requirePlan(jobs, guessed);
    const stopped = fakeContext(2);
    const fields = guessed.fields.map((field) => (field === 'topics' ? null : field));
    await jobs.plan({ mapping: { fields }, context: noContext }, stopped);
    expect(stopped.reports).toHaveLength(2);
    expect(await jobs.slice({ from: 0, to: 1_000 }, fakeContext())).toHaveLength(617);
  });

  it('W1 hears messages between two steps of a long table', async () => {
    const jobs = importJobs();
    const { guessed } = await requireTable(jobs, longTable(1_234));
    const job = fakeContext();
    let heard = 0;
    setTimeout(() => (heard = job.reports.length));
    await requirePlan(jobs, guessed, noContext, job);
    expect(heard).toBeGreaterThan(0);
    expect(heard).toBeLessThan(job.reports.length);
  });
});

describe('slice', () => {
  it('I1 hands over every block once, in order, whatever the size of the slices', async () => {
    const jobs = importJobs();
    const { guessed } = await requireTable(jobs, smallTable);
    await requirePlan(jobs, guessed);
    const whole = await jobs.slice({ from: 0, to: 3 }, fakeContext());
    expect(whole.map(({ label, items }) => [label, items.length])).toEqual([
      ['Ferry', 3],
      ['Pilot', 1],
      ['Tug', 2],
    ]);
    const parts = [
      ...(await jobs.slice({ from: 0, to: 2 }, fakeContext())),
      ...(await jobs.slice({ from: 2, to: 4 }, fakeContext())),
    ];
    expect(parts).toEqual(whole);
    expect(await jobs.slice({ from: 3, to: 9 }, fakeContext())).toEqual([]);
    expect(await jobs.slice({ from: 1, to: 1 }, fakeContext())).toEqual([]);
  });

  it('I1 is empty before anything was planned', async () => {
    expect(await importJobs().slice({ from: 0, to: 5 }, fakeContext())).toEqual([]);
  });
});
