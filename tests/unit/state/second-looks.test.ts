import { describe, expect, it } from 'vitest';
import type { Plan } from '../../../src/model/kept-beside';
import type { Block, Item } from '../../../src/model/log';
import { parseRecord } from '../../../src/model/records';
import type { Look } from '../../../src/model/study';
import { msPerDay, type LocalDay } from '../../../src/model/time';
import {
  comingBack,
  inSittingOrder,
  looksOn,
  simulationInput,
  type LookRecords,
} from '../../../src/state/second-looks';
import { restDays, studySettings, weekdayOf } from '../../../src/state/study-settings';
import { findIsoDay } from '../../../src/model/time';

const stamp = { origin: 'quay', revision: { quay: 1 }, changedAt: 1_000, deleted: false };
const today = 20_000 as LocalDay;

function requireRecord<K extends Parameters<typeof parseRecord>[0]>(kind: K, input: object) {
  const parsed = parseRecord(kind, { ...input, stamp });
  if (parsed.kind === 'rejected') throw new Error(JSON.stringify(parsed.faults));
  return parsed.value;
}

const block = (id: string, day: number): Block =>
  requireRecord('blocks', { id, day, itemCount: 40, source: '' });
const item = (id: string, blockId: string, changes: object = {}): Item =>
  requireRecord('items', {
    id,
    block: blockId,
    position: 1,
    outcome: 'missed',
    topics: ['pump'],
    causes: [],
    missingPiece: 'The seal wears first.',
    optionTurns: [],
    ...changes,
  });
const look = (itemId: string, day: number, outcome: string, minute = 0): Look =>
  requireRecord('looks', {
    id: `${itemId}-${day}-${minute}`,
    item: itemId,
    at: day * msPerDay + minute * 60_000,
    outcome,
  });

function records(changes: Partial<LookRecords>): LookRecords {
  return {
    items: [],
    blocks: new Map(
      [block('old', today - 30), block('new', today - 1)].map((each) => [each.id, each]),
    ),
    looks: [],
    plans: [],
    lines: new Map(),
    rehearsals: [],
    avoidable: new Map(),
    minutesEast: () => 0,
    ...changes,
  };
}

const settings = { ...studySettings(undefined), paperDay: (today + 60) as LocalDay };

describe('comingBack', () => {
  it('takes misses and lucky guesses that have something to look at, and nothing else', () => {
    const items = [
      item('a', 'old'),
      item('bare', 'old', { missingPiece: ' ' }),
      item('turns', 'old', { missingPiece: '', optionTurns: [{ option: 'B', turn: 'if dry' }] }),
      item('lucky', 'old', { outcome: 'guessed-right' }),
      item('right', 'old', { outcome: 'right' }),
      item('lost', 'no such block'),
    ];
    expect(comingBack(records({ items })).map(({ id }) => id)).toEqual(['a', 'turns', 'lucky']);
  });

  it('counts the last look of a day, by the day on the wall', () => {
    // 23:30 UTC is the next day an hour east.
    const looks = [look('a', today - 3, 'not-yet', 1_410), look('a', today - 2, 'had-it', 5)];
    const [subject] = comingBack(
      records({ items: [item('a', 'old')], looks: looks.reverse(), minutesEast: () => 60 }),
    );
    expect(subject?.looks.map(({ day, outcome }) => [day, outcome])).toEqual([
      [today - 2, 'not-yet'],
      [today - 2, 'had-it'],
    ]);
  });

  it('weighs a miss by the misses that mending its concepts would avoid', () => {
    const items = [item('a', 'old'), item('b', 'old', { causes: ['seal'] })];
    const avoidable = new Map([
      ['pump', 1],
      ['seal', 4],
    ]);
    const worths = comingBack(records({ items, avoidable })).map(({ worth }) => worth);
    expect(worths).toEqual([0.5, 1.25]);
  });
});

