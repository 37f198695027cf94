/**
 * RFC 4180 (Y. Shafranovich, October 2005), section 2: the definition of the
 * format, rule by rule, with its own examples. From memory.
 */
import { describe, expect, it } from 'vitest';
import { readCsv } from '../../../src/formats/csv-read';
import { writeCsv } from '../../../src/formats/csv-write';

const read = (text: string) => readCsv(text, ',').records.map((record) => record.cells);

describe('RFC 4180, section 2', () => {
  it.each([
    ['1: each record on a line of its own, ended by CRLF', 'aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n'],
    ['2: the last record may lack its line break', 'aaa,bbb,ccc\r\nzzz,yyy,xxx'],
    ['5: fields may stand in double quotes', '"aaa","bbb","ccc"\r\nzzz,yyy,xxx'],
  ])('rule %s', (_, text) => {
    expect(read(text)).toEqual([
      ['aaa', 'bbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ]);
  });

  it('rule 4: blanks belong to the field', () => {
    expect(read('aaa , bbb,ccc\r\n')).toEqual([['aaa ', ' bbb', 'ccc']]);
  });

  it('rule 6: a line break inside quotes belongs to the field', () => {
    expect(read('"aaa","b CRLF\r\nbb","ccc" CRLF\r\n'.replaceAll(' CRLF', ''))).toEqual([
      ['aaa', 'b\nbb', 'ccc'],
    ]);
  });

  it('rule 7: a double quote inside quotes is doubled', () => {
    expect(read('"aaa","b""bb","ccc"')).toEqual([['aaa', 'b"bb', 'ccc']]);
    expect(writeCsv([['aaa', 'b"bb', 'ccc']])).toBe('aaa,"b""bb",ccc\r\n');
  });

  it('rules 1 and 6, in writing: CRLF after each record, quotes around a comma or line break', () => {
    expect(
      writeCsv([
        ['a', 'b,c'],
        ['d', 'e\r\nf'],
      ]),
    ).toBe('a,"b,c"\r\nd,"e\r\nf"\r\n');
  });
});
