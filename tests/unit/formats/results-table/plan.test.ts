import { describe, expect, it } from 'vitest';
import { guessColumns, type ColumnMapping } from '../../../../src/formats/results-table/columns';
import { planImport, planImportSteps } from '../../../../src/formats/results-table/plan';
import type {
  ImportAnswers,
  ImportContext,
  ImportPlan,
} from '../../../../src/formats/results-table/plan-types';
import { readTable, type Table } from '../../../../src/formats/results-table/table';
import { foldName } from '../../../../src/model/fold-name';
import type { ConceptId, SystemId } from '../../../../src/model/ids';
import { blockSchema, itemSchema } from '../../../../src/model/log';
import { checkWith } from '../../../../src/model/records';
import { findLocalDay, isoDay } from '../../../../src/model/time';

const concept = (key: string, name: string, ...aliases: string[]) => ({
  id: key as ConceptId,
  name,
  aliases,
});
const context: ImportContext = {
  concepts: [
    concept('abc', 'Acid-base compensation'),
    concept('oedema', 'Oedema formation', 'Starling forces'),
    concept('gout', 'Gout', 'twin'),
    concept('pseudogout', 'Calcium crystal arthritis', 'twin'),
  ],
  systems: [
    { id: 'renal' as SystemId, name: 'Renal and urinary', shortName: 'Kidney' },
    { id: 'lung' as SystemId, name: 'Respiratory', shortName: 'Lung' },
  ],
  remembered: [{ folded: foldName('water logging'), concepts: ['oedema' as ConceptId] }],
};

function tableOf(text: string): Table {
  const table = readTable(text.endsWith('\n') ? text : `${text}\n`);
  if (table.kind === 'fault') throw new Error(table.message);
  return table;
}

function resultOf(text: string, answers: ImportAnswers = {}, mapping?: ColumnMapping) {
  const table = tableOf(text);
  return planImport(table, mapping ?? guessColumns(table), { ...context, answers });
}

function planOf(text: string, answers: ImportAnswers = {}, mapping?: ColumnMapping): ImportPlan {
  const result = resultOf(text, answers, mapping);
  if (result.kind === 'questions') throw new Error(JSON.stringify(result.questions));
  return result;
}

const outcomesIn = (plan: ImportPlan) =>
  plan.blocks.flatMap((block) => block.items.map((item) => item.content.outcome));
const messages = (plan: ImportPlan) => plan.notes.map((note) => note.message).join(' ');
const lines = (...rows: string[]) => rows.join('\n');

