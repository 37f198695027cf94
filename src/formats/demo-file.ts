/**
 * The demo's file, version 2: half a year of an invented candidate's log and study,
 * dated backwards from the day the demo is opened, so that it always ends yesterday.
 *
 * Every date in it is `daysBefore` (0 is the day of opening) and, where the hour
 * matters, `minutes` after local midnight. Fields that are most often empty are left out.
 */
import * as v from 'valibot';
import { rehearsalSchema } from '../model/kept-beside';
import { blockSchema, itemSchema } from '../model/log';
import { checkWith, type Checked } from '../model/records';
import { daySchema, lineSchema, lookSchema, noteSchema, readingEventSchema } from '../model/study';
import { lineOfText, shortText } from '../model/text';
import { instantOfLocal, localDaySchema, type Instant, type LocalDay } from '../model/time';

const wholeUpTo = (most: number) =>
  v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(most));
const daysBefore = wholeUpTo(3_650);
const minutes = wholeUpTo(1_439);

const dated = { daysBefore };
const timed = { daysBefore, minutes };

const itemContent = v.omit(itemSchema, ['stamp']).entries;

const demoFileSchema = v.object({
  format: v.literal('hypocentre-demo', 'this is not a demo file of Hypocentre'),
  version: v.literal(2, 'this version of Hypocentre reads demo files of version 2'),
  paper: v.object({ name: shortText('name'), daysAhead: wholeUpTo(3_650) }),
  blocks: v.array(
    v.object({
      ...v.omit(blockSchema, ['stamp', 'day', 'startedAt', 'reviewSince']).entries,
      ...dated,
      minutes: v.optional(minutes),
    }),
  ),
  items: v.array(
    v.object({
      ...itemContent,
      causes: v.optional(itemContent.causes, []),
      missingPiece: v.optional(lineOfText, ''),
      optionTurns: v.optional(itemContent.optionTurns, []),
    }),
  ),
  notes: v.array(v.omit(noteSchema, ['stamp'])),
  readingEvents: v.array(
    v.object({ ...v.omit(readingEventSchema, ['stamp', 'at']).entries, ...timed }),
  ),
  looks: v.array(v.object({ ...v.omit(lookSchema, ['stamp', 'at']).entries, ...timed })),
  lines: v.array(v.omit(lineSchema, ['stamp'])),
  rehearsals: v.array(v.object({ ...v.omit(rehearsalSchema, ['stamp', 'at']).entries, ...timed })),
  days: v.array(v.object({ ...v.omit(daySchema, ['stamp', 'day']).entries, ...dated })),
});

type DemoFile = v.InferOutput<typeof demoFileSchema>;
type OnDay<T> = Omit<T, 'daysBefore' | 'minutes'> & { day: LocalDay };
type AtInstant<T> = Omit<T, 'daysBefore' | 'minutes'> & { at: Instant };

export interface DemoContent {
  readonly paper: { readonly name: string; readonly day: LocalDay };
  readonly blocks: readonly (OnDay<DemoFile['blocks'][number]> & { startedAt?: Instant })[];
  readonly items: DemoFile['items'];
  readonly notes: DemoFile['notes'];
  readonly readingEvents: readonly AtInstant<DemoFile['readingEvents'][number]>[];
  readonly looks: readonly AtInstant<DemoFile['looks'][number]>[];
  readonly lines: DemoFile['lines'];
  readonly rehearsals: readonly AtInstant<DemoFile['rehearsals'][number]>[];
  readonly days: readonly OnDay<DemoFile['days'][number]>[];
}

/**
 * Checks unknown JSON into the demo's records, dated from the day it is opened.
 *
 * @param today the day on which `daysBefore: 0` falls
 * @param minutesEastOn the zone's offset on a day, in minutes, east positive
 */
export function parseDemoFile(
  input: unknown,
  today: LocalDay,
  minutesEastOn: (day: LocalDay) => number = () => 0,
): Checked<DemoContent> {
  const checked = checkWith(demoFileSchema, input);
  if (checked.kind === 'rejected') return checked;
  const { paper, blocks, items, notes, lines, days, ...file } = checked.value;

  const dayOf = (before: number) => v.parse(localDaySchema, today - before);
  const instantOf = (before: number, clock: number) => {
    const day = dayOf(before);
    return instantOfLocal(day, clock, minutesEastOn(day));
  };
  const atInstant = <T extends { daysBefore: number; minutes: number }>(records: readonly T[]) =>
    records.map(({ daysBefore, minutes, ...record }) => ({
      ...record,
      at: instantOf(daysBefore, minutes),
    }));

  return {
    kind: 'ok',
    value: {
      paper: { name: paper.name, day: dayOf(-paper.daysAhead) },
      blocks: blocks.map(({ daysBefore, minutes, ...block }) => ({
        ...block,
        day: dayOf(daysBefore),
        ...(minutes === undefined ? {} : { startedAt: instantOf(daysBefore, minutes) }),
      })),
      items,
      notes,
      readingEvents: atInstant(file.readingEvents),
      looks: atInstant(file.looks),
      lines,
      rehearsals: atInstant(file.rehearsals),
      days: days.map(({ daysBefore, ...day }) => ({ ...day, day: dayOf(daysBefore) })),
    },
  };
}
