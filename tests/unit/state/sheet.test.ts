import { beforeEach, describe, expect, it } from 'vitest';
import type {
  ConceptId,
  DisciplineId,
  ItemId,
  LineId,
  NoteId,
  RehearsalId,
} from '../../../src/model/ids';
import type { Ranking } from '../../../src/workers/trace-jobs';
import type { Roots } from '../../../src/state/roots.svelte';
import { newConcept } from '../../../src/state/new-records';
import { newLine } from '../../../src/state/new-study';
import { lineFrom } from '../../../src/state/new-line';
import { Rehearsing } from '../../../src/state/rehearsing.svelte';
import { nameOfLine, Sheet } from '../../../src/state/sheet.svelte';
import type { Workspace } from '../../../src/state/workspace.svelte';
import { at, freshIndexedDB } from '../storage/harness';
import { openTab } from './tab';

const [gap, dose] = ['gap', 'dose'] as ConceptId[];
const root = (conceptId: string, traced: number) => ({ conceptId, traced, exposurePer100: 100 });
const roots = {
  ranking: {
    kind: 'ready',
    value: { roots: [root('gap', 6), root('dose', 3)], itemCount: 100 } as unknown as Ranking,
  },
} as unknown as Roots;

let workspace: Workspace;
const sheetOf = () => new Sheet(workspace, roots);
const line = (id: string, text: string, concepts: ConceptId[]) =>
  newLine(id as LineId, text, concepts);

beforeEach(async () => {
  freshIndexedDB();
  ({ workspace } = await openTab());
  await workspace.commit('begin', [
    { kind: 'disciplines', put: { id: 'acids' as DisciplineId, name: 'Acids' } },
    {
      kind: 'concepts',
      put: { ...newConcept(gap!, 'Anion gap', undefined), disciplines: ['acids' as DisciplineId] },
    },
    { kind: 'concepts', put: newConcept(dose!, 'Dose', undefined) },
    {
      kind: 'settings',
      put: { id: 'settings' as never, theme: 'system', paperName: '', demo: false, started: true },
    },
  ]);
});

describe('Sheet', () => {
  it('fits lines by worth into the minutes set, with empty lines left out', async () => {
    await workspace.commit('lines', [
      // 26 words of 5 characters a minute: 130 characters are a minute.
      { kind: 'lines', put: line('a', 'x'.repeat(130), [gap!]) },
      { kind: 'lines', put: line('b', 'y'.repeat(130), [dose!]) },
      { kind: 'lines', put: { ...line('c', ' ', [gap!]), pinned: true } },
    ]);
    await workspace.amend('minutes', 'settings', 'settings', { tutorialMinutes: 1 });
    const sheet = sheetOf();
    expect(sheet.fit.in).toEqual(['a']);
    expect(sheet.nextMinute.added).toEqual(['b']);
    expect(sheet.groups.map(({ discipline }) => discipline)).toEqual(['Acids']);
  });

  it('proposes a line for a root without one until it is put away', async () => {
    await workspace.commit('lines', [{ kind: 'lines', put: line('a', 'text', [dose!]) }]);
    const sheet = sheetOf();
    expect(sheet.proposals).toEqual([{ conceptId: 'gap', traced: 6 }]);
    await sheet.putAwayProposal(gap!, 'Anion gap');
    expect(sheetOf().proposals).toEqual([]);
    await workspace.undo();
    expect(sheetOf().proposals).toHaveLength(1);
  });

  it('measures the hand in rehearsals on paper unless a speed is set', async () => {
    await workspace.commit('lines', [
      { kind: 'lines', put: line('a', 'x'.repeat(200), []) },
      {
        kind: 'rehearsals',
        put: {
          id: 'r' as RehearsalId,
          at: at(1),
          seconds: 60,
          manner: 'paper',
          text: '',
          lines: [{ line: 'a' as LineId, share: 0.5 }],
        },
      },
    ]);
    expect(sheetOf().wordsPerMinute).toBeCloseTo(20, 9);
    expect(sheetOf().speedSource).toBe('measured');
    await workspace.amend('speed', 'settings', 'settings', { wordsPerMinute: 31 });
    expect(sheetOf().speedSource).toBe('set');
    expect(sheetOf().lines[0]?.seconds).toBeCloseTo((200 / 5 / 31) * 60, 9);
  });
});

