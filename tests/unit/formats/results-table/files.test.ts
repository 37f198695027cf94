/** Whole files, from bytes to plan, and what damage does to them. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  decodeTextFile,
  guessColumns,
  planImport,
  readTable,
  type ImportContext,
  type ImportPlan,
} from '../../../../src/formats';
import type { ConceptId, SystemId } from '../../../../src/model/ids';

const concept = (key: string, name: string, ...aliases: string[]) => ({
  id: key as ConceptId,
  name,
  aliases,
});
const context: ImportContext = {
  concepts: [
    concept('abc', 'Acid-base compensation', 'compensation of acid-base'),
    concept('oedema', 'Oedema formation'),
    concept('starling', 'Starling forces'),
    concept('curve', 'Haemoglobin dissociation curve'),
    concept('gout', 'Gout'),
  ],
  systems: [
    { id: 'renal' as SystemId, name: 'Renal' },
    { id: 'lung' as SystemId, name: 'Respiratory' },
    { id: 'bone' as SystemId, name: 'Musculoskeletal' },
  ],
  remembered: [],
  // Damage may take away what makes a question needless.
  answers: {
    dayOrder: 'day-first',
    emptyDates: 'leave-out',
    markMeans: 'missed',
    blankMeans: 'leave-out',
  },
};

const bytesOf = (name: string) =>
  Uint8Array.from(readFileSync(new URL(`../../../fixtures/results/${name}`, import.meta.url)));

type Outcome = ImportPlan | { readonly kind: 'refused'; readonly why: string };

function planOf(bytes: Uint8Array): Outcome {
  const file = decodeTextFile(bytes);
  if (file.kind === 'fault') return { kind: 'refused', why: file.fault };
  const table = readTable(file.text);
  if (table.kind === 'fault') return { kind: 'refused', why: table.fault };
  const plan = planImport(table, guessColumns(table), context);
  return plan.kind === 'plan' ? plan : { kind: 'refused', why: plan.questions[0]!.kind };
}

function requirePlan(bytes: Uint8Array): ImportPlan {
  const plan = planOf(bytes);
  if (plan.kind === 'refused') throw new Error(plan.why);
  return plan;
}

const itemsOf = (plan: ImportPlan) =>
  plan.blocks.flatMap((block) => block.items.map(({ row, content }) => ({ row, ...content })));

describe('a file of results', () => {
  it('comes in whole: full.csv', () => {
    const plan = requirePlan(bytesOf('full.csv'));
    expect([plan.rejected, plan.leftOut, plan.notes, plan.unmatched]).toEqual([[], [], [], []]);
    expect(
      plan.blocks.map(({ label, startMinutes, content }) => [label, startMinutes, content.timed]),
    ).toEqual([
      ['Morning', 570, true],
      ['Evening', 1_080, false],
    ]);
    expect(
      itemsOf(plan).map(({ row, outcome, topics, causes, system, reason, missingPiece }) => [
        row,
        outcome,
        topics,
        causes,
        system,
        reason,
        missingPiece,
      ]),
    ).toEqual([
      [2, 'right', ['starling'], [], 'renal', undefined, ''],
      [
        3,
        'missed',
        ['abc', 'oedema'],
        ['abc'],
        'renal',
        'not-recalled',
        'Expected pCO2, "by the rule", was never worked out',
      ],
      [4, 'guessed-right', ['gout'], [], 'bone', undefined, ''],
      [
        5,
        'missed',
        ['curve'],
        ['curve'],
        'lung',
        'two-left',
        'Shift to the right lets go, not holds on',
      ],
      [6, 'right', ['gout'], [], 'bone', undefined, ''],
    ]);
  });

  it('comes in from a hand-kept table: homemade.tsv', () => {
    const file = decodeTextFile(bytesOf('homemade.tsv'));
    const table = file.kind === 'text' ? readTable(file.text) : file;
    if (table.kind !== 'table') throw new Error('not a table');
    const plan = planImport(table, guessColumns(table), { ...context, answers: {} });
    if (plan.kind !== 'plan') throw new Error('questions');
    expect(
      itemsOf(plan).map(({ row, outcome, topics, missingPiece }) => [
        row,
        outcome,
        topics,
        missingPiece,
      ]),
    ).toEqual([
      [3, 'right', ['gout'], ''],
      [4, 'missed', ['oedema'], 'lymph drains what capillaries lose'],
      [5, 'right', ['abc'], ''],
      [6, 'missed', ['curve'], '5" rule of thumb is wrong'],
    ]);
  });

  it('comes in with semicolons and decimal commas: semicolons.csv', () => {
    const plan = requirePlan(bytesOf('semicolons.csv'));
    expect(itemsOf(plan).map(({ outcome, topics, seconds }) => [outcome, topics, seconds])).toEqual(
      [
        ['right', ['gout', 'starling'], 90],
        ['missed', ['gout'], 45],
        ['missed', ['starling'], 120],
      ],
    );
  });

  it('comes in but for the rows and cells that cannot: faulty.csv', () => {
    const plan = requirePlan(bytesOf('faulty.csv'));
    expect(plan.rejected.map(({ row }) => row)).toEqual([3, 4, 5, 6, 8, 9]);
    expect(plan.leftOut.map(({ row, column }) => [row, column])).toEqual([[7, 'Seconds']]);
    expect(itemsOf(plan).map(({ row, missingPiece }) => [row, missingPiece])).toEqual([
      [2, ''],
      [7, '=1+1'],
      [10, ''],
    ]);
  });
});

describe('a damaged file', () => {
  const whole = bytesOf('full.csv');
  const original = new Map(itemsOf(requirePlan(whole)).map((item) => [item.row, item]));

  it('cut off anywhere, brings in rows as they were, or says that the last may be incomplete', () => {
    for (let length = 0; length < whole.length; length += 1) {
      const plan = planOf(whole.subarray(0, length));
      if (plan.kind === 'refused') continue;
      for (const item of itemsOf(plan)) {
        const doubted = plan.notes.some((note) => note.rows?.includes(item.row));
        if (!doubted) expect(item).toEqual(original.get(item.row));
      }
      // At most the one row at the cut is doubted.
      expect(new Set(plan.notes.flatMap((note) => note.rows ?? [])).size).toBeLessThanOrEqual(1);
    }
  }, 60_000);

  it('with a line lost, brings in all other rows as they were', () => {
    const lines = new TextDecoder().decode(whole).split('\r\n');
    for (const lost of lines.keys()) {
      if (lost === 0) continue;
      const text = lines.filter((_, i) => i !== lost).join('\r\n');
      const plan = planOf(new TextEncoder().encode(text));
      if (plan.kind === 'refused') throw new Error(plan.why);
      const known = new Set([...original.values()].map(({ reference }) => reference));
      for (const item of itemsOf(plan)) {
        const before = [...original.values()].find(
          ({ reference }) => reference === item.reference,
        )!;
        expect(known.has(item.reference)).toBe(true);
        expect({ ...item, row: 0 }).toEqual({ ...before, row: 0 });
      }
    }
  });

  it('with bytes overwritten by random ones, never throws, and loses no row without a word', () => {
    const spot = fc.record({
      at: fc.integer({ min: 0, max: whole.length - 1 }),
      byte: fc.oneof(
        fc.integer({ min: 0, max: 255 }),
        fc.constantFrom(0x22, 0x2c, 0x0a, 0x0d, 0x3b, 0x09),
      ),
    });
    let planned = 0;
    fc.assert(
      fc.property(fc.array(spot, { minLength: 1, maxLength: 6 }), (spots) => {
        const damaged = whole.slice();
        for (const { at, byte } of spots) damaged[at] = byte;
        const plan = planOf(damaged);
        if (plan.kind === 'refused') return;
        planned += 1;
        const { items, rowsRead, rowsRejected } = plan.totals;
        expect(items + rowsRejected).toBe(rowsRead);
        const rows = [...itemsOf(plan), ...plan.rejected].map(({ row }) => row);
        expect(new Set(rows).size).toBe(rowsRead);
      }),
      { numRuns: 400, seed: 46 },
    );
    expect(planned).toBeGreaterThan(100);
  }, 60_000);

  it('of random bytes, never throws', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
        expect(['plan', 'refused']).toContain(planOf(bytes).kind);
      }),
      { numRuns: 500, seed: 47 },
    );
  });

  it('of tangled text, keeps in its cells only text that stands in the file', () => {
    const unit = fc.constantFrom(
      '2026-03-04',
      'right',
      'wrong',
      'gout',
      ',',
      ',',
      '\n',
      '"',
      ' ',
      '=',
      ';',
    );
    fc.assert(
      fc.property(fc.string({ unit, maxLength: 60 }), (body) => {
        const text = `Date,Result,Missing piece\n${body}`;
        const table = readTable(text, { delimiter: ',' });
        if (table.kind === 'fault') return;
        for (const { cells } of table.rows) {
          for (const cell of cells) {
            expect(text.includes(cell) || text.includes(cell.replaceAll('"', '""'))).toBe(true);
          }
        }
      }),
      { numRuns: 1_000, seed: 48 },
    );
  });
});
