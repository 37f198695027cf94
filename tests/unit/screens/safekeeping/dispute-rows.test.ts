import { describe, expect, it } from 'vitest';
import type { AnyRecord } from '../../../../src/model/records';
import { disputeRows } from '../../../../src/screens/safekeeping/dispute-rows';

const record = (fields: object) =>
  ({ id: 'item-1', stamp: { changedAt: 1 }, ...fields }) as unknown as AnyRecord;
const nameOf = (id: string) => new Map([['anion-gap', 'Anion gap']]).get(id);

describe('two versions of a record', () => {
  it('show only what differs, by the names a candidate knows', () => {
    const one = record({
      causes: ['anion-gap'],
      missingPiece: 'bicarbonate',
      day: 20_454,
      timed: true,
    });
    const two = record({
      causes: [],
      missingPiece: 'bicarbonate',
      day: 20_455,
      timed: true,
      seconds: 40,
    });
    expect(disputeRows(one, two, nameOf)).toEqual([
      { field: 'named causes', shown: 'Anion gap', other: '(empty)' },
      { field: 'day', shown: '2026-01-01', other: '2026-01-02' },
      { field: 'seconds', shown: '(empty)', other: '40' },
    ]);
  });

  it('show lists of several things one after another, and an unknown id as it is', () => {
    const [row] = disputeRows(
      record({ restsOn: [{ concept: 'anion-gap', strength: 0.6 }] }),
      record({ restsOn: [{ concept: 'reef', strength: 0.8 }] }),
      nameOf,
    );
    expect(row).toEqual({
      field: 'rests on',
      shown: 'concept: Anion gap, strength: 0.6',
      other: 'concept: reef, strength: 0.8',
    });
  });
});