describe('Rehearsing', () => {
  it('keeps what was typed before it is compared, and the losses after', async () => {
    await workspace.commit('lines', [
      { kind: 'lines', put: line('a', 'anion gap and the dose', [gap!]) },
    ]);
    const sheet = sheetOf();
    const run = new Rehearsing(workspace, 'typed');
    run.text = 'anoin gap';
    run.end(sheet.lines);
    await workspace.commit('wait for the queue', []);
    expect(sheetOf().unfinished?.text).toBe('anoin gap');
    // anion and gap were there, dose was not; "and" and "the" carry nothing.
    expect(run.shares.get('a' as LineId)).toBeCloseTo(2 / 3, 12);
    await run.keep();
    expect(sheetOf().unfinished).toBeUndefined();
    expect(sheetOf().rehearsals[0]?.lines).toEqual([
      { line: 'a', share: run.shares.get('a' as LineId) },
    ]);
  });

  it('goes on with one that was left, and can be thrown away and brought back', async () => {
    await workspace.commit('left', [
      {
        kind: 'rehearsals',
        put: {
          id: 'r' as RehearsalId,
          at: at(1),
          seconds: 90,
          manner: 'paper',
          text: '',
          lines: [],
        },
      },
    ]);
    const run = new Rehearsing(workspace, 'typed', sheetOf().unfinished);
    expect(run.manner).toBe('paper');
    expect(run.seconds).toBe(90);
    await run.throwAway();
    expect(sheetOf().unfinished).toBeUndefined();
    await workspace.undo();
    expect(sheetOf().unfinished?.seconds).toBe(90);
  });
});

describe('lineFrom', () => {
  it('takes the text and concepts of a miss, a note or a concept', async () => {
    await workspace.commit('sources', [
      {
        kind: 'items',
        put: {
          id: 'i' as ItemId,
          block: 'b' as never,
          position: 1,
          outcome: 'missed',
          topics: [dose!],
          causes: [gap!],
          missingPiece: 'Albumin lowers it.',
          optionTurns: [],
        },
      },
      {
        kind: 'notes',
        put: {
          id: 'n' as NoteId,
          title: 'Doses',
          text: 'Half each time.',
          concepts: [dose!],
          disciplines: [],
          systems: [],
        },
      },
    ]);
    const id = 'new' as LineId;
    expect(lineFrom(workspace, id, { item: 'i' })).toEqual({
      id,
      text: 'Albumin lowers it.',
      concepts: ['gap'],
      timesNeeded: 1,
    });
    expect(lineFrom(workspace, id, { note: 'n' })).toMatchObject({
      text: 'Half each time.',
      heading: 'Doses',
      concepts: ['dose'],
    });
    expect(lineFrom(workspace, id, { concept: 'gap' })).toMatchObject({
      heading: 'Anion gap',
      concepts: ['gap'],
    });
    expect(lineFrom(workspace, id, { concept: 'nowhere' })).toMatchObject({
      text: '',
      concepts: [],
    });
  });
});

describe('nameOfLine', () => {
  it('is the heading, else the first words, else says that it is empty', () => {
    expect(nameOfLine({ heading: ' Gap ', text: 'x' })).toBe('Gap');
    expect(nameOfLine({ text: 'first\nsecond' })).toBe('first');
    expect(nameOfLine({ text: '  ' })).toBe('Empty line');
    expect(nameOfLine({ text: 'z'.repeat(80) })).toHaveLength(59);
  });
});