describe('looksOn on paper day', () => {
  it('brings nothing back on paper day or after it, whatever was left undone', () => {
    const subjects = comingBack(records({ items: [item('a', 'old'), item('b', 'new')] }));
    const on = (paperDay: number) =>
      looksOn(today, subjects, { ...studySettings(undefined), paperDay: paperDay as LocalDay }, []);
    expect(on(today + 1).today.length).toBeGreaterThan(0);
    for (const paperDay of [today, today - 3]) {
      const { today: due, waiting, letGo, scheduled } = on(paperDay);
      expect([due, waiting, letGo, scheduled]).toEqual([[], [], [], []]);
    }
  });
});

describe('looksOn', () => {
  it('plans what the minutes hold, keeps it at that as looks are made, and lets go the rest', () => {
    const items = Array.from({ length: 100 }, (_, k) => item(`m${k}`, 'old', { position: k + 1 }));
    const before = looksOn(today, comingBack(records({ items })), settings, []);
    // 10 minutes at 45 seconds: 13 looks; three days' worth may wait.
    expect(before.today).toHaveLength(13);
    expect(before.waiting).toHaveLength(39);
    expect(before.letGo).toHaveLength(48);

    const first = before.today[0]!;
    const looks = [look(first.id, today, 'had-it')];
    const after = looksOn(today, comingBack(records({ items, looks })), settings, []);
    expect(after.madeToday).toBe(1);
    expect(after.today).toHaveLength(12);
    expect(after.today.map(({ id }) => id)).not.toContain(first.id);
    expect(after.letGo.map(({ id }) => id)).toEqual(before.letGo.map(({ id }) => id));
  });

  it('leaves out what was let go until it has waited as long again', () => {
    const items = [item('a', 'old')];
    const plans: Plan[] = [
      requireRecord('plans', { id: 'p', day: today, pinned: [], refused: [], letGo: ['a'] }),
    ];
    const { today: due, scheduled } = looksOn(
      today,
      comingBack(records({ items, plans })),
      settings,
      [],
    );
    expect(due).toEqual([]);
    expect(scheduled[0]?.due).toBe(today + scheduled[0]!.gapDays);
  });
});

describe('inSittingOrder', () => {
  const items = ['a1', 'a2', 'b1', 'b2'].map((id, k) =>
    item(id, 'old', { system: id[0], position: k + 1 }),
  );
  const { today: due } = looksOn(today, comingBack(records({ items })), settings, []);
  it('mixes systems, or takes them one by one when asked to', () => {
    const systems = (bySystem: boolean) =>
      inSittingOrder(due, bySystem).map(({ system }) => system);
    expect(systems(false)).toEqual(['a', 'b', 'a', 'b']);
    expect(systems(true)).toEqual(['a', 'a', 'b', 'b']);
  });
});

describe('simulationInput', () => {
  it('takes the pace from the days since the first look: planned and made', () => {
    const items = [item('a', 'old'), item('b', 'old', { position: 2 })];
    // Paper 60 days from now, missed 30 days ago: due 21 days after. On the fourth day before today both were due.
    const looks = [look('a', today - 4, 'had-it')];
    const input = simulationInput(today, comingBack(records({ items, looks })), settings, []);
    // Day -4: one of two made. Days -3 to -1: only b is due, and it was not looked at.
    expect(input?.keptShares).toEqual([0.5, 0, 0, 0]);
    expect(input).toMatchObject({ heldBefore: 1, notHeldBefore: 0, perDay: 13 });
  });

  it('has no pace before the first look, and nothing without a paper day ahead', () => {
    const subjects = comingBack(records({ items: [item('a', 'new')] }));
    expect(simulationInput(today, subjects, settings, [])).toMatchObject({
      keptShares: [],
      newMissesPerDay: 1 / 28,
    });
    const none = { ...settings, paperDay: undefined };
    expect(simulationInput(today, subjects, none, [])).toBeUndefined();
    expect(simulationInput(today, subjects, { ...settings, paperDay: today }, [])).toBeUndefined();
  });
});

