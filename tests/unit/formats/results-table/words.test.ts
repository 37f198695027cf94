import { describe, expect, it } from 'vitest';
import {
  fieldLabels,
  findFieldOfHeader,
  resultFields,
  senseOfHeader,
} from '../../../../src/formats/results-table/fields';
import {
  findMinutes,
  findSeconds,
  findWholeNumber,
} from '../../../../src/formats/results-table/numbers';
import { findYesNo, readOutcomeWord } from '../../../../src/formats/results-table/outcome-words';
import { findReason } from '../../../../src/formats/results-table/reason-words';
import { missReasons, reasonWords } from '../../../../src/model/log';

describe('readOutcomeWord', () => {
  it.each([
    ['right', 'right'],
    ['Correct', 'right'],
    ['R', 'right'],
    [' RIGHT. ', 'right'],
    ['100%', 'right'],
    ['1/1', 'right'],
    ['wrong', 'missed'],
    ['Incorrect', 'missed'],
    ['missed', 'missed'],
    ['0 %', 'missed'],
    ['guessed right', 'guessed-right'],
    ['Correct (guessed)', 'guessed-right'],
    ['lucky guess', 'guessed-right'],
    ['guessed wrong', 'missed'],
  ])('takes %j to say %s', (cell, outcome) => {
    expect(readOutcomeWord(cell)).toEqual({ kind: 'says', outcome });
  });

  it.each(['omitted', 'Not answered', 'skipped', 'unanswered'])(
    'takes %j for a miss without an answer',
    (cell) => {
      expect(readOutcomeWord(cell)).toEqual({ kind: 'says', outcome: 'missed', unanswered: true });
    },
  );

  it.each([
    ['1', 'yes'],
    ['1.0', 'yes'],
    ['1,00', 'yes'],
    ['Y', 'yes'],
    ['TRUE', 'yes'],
    ['0', 'no'],
    ['0.0', 'no'],
    ['n', 'no'],
    ['false', 'no'],
  ])('takes %j for a mark that depends on the header: %s', (cell, mark) => {
    expect(readOutcomeWord(cell)).toEqual({ kind: 'mark', mark });
  });

  it.each([
    ['✓', 'tick'],
    ['✔️', 'tick'],
    ['☑', 'tick'],
    ['✗', 'cross'],
    ['❌', 'cross'],
    ['x', 'cross'],
    ['X', 'cross'],
    ['', 'blank'],
    [' - ', 'blank'],
    ['n/a', 'blank'],
    ['0.5', 'unknown'],
    ['0.1', 'unknown'],
    ['50%', 'unknown'],
    ['maybe', 'unknown'],
    ['=A1', 'unknown'],
    ['2', 'unknown'],
    ['11', 'unknown'],
    ['guessed', 'unknown'],
  ])('takes %j for: %s', (cell, kind) => {
    expect(readOutcomeWord(cell).kind).toBe(kind);
  });
});

describe('findYesNo', () => {
  it('reads yes, no and ticked boxes, and nothing else', () => {
    expect(['yes', '1', '✓', 'x', 'TRUE'].map(findYesNo)).toEqual(Array(5).fill(true));
    expect(['no', '0', '✗', 'False'].map(findYesNo)).toEqual(Array(4).fill(false));
    expect(['', 'maybe', 'right', '2'].map(findYesNo)).toEqual(Array(4).fill(undefined));
  });
});

describe('findReason', () => {
  it('knows every reason by its key and by the words of the screens', () => {
    for (const reason of missReasons) {
      expect(findReason(reason)).toBe(reason);
      expect(findReason(reasonWords[reason].toUpperCase())).toBe(reason);
    }
  });

  it.each([
    ["Didn't know", 'not-known'],
    ['forgot', 'not-recalled'],
    ['Misread the question', 'misread'],
    ['50/50', 'two-left'],
    ['Changed answer', 'changed-from-right'],
    ['No time', 'out-of-time'],
    ['over-thinking', 'overthought'],
    ['bad luck', undefined],
    ['', undefined],
  ])('reads %j as %s', (cell, reason) => {
    expect(findReason(cell)).toBe(reason);
  });
});

