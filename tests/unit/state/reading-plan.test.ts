import { describe, expect, it } from 'vitest';
import { generalPace } from '../../../src/engine/index';
import { parseRecord } from '../../../src/model/records';
import type { Reading, ReadingEvent } from '../../../src/model/study';
import { msPerDay, type LocalDay } from '../../../src/model/time';
import { planReadingList } from '../../../src/state/reading-import';
import {
  gapsWithoutReading,
  minutesReadOn,
  paceOf,
  planEvening,
  readingFacts,
  readingsSince,
} from '../../../src/state/reading-plan';
import type { RankedRoot } from '../../../src/state/roots.svelte';

const stamp = { origin: 'quay', revision: { quay: 1 }, changedAt: 1_000, deleted: false };
function requireRecord<K extends Parameters<typeof parseRecord>[0]>(kind: K, input: object) {
  const parsed = parseRecord(kind, { ...input, stamp });
  if (parsed.kind === 'rejected') throw new Error(JSON.stringify(parsed.faults));
  return parsed.value;
}
const reading = (id: string, changes: object = {}): Reading =>
  requireRecord('readings', {
    id,
    title: id,
    source: '',
    locator: '',
    minutes: 20,
    kind: 'text',
    main: ['pump'],
    touched: [],
    ...changes,
  });
const event = (id: string, readingId: string, day: number, minutes?: number): ReadingEvent =>
  requireRecord('readingEvents', {
    id,
    reading: readingId,
    at: day * msPerDay + msPerDay / 2,
    ...(minutes !== undefined && { minutes }),
  });
const mapOf = (...readings: Reading[]) => new Map(readings.map((each) => [each.id, each]));
const concept = (id: string, ...restsOn: string[]) =>
  requireRecord('concepts', {
    id,
    name: id,
    aliases: [],
    covers: '',
    disciplines: [],
    systems: [],
    restsOn: restsOn.map((each) => ({ concept: each })),
  });
const root = (conceptId: string, avoidable: number, gapChance: number) =>
  ({ conceptId, avoidable, gapChance }) as RankedRoot;

describe('readingFacts', () => {
  it('says what keeps a reading out of the plan, and how much of it is left', () => {
    const readings = mapOf(
      reading('whole'),
      reading('half', { progress: 0.5 }),
      reading('words', { minutes: 0, words: 2_380 }),
      reading('long ago'),
      reading('once more', { again: true }),
      reading('how long', { minutes: 0 }),
      reading('on what', { main: [] }),
    );
    const events = [event('e', 'long ago', 100), event('f', 'once more', 100)];
    const facts = readingFacts(readings, events, generalPace);
    expect(
      facts.map(({ reading: { id }, notPlanned, minutesLeft }) => [id, notPlanned, minutesLeft]),
    ).toEqual([
      ['whole', undefined, 20],
      ['half', undefined, 10],
      ['words', undefined, 10],
      ['long ago', 'read', 20],
      ['once more', undefined, 20],
      ['how long', 'no-length', undefined],
      ['on what', 'no-concept', 20],
    ]);
  });

  it('takes the pace from readings whose minutes were written down', () => {
    const readings = mapOf(reading('a', { words: 4_000 }), reading('b', { words: 2_000 }));
    const pace = paceOf(readings, [
      event('1', 'a', 90, 40),
      event('2', 'b', 91, 20),
      event('3', 'b', 92),
    ]);
    expect(pace).toMatchObject({ ownWords: true, wordsAMinute: 100 });
  });
});

describe('minutesReadOn', () => {
  it('adds up what was read on the day by the clock on the wall: as timed, else as reckoned', () => {
    const readings = mapOf(reading('timed'), reading('words', { minutes: 0, words: 2_380 }));
    const events = [
      event('a', 'timed', 5, 33),
      event('b', 'words', 5), // 2,380 words at 238 a minute
      event('c', 'timed', 4, 50),
      event('d', 'deleted since', 5),
    ];
    const on = (day: number, minutesEast = 0) =>
      minutesReadOn(day as LocalDay, events, readings, generalPace, () => minutesEast);
    expect([on(4), on(5), on(6)]).toEqual([50, 43, 0]);
    // Noon in Greenwich is past midnight, and so the next day, fourteen hours to the east.
    expect([on(5, 14 * 60), on(6, 14 * 60)]).toEqual([50, 43]);
  });
});

