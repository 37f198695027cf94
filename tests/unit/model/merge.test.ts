import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DeviceId, NoteId } from '../../../src/model/ids';
import {
  asideRecord,
  canonicalText,
  chosenStamp,
  mergeCopies,
  newestVersions,
  versionOf,
  type Copy,
} from '../../../src/model/merge';
import type { AnyRecord, RecordOf } from '../../../src/model/records';
import { firstStamp, nextStamp, type Stamp } from '../../../src/model/stamp';
import type { Instant } from '../../../src/model/time';

type Note = RecordOf<'notes'>;
const at = (seconds: number) => (1_770_000_000_000 + seconds * 1_000) as Instant;
const quay = 'quay' as DeviceId;
const cabin = 'cabin' as DeviceId;

function note(id: string, text: string, stamp: Stamp): Note {
  return {
    id: id as NoteId,
    title: id,
    text,
    concepts: [],
    disciplines: [],
    systems: [],
    stamp,
  };
}

/** A copy as a device keeps it, with the outcome of a merge written into it. */
function merged(mine: Copy, theirs: Copy): Copy {
  const records = mergeCopies(mine, theirs);
  return {
    notes: records.map(({ shown }) => shown),
    otherVersions: records.flatMap(({ kind, aside }) =>
      aside.map((record) => ({ ...asideRecord(kind, record), stamp: firstStamp(quay, at(0)) })),
    ),
  };
}

/** What a copy holds, whoever set a version aside and when. */
function held(copy: Copy): unknown {
  const others = (copy.otherVersions ?? []) as RecordOf<'otherVersions'>[];
  return {
    notes: [...(copy.notes ?? [])].sort((a, b) => (a.id < b.id ? -1 : 1)).map(canonicalText),
    others: others.map(({ id, content }) => `${id} ${content}`).sort(),
  };
}

const base = note('a', 'as it was', firstStamp(quay, at(0)));

describe('a merge of two copies', () => {
  it('takes the newer version of a record, whichever side it is on', () => {
    const newer = note('a', 'newer', nextStamp(base.stamp, cabin, at(5)));
    for (const [mine, theirs] of [
      [base, newer],
      [newer, base],
    ]) {
      const [record] = mergeCopies({ notes: [mine!] }, { notes: [theirs!] });
      expect(record).toMatchObject({ shown: newer, aside: [], before: mine });
    }
  });

  it('respects a deletion made after the last edit, and keeps an edit made beside it', () => {
    const gone = note('a', 'as it was', nextStamp(base.stamp, cabin, at(5), true));
    expect(mergeCopies({ notes: [base] }, { notes: [gone] })[0]?.shown).toBe(gone);
    const edited = note('a', 'edited', nextStamp(base.stamp, quay, at(1)));
    expect(mergeCopies({ notes: [edited] }, { notes: [gone] })[0]).toMatchObject({
      shown: edited,
      aside: [gone],
    });
  });

  it('shows the later of two edits made at once and sets the other aside, to be read back', () => {
    const mine = note('a', 'mine', nextStamp(base.stamp, quay, at(7)));
    const theirs = note('a', 'theirs', nextStamp(base.stamp, cabin, at(9)));
    const [record] = mergeCopies({ notes: [mine] }, { notes: [theirs] });
    expect(record).toMatchObject({ shown: theirs, aside: [mine] });
    const kept = { ...asideRecord('notes', mine), stamp: firstStamp(quay, at(9)) };
    expect(versionOf(kept)).toEqual({ kind: 'notes', record: mine });
  });

  it('ends a dispute on every device once one has chosen', () => {
    const mine = note('a', 'mine', nextStamp(base.stamp, quay, at(7)));
    const theirs = note('a', 'theirs', nextStamp(base.stamp, cabin, at(9)));
    const disputed = merged({ notes: [mine] }, { notes: [theirs] });
    const versions = [{ record: mine }, { record: theirs }];
    const choice = { ...mine, stamp: chosenStamp(mine.stamp, versions, cabin, at(2)) };
    const after = merged(disputed, { notes: [choice] });
    expect(after).toEqual({ notes: [choice], otherVersions: [] });
    expect(choice.stamp.changedAt).toBeGreaterThan(at(9)); // though the clock said less
  });

  it('is dated after what it follows even where the clock was set back', () => {
    expect(nextStamp(base.stamp, quay, at(-500)).changedAt).toBeGreaterThan(at(0));
  });
});