describe('lines that keep failing in rehearsals', () => {
  const lines = new Map(
    ['gap', 'empty'].map((id) => [
      id,
      requireRecord('lines', {
        id,
        text: id === 'gap' ? 'Anion gap = Na - (Cl + HCO3)' : ' ',
        concepts: ['pump'],
        timesNeeded: 0,
      }),
    ]),
  );
  const rehearsal = (day: number, share: number, of = ['gap', 'empty', 'deleted']) =>
    requireRecord('rehearsals', {
      id: `r${day}`,
      at: day * msPerDay + 3_600_000,
      seconds: 600,
      manner: 'paper',
      text: '',
      lines: of.map((line) => ({ line, share })),
    });
  const lineLook = (day: number, outcome: string, minute = 120): Look =>
    requireRecord('looks', {
      id: `gap-${day}`,
      line: 'gap',
      at: day * msPerDay + minute * 60_000,
      outcome,
    });
  const failing = [rehearsal(today - 9, 0.4), rehearsal(today - 5, 0.25)];

  it('come back from the rehearsal in which they failed last, until they are there again', () => {
    const [back, ...more] = comingBack(records({ lines, rehearsals: failing }));
    expect(more).toEqual([]);
    expect(back).toMatchObject({ kind: 'line', id: 'gap', since: today - 5, lastShare: 0.25 });
    expect(comingBack(records({ lines, rehearsals: failing.slice(1) }))).toEqual([]);
    // It was not held in that rehearsal, so it is due the next day; a rehearsal is no look made.
    const fresh = [...failing, rehearsal(today, 0.5)];
    const again = looksOn(today, comingBack(records({ lines, rehearsals: fresh })), settings, []);
    expect(again.scheduled.map(({ due }) => due)).toEqual([today + 1]);
    expect(again.madeToday).toBe(0);
    const mended = [...failing, rehearsal(today - 1, 1)];
    expect(comingBack(records({ lines, rehearsals: mended }))).toEqual([]);
  });

  it('count the looks made since, and wait while a rehearsal is not compared', () => {
    const looks = [lineLook(today - 7, 'had-it'), lineLook(today - 3, 'not-yet')];
    const begun = rehearsal(today, 0, []);
    const [back] = comingBack(records({ lines, looks, rehearsals: [...failing, begun] }));
    expect(back?.looks.map(({ day, outcome }) => [day, outcome])).toEqual([[today - 3, 'not-yet']]);
    const { scheduled } = looksOn(today, [back!], settings, []);
    expect(scheduled.map(({ id, due }) => [id, due])).toEqual([['gap', today - 2]]);
  });

  it('are let go like misses, and weigh what their concepts would avoid, once for each failure', () => {
    const plans: Plan[] = [
      requireRecord('plans', { id: 'p', day: today, pinned: [], refused: [], letGoLines: ['gap'] }),
    ];
    const avoidable = new Map([['pump', 2]]);
    const items = [item('a', 'old')];
    const all = comingBack(records({ items, lines, rehearsals: failing, plans, avoidable }));
    expect(all.map(({ kind, worth }) => [kind, worth])).toEqual([
      ['miss', 1.25],
      // Twice missing.
      ['line', 2.5],
    ]);
    expect(all[1]?.letGo).toEqual([today]);
  });
});

describe('study settings', () => {
  it('knows the weekday of a day', () => {
    // 25 November 2026 is a Wednesday; 1 January 1970 was a Thursday.
    expect(weekdayOf(findIsoDay('2026-11-25')!)).toBe(2);
    expect(weekdayOf(0 as LocalDay)).toBe(3);
    expect(weekdayOf(-1 as LocalDay)).toBe(2);
  });

  it('rests on the weekdays chosen and on days marked by hand', () => {
    const stored = requireRecord('settings', {
      id: 'settings',
      theme: 'system',
      paperName: '',
      demo: false,
      started: true,
      restWeekdays: [6],
      bedtimeMinutes: 30,
    });
    const page = requireRecord('days', { id: 'd', day: 20_002, rest: true });
    const isRest = restDays(stored, [page]);
    expect(isRest(findIsoDay('2026-11-29')!)).toBe(true);
    expect(isRest(findIsoDay('2026-11-28')!)).toBe(false);
    expect(isRest(20_002 as LocalDay)).toBe(true);
    // Half past midnight is the end of the day before.
    expect(studySettings(stored).bedtimeMinutes).toBe(1_470);
  });
});
