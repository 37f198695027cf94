import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseRecord, recordKinds, type RecordKind } from '../../../src/model/records';

const stamp = { origin: 'quay', revision: { quay: 1 }, changedAt: 1_000, deleted: false };

/** One sound record of each kind, with every field that may be left out. */
const sound: Record<RecordKind, Record<string, unknown>> = {
  disciplines: { id: 'mechanics', name: 'Mechanics', stamp },
  systems: { id: 'deck', name: 'Deck', shortName: 'Dk', stamp },
  concepts: {
    id: 'pump',
    name: 'Pump',
    aliases: ['bilge pump', 'sucker'],
    covers: 'How it lifts water.',
    disciplines: ['mechanics'],
    systems: ['deck'],
    restsOn: [{ concept: 'seal', strength: 0.6 }, { concept: 'valve' }],
    mnemonic: 'Lift, shut, lift.',
    pictures: ['sketch'],
    stamp,
  },
  blocks: {
    id: 'dawn',
    day: 20_480,
    startedAt: 5_000,
    itemCount: 40,
    missedCount: 9,
    minutesGiven: 60,
    minutesUsed: 57.5,
    timed: true,
    mixed: false,
    system: 'deck',
    source: 'own collection',
    changedToRight: 2,
    rightBySystem: [{ system: 'deck', count: 12 }],
    reviewMinutes: 90,
    stamp,
  },
  items: {
    id: 'a',
    block: 'dawn',
    position: 7,
    outcome: 'missed',
    system: 'deck',
    topics: ['pump'],
    causes: ['seal'],
    reason: 'not-known',
    missingPiece: 'The seal wears first.',
    optionTurns: [{ option: 'B', turn: 'if it were dry' }],
    seconds: 71,
    chosen: 'B',
    key: 'D',
    reference: 'p-7',
    pictures: ['sketch', 'photo'],
    stamp,
  },
  notes: {
    id: 'n',
    title: 'Seals',
    text: 'Wear.\nLeak.',
    concepts: ['seal'],
    disciplines: [],
    systems: ['deck'],
    pictures: ['sketch'],
    stamp,
  },
  readings: {
    id: 'manual',
    title: 'Pump manual',
    source: 'shelf',
    locator: 'pp. 3-9',
    minutes: 25,
    pages: 7,
    words: 2_800,
    progress: 0.4,
    again: true,
    rating: 'much',
    kind: 'text',
    main: ['seal'],
    touched: ['pump'],
    stamp,
  },
  readingEvents: { id: 'r', reading: 'manual', at: 9_000, minutes: 31, stamp },
  looks: { id: 'l', item: 'a', line: 's', at: 9_500, outcome: 'not-yet', stamp },
  lines: {
    id: 's',
    text: 'seal < valve',
    concepts: ['seal'],
    seconds: 4,
    kind: 'formula',
    heading: 'Pumps',
    pinned: true,
    banned: false,
    timesNeeded: 2,
    stamp,
  },
  days: {
    id: 'd',
    day: 20_481,
    sleepHours: 7.5,
    activityMinutes: 30,
    rest: false,
    mood: 4,
    stamp,
  },
  settings: {
    id: 'settings',
    theme: 'dark',
    paperName: 'Harbour paper',
    paperDay: 20_600,
    demo: false,
    started: true,
    questionKey: false,
    tutorialMinutes: 15,
    wordsPerMinute: 24.5,
    paceSeconds: 90,
    paperItems: 280,
    looksMinutes: 15,
    looksBySystem: true,
    readingMinutes: 40,
    planHours: 3.5,
    planStartMinutes: 1_080,
    bedtimeMinutes: 1_380,
    restWeekdays: [6],
    stamp,
  },
  topicMatches: { id: 'm', folded: 'bilgepump', concepts: ['pump'], stamp },
  columnMappings: {
    id: 'cm',
    name: 'harbour table',
    headers: ['No', 'Result', 'Remark'],
    fields: ['position', 'outcome', ''],
    stamp,
  },
  pictures: {
    id: 'p',
    hash: '0123456789abcdef'.repeat(4),
    type: 'image/webp',
    width: 640,
    height: 411,
    byteCount: 32_017,
    alt: 'A seal, worn on one side.',
    stamp,
  },
  noteVersions: { id: 'v', note: 'n', at: 7_000, title: 'Seals', text: 'Wear.', stamp },
  keptSearches: { id: 'k', name: 'worn seals', query: 'seal worn kind=notes', stamp },
  rehearsals: {
    id: 're',
    at: 11_000,
    seconds: 812,
    manner: 'typed',
    text: 'seal < valve',
    lines: [{ line: 's', share: 0.75 }],
    stamp,
  },
  plans: {
    id: 'pl',
    day: 20_482,
    minutes: 45,
    pinned: ['manual'],
    refused: ['chart'],
    letGo: ['a'],
    letGoLines: ['s'],
    stamp,
  },
  dismissals: { id: 'di', about: 'missing-link', subjects: ['pump', 'seal'], stamp },
  otherVersions: { id: 'o', kind: 'notes', record: 'n', content: '{"id":"n"}', stamp },
};

/** The record with the value at a dotted path replaced. */
function broken(kind: RecordKind, path: string, value: unknown): unknown {
  const record = structuredClone(sound[kind]);
  const keys = path.split('.');
  let at: Record<string, unknown> = record;
  for (const key of keys.slice(0, -1)) at = at[key] as Record<string, unknown>;
  at[keys.at(-1)!] = value;
  return record;
}

function faultsOf(kind: RecordKind, input: unknown) {
  const checked = parseRecord(kind, input);
  return checked.kind === 'rejected' ? checked.faults : [];
}