describe('numbers', () => {
  it.each([
    ['12', 12],
    ['Q12', 12],
    ['#12', 12],
    ['Item 12', 12],
    ['12.', 12],
    ['12.0', 12],
    ['12/40', 12],
    ['12 of 40', 12],
    ['0', 0],
    ['12.5', undefined],
    ['-3', undefined],
    ['=12', undefined],
    ['twelve', undefined],
    ['', undefined],
    ['1e3', undefined],
  ])('reads %j as the whole number %s', (cell, number) => {
    expect(findWholeNumber(cell)).toBe(number);
  });

  it.each([
    ['75', 75],
    ['75.5', 75.5],
    ['75,5', 75.5],
    ['75 s', 75],
    ['75sec', 75],
    ['1:15', 75],
    ['0:01:15', 75],
    ['1 min 15 s', 75],
    ['1m15s', 75],
    ['2 min', 120],
    ['1.5 min', 90],
    ['', undefined],
    ['1:75', undefined],
    ['fast', undefined],
    ['-5', undefined],
  ])('reads %j as %s seconds', (cell, seconds) => {
    expect(findSeconds(cell)).toBe(seconds);
  });

  it('counts a bare number in minutes where the header says so', () => {
    expect(findSeconds('1.5', 'minutes')).toBe(90);
    expect(findSeconds('75 s', 'minutes')).toBe(75);
  });

  it.each([
    ['60', 60],
    ['58.5', 58.5],
    ['60 min', 60],
    ['58:30', 58.5],
    ['1:05:00', 65],
    ['1 h 5 min', 65],
    ['long', undefined],
  ])('reads %j as %s minutes of a block', (cell, minutes) => {
    expect(findMinutes(cell)).toBe(minutes);
  });
});

describe('findFieldOfHeader', () => {
  it.each([
    ['Date', 'date'],
    ['DATE ANSWERED', 'date'],
    ['Start time', 'time'],
    ['Block #', 'block'],
    ['Question No.', 'position'],
    ['#', 'position'],
    ['Result', 'outcome'],
    ['Correct?', 'outcome'],
    ['Correct (1/0)', 'outcome'],
    ['Right/Wrong', 'outcome'],
    ['Missed', 'outcome'],
    ['Topics', 'topics'],
    ['Topic 2', 'topics'],
    ['Named cause', 'causes'],
    ['Organ system', 'system'],
    ['Why missed', 'reason'],
    ['Missing piece', 'missingPiece'],
    ['Time spent (s)', 'seconds'],
    ['Seconds', 'seconds'],
    ['Your answer', 'chosen'],
    ['Correct answer', 'key'],
    ['Question ID', 'reference'],
    ['Source', 'source'],
    ['Timed?', 'timed'],
    ['Mixed', 'mixed'],
    ['Number of items', 'itemCount'],
    ['Minutes used', 'minutesUsed'],
    ['Time limit', 'minutesGiven'],
    ['Review minutes', 'reviewMinutes'],
    ['Weather', undefined],
    ['', undefined],
  ])('takes the header %j for %s', (header, field) => {
    expect(findFieldOfHeader(header)?.field).toBe(field);
  });

  it('knows each field by the label that screens show', () => {
    for (const field of resultFields) {
      expect(findFieldOfHeader(fieldLabels[field])?.field).toBe(field);
    }
  });
});

describe('senseOfHeader', () => {
  it.each([
    ['Correct?', 'right'],
    ['Score', 'right'],
    ['Missed', 'missed'],
    ['Incorrect', 'missed'],
    ['Wrong (1/0)', 'missed'],
    ['Result', 'neutral'],
    ['Right or wrong', 'neutral'],
    ['Correct/incorrect', 'neutral'],
  ])('says that a mark under %j means %s', (header, sense) => {
    expect(senseOfHeader(header)).toBe(sense);
  });
});