/** A history: devices edit, delete, and take in one another's copies, in any order. */
const deviceNames = ['quay', 'cabin', 'hut'] as const;
const step = fc.record({
  device: fc.nat(2),
  what: fc.constantFrom('edit', 'delete', 'merge', 'merge'),
  note: fc.constantFrom('a', 'b'),
  other: fc.nat(2),
  clock: fc.nat(40),
});

function play(steps: readonly (typeof step extends fc.Arbitrary<infer S> ? S : never)[]): Copy[] {
  const copies: Copy[] = deviceNames.map(() => ({ notes: [base] }));
  steps.forEach(({ device, what, note: id, other, clock }, index) => {
    const copy = copies[device]!;
    if (what === 'merge') {
      copies[device] = merged(copy, copies[other]!);
      return;
    }
    const name = deviceNames[device]! as DeviceId;
    const stored = (copy.notes ?? []).find((record) => record.id === id) as Note | undefined;
    const stamp = stored
      ? nextStamp(stored.stamp, name, at(clock), what === 'delete')
      : firstStamp(name, at(clock));
    const next = note(id, `step ${index}`, stamp);
    copies[device] = {
      ...copy,
      notes: [...(copy.notes ?? []).filter((record) => record.id !== id), next],
    };
  });
  return copies;
}

describe('merging, over random histories of three devices', () => {
  const histories = fc.array(step, { minLength: 1, maxLength: 14 });

  it('is commutative, associative and idempotent', () => {
    fc.assert(
      fc.property(histories, (steps) => {
        const [a, b, c] = play(steps) as [Copy, Copy, Copy];
        expect(held(merged(a, b))).toEqual(held(merged(b, a)));
        expect(held(merged(merged(a, b), c))).toEqual(held(merged(a, merged(b, c))));
        const once = merged(a, b);
        expect(held(merged(once, once))).toEqual(held(once));
        expect(held(merged(once, b))).toEqual(held(once));
      }),
      { numRuns: 2_000, seed: 20 },
    );
  });

  it('leaves three devices equal once each has met the others, and loses no version unseen', () => {
    fc.assert(
      fc.property(histories, (steps) => {
        const copies = play(steps) as [Copy, Copy, Copy];
        const [a, b, c] = copies;
        const ends = [merged(merged(a, b), c), merged(merged(c, a), b), merged(b, merged(c, a))];
        expect(held(ends[1]!)).toEqual(held(ends[0]!));
        expect(held(ends[2]!)).toEqual(held(ends[0]!));
        // Straight from the definition: what nothing descends from is shown or set aside.
        const all = copies.flatMap((copy) => [
          ...((copy.notes ?? []) as AnyRecord[]),
          ...((copy.otherVersions ?? []) as RecordOf<'otherVersions'>[]).map(
            ({ content }) => JSON.parse(content) as AnyRecord,
          ),
        ]);
        const text = JSON.stringify(held(ends[0]!));
        for (const record of all) {
          const overtaken = all.some(
            (other) =>
              other.id === record.id &&
              other !== record &&
              Object.entries(record.stamp.revision).every(
                ([name, count]) => (other.stamp.revision[name] ?? 0) >= count,
              ) &&
              canonicalText(other.stamp.revision) !== canonicalText(record.stamp.revision),
          );
          if (!overtaken)
            expect(text).toContain(JSON.stringify(canonicalText(record)).slice(1, -1));
        }
      }),
      { numRuns: 1_000, seed: 21 },
    );
  });
});

describe('newestVersions', () => {
  it('does not care for the order or the repeats of what it is given', () => {
    const mine = { record: note('a', 'mine', nextStamp(base.stamp, quay, at(7))) };
    const theirs = { record: note('a', 'theirs', nextStamp(base.stamp, cabin, at(7))) };
    const old = { record: base };
    const one = newestVersions([old, mine, theirs, mine]);
    expect(one).toHaveLength(2);
    expect(newestVersions([theirs, mine, old])).toEqual(one);
  });
});
