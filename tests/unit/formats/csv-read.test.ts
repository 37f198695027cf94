import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readCsv } from '../../../src/formats/csv-read';
import { csvByCharacter } from '../../oracles/formats/csv-by-character';

const cellsOf = (text: string, delimiter = ',') =>
  readCsv(text, delimiter).records.map((record) => record.cells);

/** Few characters, so that quotes, delimiters and line ends meet often. */
const tangle = fc.string({
  unit: fc.constantFrom('a', 'b', ',', '"', '"', '\n', ' x'),
  maxLength: 40,
});

describe('readCsv', () => {
  it('agrees with a reader by character on text with sound quotes', () => {
    let sound = 0;
    fc.assert(
      fc.property(tangle, (text) => {
        const expected = csvByCharacter(text, ',');
        // Blanks after a closing quote are a liberty that the oracle does not take.
        if (!expected || /" +x?[,\n]|" x/.test(text)) return;
        sound += 1;
        const { records, broken } = readCsv(text, ',');
        expect(broken).toEqual([]);
        expect(records.map((record) => record.cells)).toEqual(expected);
      }),
      { numRuns: 3_000, seed: 41 },
    );
    expect(sound).toBeGreaterThan(500);
  });

  it('never throws, and accounts for every line of tangled text', () => {
    fc.assert(
      fc.property(tangle, (text) => {
        const { records, broken } = readCsv(text, ',');
        const lines = [
          ...records.map(({ line, cells }) => [line, 1 + cells.join('').split('\n').length - 1]),
          ...broken.map(({ line }) => [line, 1]),
        ].sort((a, b) => a[0]! - b[0]!);
        let next = 1;
        for (const [line, height] of lines) {
          expect(line).toBe(next);
          next += height!;
        }
        const trailing = text.endsWith('\n') || text === '' ? 0 : 1;
        expect(next - 1).toBe(text.split('\n').length - 1 + trailing);
      }),
      { numRuns: 3_000, seed: 42 },
    );
  });

  it('gives up a line with a broken quote and reads on after it', () => {
    const { records, broken } = readCsv('a,b\n1,"open\n2,x\n3,"y"\n4,z\n', ',');
    expect(broken).toEqual([{ row: 2, line: 2, text: '1,"open' }]);
    expect(records.map(({ row, line, cells }) => [row, line, ...cells])).toEqual([
      [1, 1, 'a', 'b'],
      [3, 3, '2', 'x'],
      [4, 4, '3', 'y'],
      [5, 5, '4', 'z'],
    ]);
  });

  it('gives up a line with text after a closing quote', () => {
    const { records, broken } = readCsv('1,"he said "no" then"\n2,x\n', ',');
    expect(broken.map(({ line }) => line)).toEqual([1]);
    expect(records.map(({ cells }) => cells)).toEqual([['2', 'x']]);
  });

  it('tells rows from lines where a cell holds line breaks', () => {
    const { records } = readCsv('a,b\n1,"x\ny\nz"\n2,w\n', ',');
    expect(records.map(({ row, line }) => [row, line])).toEqual([
      [1, 1],
      [2, 2],
      [3, 5],
    ]);
  });

  it.each([
    ['\r\n', 'a,b\r\nc,d\r\n'],
    ['\n', 'a,b\nc,d\n'],
    ['\r', 'a,b\rc,d\r'],
    ['mixed', 'a,b\r\nc,d\n'],
    ['none at the end', 'a,b\nc,d'],
  ])('reads line ends of any kind: %j', (_, text) => {
    expect(cellsOf(text)).toEqual([
      ['a', 'b'],
      ['c', 'd'],
    ]);
  });

  it('keeps a line break inside quotes as one line feed', () => {
    expect(cellsOf('"a\r\nb",c\r\n')).toEqual([['a\nb', 'c']]);
  });

  it('takes a quote inside an unquoted cell as a plain character', () => {
    expect(cellsOf('5" tube,b\n')).toEqual([['5" tube', 'b']]);
  });

  it('reads a quoted cell that is longer than one window', () => {
    const long = 'long, "text"\n'.repeat(30_000);
    const text = `a,b\n1,"${long.replaceAll('"', '""')}"\n2,c\n`;
    const { records, broken } = readCsv(text, ',');
    expect(broken).toEqual([]);
    expect(records[1]!.cells[1]).toBe(long);
    expect(records[2]).toMatchObject({ row: 3, cells: ['2', 'c'] });
  });

  it('reads many windows of rows without losing or doubling one', () => {
    const rows = Array.from({ length: 30_000 }, (_, i) => `${i},"quoted, ${i}"`);
    const { records } = readCsv(rows.join('\n'), ',');
    expect(records.length).toBe(30_000);
    expect(records.every(({ row, cells }, i) => row === i + 1 && cells[0] === String(i))).toBe(
      true,
    );
  });

  it('stops at a thousand broken lines and says so', () => {
    const { broken, complete } = readCsv('"a "b" c,d\n'.repeat(1_500), ',');
    expect(complete).toBe(false);
    expect(broken.length).toBe(1_000);
  });
});