describe('planImport', () => {
  it('reads every column of a full table into blocks and items', () => {
    const plan = planOf(
      lines(
        'Date,Start time,Block,Item,Result,Guessed,Topic,Named cause,System,Reason,Missing piece,Seconds,Chosen,Key,Reference,Source,Timed,Mixed,Number of items,Minutes given,Minutes used,Review minutes',
        '2026-03-04,14:05,A,7,wrong,,gout,starling forces,kidney,Forgot,Compare pCO2 with the rule,1:15,B,D,q77,own book,yes,yes,40,60,58:30,120',
        '2026-03-04,14:05,A,3,right,yes,Oedema formations,,Respiratory system,,,42,C,C,q70,own book,yes,yes,40,60,58:30,120',
      ),
    );
    expect(plan.blocks).toEqual([
      {
        label: 'A',
        startMinutes: 845,
        content: {
          day: findLocalDay(2026, 3, 4),
          itemCount: 40,
          timed: true,
          mixed: true,
          source: 'own book',
          minutesGiven: 60,
          minutesUsed: 58.5,
          reviewMinutes: 120,
        },
        items: [
          {
            row: 3,
            content: {
              position: 3,
              outcome: 'guessed-right',
              topics: ['oedema'],
              causes: [],
              system: 'lung',
              missingPiece: '',
              optionTurns: [],
              seconds: 42,
              chosen: 'C',
              key: 'C',
              reference: 'q70',
            },
          },
          {
            row: 2,
            content: {
              position: 7,
              outcome: 'missed',
              topics: ['gout'],
              causes: ['oedema'],
              system: 'renal',
              reason: 'not-recalled',
              missingPiece: 'Compare pCO2 with the rule',
              optionTurns: [],
              seconds: 75,
              chosen: 'B',
              key: 'D',
              reference: 'q77',
            },
          },
        ],
      },
    ]);
    expect(plan.totals).toEqual({
      rowsRead: 2,
      rowsRejected: 0,
      rowsInLog: 0,
      blankRows: 0,
      blocks: 1,
      items: 2,
      right: 0,
      guessedRight: 1,
      missed: 1,
      itemsWithTopics: 2,
      missesWithCauses: 1,
    });
    expect([plan.rejected, plan.leftOut, plan.notes]).toEqual([[], [], []]);
  });

  it('makes drafts that the model takes once ids and stamps are added', () => {
    const plan = planOf(
      lines(
        'Date,Item,Result,Topic,Seconds,Chosen,Note',
        `2026-03-04,1,wrong,gout,99999999,${'x'.repeat(30)},${'long '.repeat(500)}`,
        '2026-03-04,2,right,gout,12,A,"two',
        'lines"',
      ),
    );
    const stamp = { origin: 'd', revision: { d: 1 }, changedAt: 0, deleted: false };
    for (const block of plan.blocks) {
      expect(checkWith(blockSchema, { ...block.content, id: 'b', stamp }).kind).toBe('ok');
      for (const { content } of block.items) {
        expect(checkWith(itemSchema, { ...content, id: 'i', block: 'b', stamp })).toMatchObject({
          kind: 'ok',
          value: content,
        });
      }
    }
    expect(plan.blocks[0]!.items[1]!.content.missingPiece).toBe('two lines');
    expect(plan.leftOut.map(({ row, column }) => [row, column])).toEqual([
      [2, 'Note'],
      [2, 'Seconds'],
      [2, 'Chosen'],
    ]);
  });

  it('shows every row that does not come in, with column, value, reason and mend', () => {
    const plan = planOf(
      lines(
        'Date,Item,Result,Topic',
        '2026-02-30,1,right,gout',
        '2026-03-04,1,perhaps,gout',
        '2026-03-04,x y z,right,gout',
        '2026-03-04,0,right,gout',
        '2026-03-04,1,,gout',
        ',1,right,gout',
        '=TODAY(),1,right,gout',
        '2026-03-04,1,#REF!,gout',
        'Date,Item,Result,Topic',
        '2026-03-04,1,right,gout',
        '2026-03-04,1,right,gout',
        '2026-03-04,1,wrong,gout',
        '2026-03-04,2,right,gout,too,many',
        '2026-03-04,2,right,gout',
      ),
      { emptyDates: 'leave-out' },
    );
    expect(plan.rejected.map(({ row, column, value }) => [row, column, value])).toEqual([
      [2, 'Date', '2026-02-30'],
      [3, 'Result', 'perhaps'],
      [4, 'Item', 'x y z'],
      [5, 'Item', '0'],
      [6, 'Result', ''],
      [7, 'Date', ''],
      [8, 'Date', '=TODAY()'],
      [9, 'Result', '#REF!'],
      [10, '', 'Date Item Result Topic'],
      [12, 'Item', '1'],
      [13, 'Item', '1'],
      [14, '', '2026-03-04,2,right,gout,too,many'],
    ]);
    for (const { reason, mend } of plan.rejected) {
      expect(reason).toMatch(/\.$/);
      expect(mend).toMatch(/\.$/);
    }
    expect(plan.rejected.find(({ row }) => row === 12)!.reason).toContain('same as row 11');
    expect(plan.rejected.find(({ row }) => row === 13)!.reason).toContain('row 11 already');
    expect(plan.totals).toMatchObject({ rowsRead: 14, rowsRejected: 12, items: 2 });
  });

  it('lists cells that do not come in though their row does', () => {
    const plan = planOf(
      lines('Date,Result,Reason,Seconds,Timed', '2026-03-04,wrong,bad luck,=A1*2,sometimes'),
    );
    expect(plan.leftOut.map(({ column, value }) => [column, value])).toEqual([
      ['Reason', 'bad luck'],
      ['Seconds', '=A1*2'],
      ['Timed', 'sometimes'],
    ]);
    expect(plan.totals.items).toBe(1);
  });

  it('keeps text that looks like a formula as plain text and says so', () => {
    const plan = planOf(
      lines(
        'Date,Result,Missing piece',
        '2026-03-04,wrong,=HYPERLINK(1)',
        "2026-03-04,wrong,'=guarded",
      ),
    );
    expect(plan.blocks[0]!.items.map(({ content }) => content.missingPiece)).toEqual([
      '=HYPERLINK(1)',
      '=guarded',
    ]);
    expect(plan.notes.find(({ message }) => message.includes('formula'))!.rows).toEqual([2]);
  });
});