describe('planEvening', () => {
  const input = (...readings: Reading[]) => ({
    facts: readingFacts(mapOf(...readings), [], generalPace),
    roots: [root('pump', 4, 0.9), root('seal', 2, 0.9)],
    concepts: new Map(
      [concept('pump', 'seal'), concept('seal')].map((each) => [each.id as string, each]),
    ),
    budgetMinutes: 60,
    pinned: [] as string[],
    refused: [] as string[],
  });

  it('counts a main concept 60 % and a touched one 30 %, and reads foundations first', () => {
    const plan = planEvening(
      input(reading('pumps', { touched: ['seal', 'pump'] }), reading('seals', { main: ['seal'] })),
    );
    expect(plan.readings.map(({ id }) => id)).toEqual(['seals', 'pumps']);
    // 4 * 0.6 + 2 * (1 - 0.4 * 0.7)
    expect(plan.gain).toBeCloseTo(3.84, 12);
  });

  it('leaves out what cannot be planned and what is refused, and keeps what is pinned though it was read', () => {
    const readings = mapOf(reading('a'), reading('b'), reading('read'));
    const facts = readingFacts(readings, [event('e', 'read', 100)], generalPace);
    const plan = planEvening({ ...input(), facts, pinned: ['read'], refused: ['a'] });
    expect(plan.readings.map(({ id }) => id).sort()).toEqual(['b', 'read']);
  });
});

describe('gapsWithoutReading', () => {
  it('names likely gaps that nothing is mainly about, most avoidable first', () => {
    const roots = [
      root('pump', 4, 0.9),
      root('seal', 1, 0.6),
      root('valve', 2, 0.5),
      root('rope', 9, 0.4),
    ];
    const gaps = gapsWithoutReading(roots, [reading('a', { touched: ['valve'] })]);
    expect(gaps.map(({ conceptId }) => conceptId)).toEqual(['valve', 'seal']);
  });
});

describe('readingsSince', () => {
  it('compares misses on the main concepts before and since, a week after and not sooner', () => {
    const block = (id: string, day: number, changes: object = {}) =>
      requireRecord('blocks', { id, day, itemCount: 40, source: '', ...changes });
    const blocks = [
      block('long before', 900),
      block('before', 980),
      block('since', 1_002),
      block('only misses', 1_003, { onlyMisses: true }),
    ];
    const item = (id: string, blockId: string, changes: object = {}) =>
      requireRecord('items', {
        id,
        block: blockId,
        position: 1,
        outcome: 'missed',
        topics: [],
        causes: ['pump'],
        missingPiece: '',
        optionTurns: [],
        ...changes,
      });
    const items = [
      item('1', 'before'),
      item('2', 'before', { topics: ['pump'], causes: [] }),
      item('3', 'before', { outcome: 'right' }),
      item('4', 'since'),
      item('5', 'since', { causes: ['seal'] }),
      item('6', 'long before'),
      item('7', 'only misses'),
    ];
    const readings = mapOf(reading('a'), reading('fresh'));
    const events = [event('e', 'a', 1_000), event('f', 'fresh', 1_004), event('g', 'a', 990)];
    const found = readingsSince(1_008 as LocalDay, readings, events, blocks, items, () => 0);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({
      missesBefore: 2,
      itemsBefore: 40,
      missesSince: 1,
      itemsSince: 40,
      since: { before: 5, since: 2.5, verdict: 'could be luck' },
    });
  });
});

describe('planReadingList', () => {
  it('finds concepts by name, names those it does not find, and leaves out what is there already', () => {
    const planned = planReadingList(
      'title,locator,minutes,main\nPumps,p. 3,20,Pump; Mermaid\nTides,,10,\nTides,,10,\nKnots,,none,\n',
      [concept('Pump')],
      [reading('tides', { title: 'Tides' })],
    );
    expect(planned.drafts.map(({ title, main }) => [title, main])).toEqual([['Pumps', ['Pump']]]);
    expect(planned.known).toBe(2);
    expect(planned.unknownConcepts).toEqual(['Mermaid']);
    expect(planned.faults.map(({ row }) => row)).toEqual([5]);
  });
});
