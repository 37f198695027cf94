import { describe, expect, it } from 'vitest';
import { readReadingList } from '../../../src/formats/index';

describe('readReadingList', () => {
  it('reads a table by its header, in any order of columns, with concepts parted by semicolons', () => {
    const { rows, faults, table } = readReadingList(
      'Minutes,Title,Where,Main concepts,touched,kind\n25,"Tides, low and high",pp. 3-9,moon; sun,wind,video\n,Knots,,,,\n',
    );
    expect(table).toBe(true);
    expect(faults).toEqual([]);
    expect(rows).toEqual([
      {
        row: 2,
        title: 'Tides, low and high',
        source: '',
        locator: 'pp. 3-9',
        minutes: 25,
        pages: undefined,
        words: undefined,
        kind: 'video',
        main: ['moon', 'sun'],
        touched: ['wind'],
      },
      expect.objectContaining({ row: 3, title: 'Knots', minutes: undefined, kind: 'text' }),
    ]);
  });

  it('reads plain lines: title, source, locator, and amounts by their unit', () => {
    const { rows, table } = readReadingList(
      '- Tides; Harbour book; ch. 4; 25 min\n\n2. Knots (12 pages)\nWinds\tAtlas\t1,500 words\nStars of 1987 min\n',
    );
    expect(table).toBe(false);
    expect(rows.map(({ row, title, source, locator }) => [row, title, source, locator])).toEqual([
      [1, 'Tides', 'Harbour book', 'ch. 4'],
      [3, 'Knots', '', ''],
      [4, 'Winds', 'Atlas', ''],
      [5, 'Stars of', '', ''],
    ]);
    expect(rows.map(({ minutes, pages, words }) => minutes ?? pages ?? words)).toEqual([
      25, 12, 1500, 1987,
    ]);
  });

  it('names every row that does not come in, with the mend, and takes the others', () => {
    const { rows, faults } = readReadingList(
      'title;minutes;kind\nTides;soon;text\n;20;text\nKnots;20;song\nWinds;15;video\nStars;-3;\n',
    );
    expect(rows.map(({ title }) => title)).toEqual(['Winds']);
    expect(faults.map(({ row }) => row)).toEqual([2, 3, 4, 6]);
    expect(faults[0]?.message).toMatch(/"soon" is no number of minutes; write/);
    expect(faults[1]?.message).toMatch(/no title/);
    expect(faults[2]?.message).toMatch(/"song" is no kind/);
  });

  it('goes on after a quotation mark that is never closed', () => {
    const { rows, faults } = readReadingList('title,minutes\n"Tides,20\nKnots,10\n');
    expect(rows.map(({ title }) => title)).toEqual(['Knots']);
    expect(faults).toEqual([
      { row: 2, message: expect.stringMatching(/quotation mark/) as string },
    ]);
  });

  it('gives nothing for nothing', () => {
    expect(readReadingList(' \n\n')).toEqual({ rows: [], faults: [], table: false });
  });
});