describe('outcomes', () => {
  const column = (header: string, ...cells: string[]) =>
    lines(`Date,${header}`, ...cells.map((cell) => `2026-03-04,${cell}`));

  it.each([
    ['Correct?', ['1', '0', '1'], ['right', 'missed', 'right']],
    ['Missed', ['1', '0', '1'], ['missed', 'right', 'missed']],
    ['Correct', ['yes', 'no'], ['right', 'missed']],
    ['Wrong', ['yes', 'no'], ['missed', 'right']],
    ['Result', ['✓', '✗', 'x'], ['right', 'missed', 'missed']],
    ['Missed', ['right', '✓', 'wrong'], ['right', 'missed', 'missed']],
    ['Correct', ['✓', 'x'], ['right', 'missed']],
    ['Score', ['100%', '0%', '1/1'], ['right', 'missed', 'right']],
  ])('reads marks under %j by what the header asks: %j', (header, cells, expected) => {
    expect(outcomesIn(planOf(column(header, ...cells)))).toEqual(expected);
  });

  it('asks what marks mean under a header that does not say', () => {
    const text = column('Result', '1', '0', '1');
    expect(resultOf(text)).toMatchObject({
      kind: 'questions',
      questions: [{ kind: 'markMeans', column: 'Result', examples: ['1', '0'] }],
    });
    expect(outcomesIn(planOf(text, { markMeans: 'right' }))).toEqual(['right', 'missed', 'right']);
    expect(outcomesIn(planOf(text, { markMeans: 'missed' }))).toEqual([
      'missed',
      'right',
      'missed',
    ]);
  });

  it('asks whether a lone x under "Correct" is a tick or a cross', () => {
    const text = lines('Date,Correct,Topic', '2026-03-04,x,a', '2026-03-04,,b', '2026-03-04,x,c');
    const result = resultOf(text);
    expect(result.kind === 'questions' && result.questions.map(({ kind }) => kind)).toEqual([
      'markMeans',
      'blankMeans',
    ]);
    expect(outcomesIn(planOf(text, { markMeans: 'right', blankMeans: 'missed' }))).toEqual([
      'right',
      'missed',
      'right',
    ]);
    expect(outcomesIn(planOf(text, { markMeans: 'missed', blankMeans: 'leave-out' }))).toEqual([
      'missed',
      'missed',
    ]);
  });

  it('reads unmarked rows as right where only misses are marked, and says so', () => {
    const plan = planOf(
      lines('Date,Missed,Topic', '2026-03-04,x,a', '2026-03-04,,b', '2026-03-04,x,c'),
    );
    expect(outcomesIn(plan)).toEqual(['missed', 'right', 'missed']);
    expect(messages(plan)).toContain('1 row without a mark was read as right');
  });

  it('counts items without an answer as missed and says so', () => {
    const plan = planOf(column('Result', 'right', 'omitted', 'skipped'));
    expect(outcomesIn(plan)).toEqual(['right', 'missed', 'missed']);
    expect(plan.notes.find(({ message }) => message.includes('no answer'))!.rows).toEqual([3, 4]);
  });

  it('compares the option chosen with the key where no column says the result', () => {
    const plan = planOf(
      lines(
        'Date,My answer,Correct answer',
        '2026-03-04,B,b',
        '2026-03-04,C,D',
        '2026-03-04,,A',
        '2026-03-04,A,',
      ),
    );
    expect(outcomesIn(plan)).toEqual(['right', 'missed', 'missed']);
    expect(plan.rejected).toMatchObject([{ row: 5, column: 'Correct answer' }]);
    expect(plan.notes.find(({ message }) => message.includes('no answer'))!.rows).toEqual([4]);
  });

  it('lets the result stand where the letters contradict it, and says so', () => {
    const plan = planOf(
      lines(
        'Date,Result,Chosen,Key',
        '2026-03-04,right,A,B',
        '2026-03-04,wrong,C,c',
        '2026-03-04,wrong,A,B',
      ),
    );
    expect(outcomesIn(plan)).toEqual(['right', 'missed', 'missed']);
    expect(plan.notes.find(({ message }) => message.includes('contradict'))!.rows).toEqual([2, 3]);
  });

  it('asks for the column when nothing says right or missed', () => {
    expect(resultOf(lines('Date,Topic', '2026-03-04,gout'))).toMatchObject({
      kind: 'questions',
      questions: [{ kind: 'outcome-column' }],
    });
  });
});

