import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withoutGuard, writeCsv } from '../../../src/formats/csv-write';
import { csvByCharacter } from '../../oracles/formats/csv-by-character';

describe('writeCsv', () => {
  it('ends every row with CRLF and quotes what needs it', () => {
    expect(
      writeCsv([
        ['a', 'b "c"', 'd,e'],
        ['x\ny', '', 3],
      ]),
    ).toBe('a,"b ""c""","d,e"\r\n"x\ny",,3\r\n');
  });

  it.each(['=1+1', '+cmd', '-2+3', '@SUM(A1)', '\tx', '\rx'])(
    'puts an apostrophe before text that a spreadsheet would run: %j',
    (text) => {
      const cell = csvByCharacter(writeCsv([[text]]), ',')![0]![0]!;
      expect(cell.startsWith("'")).toBe(true);
    },
  );

  it('writes numbers as numbers, negative ones too', () => {
    expect(writeCsv([[-5, 0.25, true, null, undefined]])).toBe('-5,0.25,yes,,\r\n');
  });

  it('refuses numbers that no spreadsheet can read', () => {
    expect(() => writeCsv([[Number.NaN]])).toThrow('writeCsv: got NaN; need a finite number');
  });

  it('writes what a reader by character gives back, guard taken off', () => {
    const unit = fc.constantFrom('a', ',', '"', '\n', "'", '=', '-', ' ', 'é');
    const table = fc.array(
      fc.array(fc.string({ unit, maxLength: 8 }), { minLength: 2, maxLength: 4 }),
      {
        minLength: 1,
        maxLength: 4,
      },
    );
    fc.assert(
      fc.property(table, (rows) => {
        const read = csvByCharacter(writeCsv(rows), ',');
        expect(read?.map((row) => row.map(withoutGuard))).toEqual(rows);
      }),
      { numRuns: 500, seed: 43 },
    );
  });
});