describe('parseRecord', () => {
  it.each(recordKinds)('takes a sound record of %s over as it is', (kind) => {
    expect(parseRecord(kind, sound[kind])).toEqual({ kind: 'ok', value: sound[kind] });
  });

  it.each(recordKinds)('names the id and the stamp of %s when they are missing', (kind) => {
    const rest = Object.entries(sound[kind]).filter(([name]) => name !== 'id' && name !== 'stamp');
    expect(
      faultsOf(kind, Object.fromEntries(rest))
        .map(({ path }) => path)
        .sort(),
    ).toEqual(['id', 'stamp']);
  });

  it.each([
    ['concepts', 'name', '   ', 'name is empty'],
    ['concepts', 'name', 'x'.repeat(201), 'name is longer than 200 characters'],
    ['concepts', 'aliases.1', 7, 'need text for alias'],
    ['concepts', 'restsOn.0.strength', 0, 'a link strength must be above 0'],
    ['concepts', 'restsOn.0.strength', 1.1, 'a link strength is at most 1'],
    ['concepts', 'restsOn.1.concept', '', 'the concept id is empty'],
    ['blocks', 'day', 1.5, 'need a whole day number'],
    ['blocks', 'day', 999_999, 'the day lies after 2200'],
    ['blocks', 'itemCount', -1, 'items cannot be negative'],
    ['blocks', 'itemCount', 501, 'items is at most 500'],
    ['blocks', 'missedCount', 2.5, 'missed must be a whole number'],
    ['blocks', 'minutesUsed', 1_441, 'minutes used is at most 1,440 (a day)'],
    ['blocks', 'timed', 'yes', 'need yes or no for timed'],
    ['items', 'position', 0, 'item numbers begin at 1'],
    ['items', 'outcome', 'wrong', 'the outcome is one of right, guessed-right, missed'],
    ['items', 'optionTurns.0.turn', 3, 'need text'],
    ['items', 'block', '__proto__', '"__proto__" cannot be a block id'],
    ['readings', 'minutes', NaN, 'need a number for minutes'],
    ['readings', 'kind', 'song', 'the kind is one of text, video, questions'],
    ['readingEvents', 'at', 'noon', 'need a time in milliseconds'],
    ['looks', 'outcome', 'perhaps', 'the outcome is had-it or not-yet'],
    ['days', 'sleepHours', 25, 'sleep hours is at most 24'],
    ['settings', 'theme', 'sepia', 'the theme is one of system, light, dark'],
    ['topicMatches', 'folded', '', 'folded is empty'],
    ['columnMappings', 'headers.1', 3, 'need text'],
    ['pictures', 'hash', 'ABC', 'need a SHA-256 of 64 hexadecimal digits'],
    ['pictures', 'type', 'image/svg+xml', 'the picture is one of PNG, JPEG, WebP'],
    ['pictures', 'width', 0, 'need at least 1'],
    ['noteVersions', 'at', 'noon', 'need a time in milliseconds'],
    ['keptSearches', 'name', '', 'name is empty'],
    ['rehearsals', 'manner', 'sung', 'the manner is typed or paper'],
    ['plans', 'pinned.0', '', 'the reading id is empty'],
    ['dismissals', 'about', '', 'about is empty'],
    ['otherVersions', 'content', 1, 'need text'],
  ] as const)('names the field that is wrong: %s %s = %j', (kind, path, value, message) => {
    expect(faultsOf(kind, broken(kind, path, value))).toEqual([{ path, message }]);
  });

  it.each([
    ['stamp.revision.quay', 0],
    ['stamp.revision.quay', 1.5],
    ['stamp.changedAt', 'today'],
    ['stamp.deleted', 1],
    ['stamp.origin', ''],
  ])('names the part of the stamp that is wrong: %s = %j', (path, value) => {
    expect(faultsOf('notes', broken('notes', path, value)).map((fault) => fault.path)).toEqual([
      path,
    ]);
  });

  it('names every field that is wrong, not only the first', () => {
    const input = { ...sound.items, position: 0, outcome: 'wrong', topics: ['pump', ''] };
    expect(faultsOf('items', input).map(({ path }) => path)).toEqual([
      'position',
      'outcome',
      'topics.1',
    ]);
  });

  it.each([null, undefined, 7, 'pump', [], true])(
    'rejects %j as a whole, with a path that is empty or that of a field',
    (input) => {
      expect(parseRecord('concepts', input).kind).toBe('rejected');
      expect(faultsOf('concepts', input).length).toBeGreaterThan(0);
    },
  );

  it('makes one line of a name and takes control characters out of it', () => {
    const checked = parseRecord('systems', { ...sound.systems, name: ' Main\u0000\n deck\t' });
    expect(checked).toMatchObject({ kind: 'ok', value: { name: 'Main deck' } });
  });

  it('leaves fields out that it does not know', () => {
    const checked = parseRecord('looks', { ...sound.looks, colour: 'red' });
    expect(checked).toEqual({ kind: 'ok', value: sound.looks });
  });

  it('answers any input of any kind without throwing', () => {
    fc.assert(
      fc.property(fc.constantFrom(...recordKinds), fc.anything(), (kind, input) => {
        expect(['ok', 'rejected']).toContain(parseRecord(kind, input).kind);
      }),
      { numRuns: 400, seed: 41 },
    );
  });

  it('takes what it has checked once over unchanged a second time', () => {
    fc.assert(
      fc.property(fc.constantFrom(...recordKinds), fc.string(), (kind, text) => {
        const fields = Object.entries(sound[kind]).map(([name, value]) => [
          name,
          typeof value === 'string' ? value + text : value,
        ]);
        const once = parseRecord(kind, Object.fromEntries(fields));
        if (once.kind === 'ok') expect(parseRecord(kind, once.value)).toEqual(once);
      }),
      { numRuns: 300, seed: 42 },
    );
  });
});