describe('dates', () => {
  const dated = (...days: string[]) => lines('Date,Result', ...days.map((day) => `${day},right`));
  const daysIn = (plan: ImportPlan) => plan.blocks.map(({ content }) => isoDay(content.day));

  it('takes the order of day and month from the whole column', () => {
    expect(daysIn(planOf(dated('3/4/2026', '25/4/2026')))).toEqual(['2026-04-03', '2026-04-25']);
    expect(daysIn(planOf(dated('3/4/2026', '4/25/2026')))).toEqual(['2026-03-04', '2026-04-25']);
  });

  it('asks for the order when every date fits both, and then obeys', () => {
    const text = dated('3/4/2026', '5/6/2026');
    expect(resultOf(text)).toMatchObject({
      questions: [{ kind: 'dayOrder', examples: ['3/4/2026', '5/6/2026'], mixed: false }],
    });
    expect(daysIn(planOf(text, { dayOrder: 'day-first' }))).toEqual(['2026-04-03', '2026-06-05']);
    expect(daysIn(planOf(text, { dayOrder: 'month-first' }))).toEqual(['2026-03-04', '2026-05-06']);
  });

  it('asks when dates of both orders are mixed, and rejects those that do not fit the answer', () => {
    const text = dated('13/4/2026', '4/14/2026');
    expect(resultOf(text)).toMatchObject({ questions: [{ kind: 'dayOrder', mixed: true }] });
    const plan = planOf(text, { dayOrder: 'day-first' });
    expect(daysIn(plan)).toEqual(['2026-04-13']);
    expect(plan.rejected).toMatchObject([{ row: 3, value: '4/14/2026' }]);
  });

  it('asks for the day of a table without dates', () => {
    const text = lines('Item,Result', '1,right', '2,wrong');
    expect(resultOf(text)).toMatchObject({ questions: [{ kind: 'day' }] });
    const day = findLocalDay(2026, 3, 4)!;
    expect(daysIn(planOf(text, { day }))).toEqual(['2026-03-04']);
  });

  it('asks what empty cells below a date mean', () => {
    const text = lines(
      'Date,Item,Result',
      '2026-03-04,1,right',
      ',2,wrong',
      '2026-03-05,1,right',
      ',2,right',
    );
    expect(resultOf(text)).toMatchObject({ questions: [{ kind: 'emptyDates', rows: 2 }] });
    const filled = planOf(text, { emptyDates: 'as-above' });
    expect(filled.blocks.map((block) => block.items.length)).toEqual([2, 2]);
    expect(planOf(text, { emptyDates: 'leave-out' }).rejected.map(({ row }) => row)).toEqual([
      3, 5,
    ]);
  });

  it('warns of day numbers of spreadsheets', () => {
    const plan = planOf(lines('Date,Result', '46085,right', '46086,right'));
    expect(daysIn(plan)).toEqual(['2026-03-04', '2026-03-05']);
    expect(plan.notes).toMatchObject([{ level: 'warning', rows: [2, 3] }]);
  });
});

