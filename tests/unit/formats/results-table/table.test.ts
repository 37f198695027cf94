import { describe, expect, it } from 'vitest';
import { guessColumns, withField } from '../../../../src/formats/results-table/columns';
import { readTable, type Table } from '../../../../src/formats/results-table/table';

function tableOf(text: string): Table {
  const table = readTable(text);
  if (table.kind === 'fault') throw new Error(table.message);
  return table;
}

describe('readTable', () => {
  it.each([
    [',', 'Date,Result\n2026-03-04,right\n'],
    [';', 'Date;Result\n2026-03-04;right\n'],
    ['\t', 'Date\tResult\n2026-03-04\tright\n'],
    ['|', 'Date|Result\n2026-03-04|right\n'],
    [';', 'Date;Topic;Seconds\n4 Mar 2026;a, b, c;1,5\n5 Mar 2026;d;2,5\n'],
    ['\t', 'Date\tTopic\n2026-03-04\ta; b, c\n2026-03-05\td\n'],
    [',', 'Date,Topic\n2026-03-04,"a; b; c"\n2026-03-05,d\n'],
  ])('guesses the delimiter %j', (delimiter, text) => {
    const table = tableOf(text);
    expect(table.delimiter).toBe(delimiter);
    expect(table.header[0]).toBe('Date');
  });

  it('numbers rows as the file does: header and blank rows counted', () => {
    const table = tableOf('\ufeffDate,Result\n\n2026-03-04,right\n,\n2026-03-05,wrong\n');
    expect(table.rows.map(({ row }) => row)).toEqual([3, 5]);
    expect(table.blankRows).toBe(2);
  });

  it('steps over a title above the header and says so', () => {
    const table = tableOf('My results 2026\n\nDate,Result,Topic\n2026-03-04,right,x\n');
    expect(table.header).toEqual(['Date', 'Result', 'Topic']);
    expect(table.rows).toEqual([{ row: 4, cells: ['2026-03-04', 'right', 'x'] }]);
    expect(table.notes[0]!.rows).toEqual([1]);
  });

  it('names the columns of a table without header', () => {
    const table = tableOf('2026-03-04,1,right\n2026-03-04,2,wrong\n');
    expect(table.hasHeader).toBe(false);
    expect(table.header).toEqual(['column 1', 'column 2', 'column 3']);
    expect(table.rows.length).toBe(2);
  });

  it('takes a first row of unknown words for a header, and obeys when told otherwise', () => {
    const text = 'wann,was\nMontag,Herz\nDienstag,Niere\n';
    expect(tableOf(text).hasHeader).toBe(true);
    const told = readTable(text, { hasHeader: false });
    expect(told.kind === 'table' && told.rows.length).toBe(3);
  });

  it('rejects rows with more cells than the header, and names the cells', () => {
    const table = tableOf(
      'Date,Result\n2026-03-04,right\n2026-03-05,right,extra\n2026-03-06,wrong,\n',
    );
    expect(table.rejected).toMatchObject([
      { row: 3, value: '2026-03-05,right,extra', reason: 'The row has 3 cells, the header 2.' },
      { row: 4, value: '2026-03-06,wrong,' },
    ]);
    expect(table.rows.map(({ row }) => row)).toEqual([2]);
  });

  it('takes empty cells at the end of a row where the header or nearly all rows have them', () => {
    expect(tableOf('Date,Result,,\n2026-03-04,right,,\n').rows.length).toBe(1);
    expect(tableOf('Date,Result\n2026-03-04,right,\n2026-03-05,wrong,\n').rows.length).toBe(2);
  });

  it('fills up rows that leave out trailing cells, and says so', () => {
    const table = tableOf('Date,Result,Topic\n2026-03-04,right\n2026-03-05,right,x\n');
    expect(table.rows[0]!.cells).toEqual(['2026-03-04', 'right', '']);
    expect(table.notes).toMatchObject([{ level: 'warning', rows: [2] }]);
  });

  it('rejects a short last row that the end of the file may have cut off', () => {
    const table = tableOf('Date,Result,Topic\n2026-03-04,right,x\n2026-03-05,wro');
    expect(table.rejected).toMatchObject([{ row: 3 }]);
    expect(table.rejected[0]!.reason).toContain('cut off');
  });

  it('says when no line break follows the last row', () => {
    expect(tableOf('Date,Result\n2026-03-04,right').notes).toMatchObject([
      { level: 'note', rows: [2] },
    ]);
    expect(tableOf('Date,Result\n2026-03-04,right\n').notes).toEqual([]);
  });

  it('rejects a line with broken quotes by its number and keeps the others', () => {
    const table = tableOf('Date,Result\n2026-03-04,"right\n2026-03-05,wrong\n2026-03-06,"right"\n');
    expect(table.rejected).toMatchObject([{ row: 2, value: '2026-03-04,"right' }]);
    expect(table.rejected[0]!.reason).toContain('line 2');
    expect(table.rows.map(({ row }) => row)).toEqual([3, 4]);
  });

  it.each([
    ['empty', ''],
    ['empty', ' \n\t\n'],
    ['page', '<!DOCTYPE html><html><table></table></html>'],
    ['json', '{"format": "x"}'],
    ['json', '[{"a": 1}]'],
    ['one-column', 'just\nsome\nlines\nof text\n'],
    ['no-rows', 'Date,Result\n'],
    ['quotes-broken', '"a "b" c\n"d "e" f\n"g "h" i\n'],
  ])('says what is wrong with the whole text: %s', (fault, text) => {
    expect(readTable(text)).toMatchObject({ kind: 'fault', fault });
  });
});