describe('blocks', () => {
  const numbered = (from: number, to: number, prefix = '2026-03-04') =>
    Array.from({ length: to - from + 1 }, (_, i) => `${prefix},${from + i},right`);

  it('groups by day and block name', () => {
    const plan = planOf(
      lines(
        'Date,Block,Result',
        '2026-03-04,A,right',
        '2026-03-05,A,right',
        '2026-03-04,b,wrong',
        '2026-03-04,a,right',
        '2026-03-04,B,right',
      ),
    );
    expect(plan.blocks.map((block) => [block.label, block.items.map(({ row }) => row)])).toEqual([
      ['A', [2, 5]],
      ['A', [3]],
      ['b', [4, 6]],
    ]);
    expect(plan.blocks[0]!.items.map(({ content }) => content.position)).toEqual([1, 2]);
  });

  it('begins another block where item numbers begin again within a day', () => {
    const second = numbered(1, 4).map((row) => row.replace('right', 'wrong'));
    const plan = planOf(lines('Date,Item,Result', ...numbered(1, 6), ...second));
    expect(plan.blocks.map(({ items }) => items.length)).toEqual([6, 4]);
    expect(plan.notes[0]).toMatchObject({ level: 'warning', rows: [8] });
  });

  it('takes one number that stands again for a slip, not for another block', () => {
    const plan = planOf(
      lines(
        'Date,Item,Result,Topic',
        ...numbered(1, 6),
        '2026-03-04,1,wrong,x',
        '2026-03-04,7,wrong,y',
      ),
    );
    expect(plan.blocks.map(({ items }) => items.length)).toEqual([7]);
    expect(plan.rejected).toMatchObject([{ row: 8, column: 'Item', value: '1' }]);
    expect(messages(plan)).not.toContain('begin again');
  });

  it('does not take a table joined to itself for twice as many blocks', () => {
    const rows = ['2026-03-04,1,right,a', '2026-03-04,2,wrong,b', '2026-03-04,3,right,c'];
    const plan = planOf(
      lines('Date,Item,Result,Topic', ...rows, 'Date,Item,Result,Topic', ...rows),
    );
    expect(plan.blocks.map(({ items }) => items.length)).toEqual([3]);
    expect(plan.rejected.map(({ row }) => row)).toEqual([5, 6, 7, 8]);
    expect(plan.unmatched.map(({ name, rows: count }) => [name, count])).toEqual([
      ['a', 1],
      ['b', 1],
      ['c', 1],
    ]);
    expect(plan.totals).toMatchObject({ rowsRead: 7, rowsRejected: 4, items: 3 });
  });

  it('numbers items from 1 where the file counts on from block to block', () => {
    const plan = planOf(
      lines('Date,Item,Result', ...numbered(1, 7), ...numbered(8, 13, '2026-03-05')),
    );
    expect(plan.blocks.map(({ content }) => content.itemCount)).toEqual([7, 6]);
    expect(
      plan.blocks[1]!.items.map(({ content }) => [content.position, content.reference]),
    ).toEqual([
      [1, '8'],
      [2, '9'],
      [3, '10'],
      [4, '11'],
      [5, '12'],
      [6, '13'],
    ]);
  });

  it('numbers every block anew where a number is too high for one block', () => {
    const plan = planOf(
      lines('Date,Item,Result', '2026-03-04,3,wrong', '2026-03-04,7,right', '2026-03-05,600,right'),
    );
    const numbers = plan.blocks.map((block) =>
      block.items.map(({ content }) => [content.position, content.reference]),
    );
    expect(numbers).toEqual([
      [
        [1, '3'],
        [2, '7'],
      ],
      [[1, '600']],
    ]);
  });

  it('does not take the misses of two blocks for one count', () => {
    const plan = planOf(
      lines(
        'Date,Item,Result',
        '2026-03-04,3,wrong',
        '2026-03-04,7,wrong',
        '2026-03-05,12,wrong',
        '2026-03-05,15,wrong',
      ),
    );
    expect(plan.blocks.map((block) => block.items.map(({ content }) => content.position))).toEqual([
      [3, 7],
      [12, 15],
    ]);
    expect(plan.blocks.map(({ content }) => [content.itemCount, content.onlyMisses])).toEqual([
      [7, true],
      [15, true],
    ]);
    expect(messages(plan)).toContain('2 blocks hold misses only');
  });

  it('splits more than 500 items into blocks of at most 500', () => {
    const rows = Array.from({ length: 1_203 }, (_, i) => `2026-03-04,right,topic ${i}`);
    const plan = planOf(lines('Date,Result,Topic', ...rows));
    expect(plan.blocks.map(({ content, items }) => [content.itemCount, items.length])).toEqual([
      [500, 500],
      [500, 500],
      [203, 203],
    ]);
    expect(plan.blocks[2]!.items.at(-1)).toMatchObject({ row: 1_204, content: { position: 203 } });
    expect(messages(plan)).toContain('More than 500 items');
  });

  it('gives rows without an item number the numbers that are free', () => {
    const plan = planOf(
      lines(
        'Date,Item,Result',
        '2026-03-04,2,right',
        '2026-03-04,,wrong',
        '2026-03-04,1,right',
        '2026-03-04,,wrong',
      ),
    );
    expect(plan.blocks[0]!.items.map(({ row, content }) => [content.position, row])).toEqual([
      [1, 4],
      [2, 2],
      [3, 3],
      [4, 5],
    ]);
  });

  it('takes a block for one system when five or more items all name it', () => {
    const rows = (system: string) => Array.from({ length: 5 }, () => `2026-03-04,right,${system}`);
    const single = planOf(lines('Date,Result,System', ...rows('Kidney')));
    expect(single.blocks[0]!.content).toMatchObject({ mixed: false, system: 'renal' });
    const several = planOf(lines('Date,Result,System', ...rows('Kidney'), '2026-03-04,right,Lung'));
    expect(several.blocks[0]!.content.mixed).toBe(true);
    expect(several.blocks[0]!.content.system).toBeUndefined();
  });

  it('lets the first row speak for the block and reports rows that differ', () => {
    const plan = planOf(
      lines(
        'Date,Result,Minutes used',
        '2026-03-04,right,60',
        '2026-03-04,right,55',
        '2026-03-04,right,60',
      ),
    );
    expect(plan.blocks[0]!.content.minutesUsed).toBe(60);
    expect(plan.notes).toMatchObject([{ level: 'warning', rows: [3] }]);
  });
});

describe('topics', () => {
  const withTopics = (...cells: string[]) =>
    planOf(
      lines(
        'Date;Result;Topic',
        ...cells.map((cell, i) => `2026-03-04;${i % 2 ? 'right' : 'wrong'};${cell}`),
      ),
    );

  it('matches by name, alias and what was remembered', () => {
    const plan = withTopics('ACID BASE COMPENSATION', 'Starling force', 'water-logging | gout');
    expect(plan.blocks[0]!.items.map(({ content }) => content.topics)).toEqual([
      ['abc'],
      ['oedema'],
      ['oedema', 'gout'],
    ]);
    expect(plan.totals.itemsWithTopics).toBe(3);
  });

  it('lists unmatched names once each, most frequent first, with counts and suggestions', () => {
    const plan = withTopics(
      'Acid-bace compensation',
      'unheard of',
      'acid bace compensations',
      'gout',
    );
    expect(plan.unmatched.map(({ name, rows, missedRows }) => [name, rows, missedRows])).toEqual([
      ['Acid-bace compensation', 2, 2],
      ['unheard of', 1, 0],
    ]);
    expect(plan.unmatched[0]!.suggestions[0]).toMatchObject({ concept: 'abc' });
  });

  it('lists names that two concepts carry, and matches neither', () => {
    const plan = withTopics('twin', 'Twin');
    expect(plan.ambiguous).toEqual([
      { name: 'twin', folded: 'twin', rows: 2, candidates: ['gout', 'pseudogout'] },
    ]);
    expect(plan.totals.itemsWithTopics).toBe(0);
  });

  it('counts unmatched systems and lets the items in', () => {
    const plan = planOf(
      lines('Date,Result,System', '2026-03-04,right,Moon', '2026-03-04,wrong,moon'),
    );
    expect(plan.unmatchedSystems).toEqual([{ name: 'Moon', rows: 2 }]);
    expect(plan.totals.items).toBe(2);
  });

  it('leaves out a name too long to be remembered, and keeps the others of its cell', () => {
    const plan = withTopics(`gout | ${'very '.repeat(60)}long`);
    expect(plan.blocks[0]!.items[0]!.content.topics).toEqual(['gout']);
    expect(plan.unmatched).toEqual([]);
    expect(plan.leftOut).toMatchObject([{ row: 2, column: 'Topic' }]);
  });

  it('does not count names of rows that do not come in', () => {
    const plan = planOf(
      lines('Date,Item,Result,Topic', '2026-03-04,1,right,foo', '2026-03-04,1,wrong,bar'),
    );
    expect(plan.unmatched.map(({ name }) => name)).toEqual(['foo']);
  });
});

describe('planImportSteps', () => {
  it('reports rising progress up to all rows and returns what planImport returns', () => {
    const rows = Array.from(
      { length: 1_234 },
      (_, i) => `2026-03-04,${i % 3 ? 'right' : 'wrong'},t${i}`,
    );
    const table = tableOf(lines('Date,Result,Topic', ...rows));
    const mapping = guessColumns(table);
    const steps = planImportSteps(table, mapping, context);
    const done: number[] = [];
    let step = steps.next();
    for (; !step.done; step = steps.next()) done.push(step.value.rowsDone);
    expect(done).toEqual([0, 500, 1_000, 1_234]);
    expect(step.value).toEqual(planImport(table, mapping, context));
  });
});