describe('guessColumns', () => {
  it('reads headers of several wordings', () => {
    const table = tableOf(
      'Answered on,Set,Q no,Status,Subject,Why wrong,Note,Time spent (s),My answer,Correct answer,Question ID,Weather\n' +
        '2026-03-04,A,1,Correct,Gout,,,75,B,B,77,rain\n',
    );
    expect(guessColumns(table).fields).toEqual([
      'date',
      'block',
      'position',
      'outcome',
      'topics',
      'reason',
      'missingPiece',
      'seconds',
      'chosen',
      'key',
      'reference',
      null,
    ]);
  });

  it('goes by the contents where there is no header', () => {
    const table = tableOf(
      '4 Mar 2026,1,right,Gout,\n4 Mar 2026,2,wrong,Kidney,forgot\n5 Mar 2026,3,wrong,Lung,misread\n',
    );
    const guess = guessColumns(table);
    expect(guess.fields).toEqual(['date', 'position', 'outcome', null, 'reason']);
    expect(guess.from).toEqual(['contents', 'contents', 'contents', null, 'contents']);
  });

  it('does not believe a header that the cells contradict', () => {
    const table = tableOf(
      'Date,Question,Result\n2026-03-04,What is a nephron?,right\n2026-03-05,Why?,wrong\n',
    );
    expect(guessColumns(table).fields).toEqual(['date', null, 'outcome']);
  });

  it('tells a time of day from a time spent by the cells', () => {
    const clock = tableOf('Date,Time,Result\n2026-03-04,14:05,right\n2026-03-04,15:10,right\n');
    expect(guessColumns(clock).fields[1]).toBe('time');
    const spent = tableOf('Date,Time,Result\n2026-03-04,75,right\n2026-03-04,140,right\n');
    expect(guessColumns(spent).fields[1]).toBe('seconds');
  });

  it('tells items of a block from item numbers by the cells', () => {
    const rows = (cell: (i: number) => number) =>
      Array.from({ length: 9 }, (_, i) => `2026-03-04,${cell(i)},right`).join('\n');
    expect(guessColumns(tableOf(`Date,Items,Result\n${rows(() => 40)}\n`)).fields[1]).toBe(
      'itemCount',
    );
    expect(guessColumns(tableOf(`Date,Item,Result\n${rows((i) => i + 1)}\n`)).fields[1]).toBe(
      'position',
    );
  });

  it('takes several topic columns but one date column', () => {
    const table = tableOf('Date,Day,Topic 1,Topic 2,Result\n2026-03-04,2026-03-04,a,b,right\n');
    expect(guessColumns(table).fields).toEqual(['date', null, 'topics', 'topics', 'outcome']);
  });
});

describe('withField', () => {
  it('moves a field that one column only may hold, and adds one that several may', () => {
    const mapping = { fields: ['date', 'topics', null] as const };
    expect(withField(mapping, 2, 'date').fields).toEqual([null, 'topics', 'date']);
    expect(withField(mapping, 2, 'topics').fields).toEqual(['date', 'topics', 'topics']);
    expect(withField(mapping, 1, null).fields).toEqual(['date', null, null]);
  });
});
