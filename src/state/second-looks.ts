/** From stored records to what comes back, when, and in what order. */
import {
  failingLines,
  levelDay,
  mixSystems,
  nextLook,
  secondsALook,
  type LevelledDay,
  type LookSubject,
  type SimulationInput,
} from '../engine';
import type { Plan, Rehearsal } from '../model/kept-beside';
import type { Block, Item } from '../model/log';
import type { Line, Look } from '../model/study';
import { localDayOf, type Instant, type LocalDay } from '../model/time';
import type { StudySettings } from './study-settings';

/** A miss or a lucky guess that comes back. */
export interface MissComingBack extends LookSubject {
  readonly kind: 'miss';
  readonly item: Item;
  readonly block: Block;
  readonly system: string | undefined;
  /** What holding it is worth beside the others. */
  readonly worth: number;
}

/** A line of the recall sheet that keeps failing in rehearsals. */
export interface LineComingBack extends LookSubject {
  readonly kind: 'line';
  readonly line: Line;
  /** How much of it was there in its last rehearsal, 0 to 1. */
  readonly lastShare: number;
  readonly system: string | undefined;
  readonly worth: number;
}

/** One thing that comes back. */
export type ComingBack = MissComingBack | LineComingBack;

export interface LookRecords {
  readonly items: Iterable<Item>;
  readonly blocks: ReadonlyMap<string, Block>;
  readonly looks: Iterable<Look>;
  readonly plans: Iterable<Plan>;
  readonly lines: ReadonlyMap<string, Line>;
  readonly rehearsals: Iterable<Rehearsal>;
  /** Avoidable misses in 100 items, by concept; empty while nothing is traced. */
  readonly avoidable: ReadonlyMap<string, number>;
  /** Minutes the device's zone lies east of UTC on a day. */
  readonly minutesEast: (at: number) => number;
}

/** Worth of a miss on a concept that nothing is traced to; one on the top root is worth 1 more. */
const leastWorth = 0.25;

/** Whether an item has something to look at: a missing piece or an option turn. */
export function hasSomethingToLookAt(item: Item): boolean {
  return (
    item.outcome !== 'right' && (item.missingPiece.trim() !== '' || item.optionTurns.length > 0)
  );
}

/**
 * Every miss that comes back and every line that keeps failing, with their looks. A line counts from
 * the rehearsal in which it failed last, and is gone from here when it is there in the next one.
 * Linear in the records.
 */
export function comingBack(records: LookRecords): ComingBack[] {
  const looksOf = new Map<string, { day: LocalDay; outcome: Look['outcome']; at: number }[]>();
  for (const { item, line, at, outcome } of records.looks) {
    const of = item ?? line;
    if (of === undefined) continue;
    const look = { day: localDayOf(at, records.minutesEast(at)), outcome, at };
    const list = looksOf.get(of);
    if (list) list.push(look);
    else looksOf.set(of, [look]);
  }
  // The last look of a day counts, so they are given in the order they were made.
  for (const list of looksOf.values()) list.sort((a, b) => a.at - b.at);
  const letGoOf = new Map<string, LocalDay[]>();
  for (const { day, letGo = [], letGoLines = [] } of records.plans)
    for (const id of [...letGo, ...letGoLines]) letGoOf.set(id, [...(letGoOf.get(id) ?? []), day]);

  const most = Math.max(1e-9, ...records.avoidable.values());
  const worthOf = (concepts: readonly string[]) =>
    leastWorth + Math.max(0, ...concepts.map((id) => records.avoidable.get(id) ?? 0)) / most;
  const all: ComingBack[] = [];
  for (const item of records.items) {
    const block = records.blocks.get(item.block);
    if (!block || !hasSomethingToLookAt(item)) continue;
    all.push({
      kind: 'miss',
      id: item.id,
      since: block.day,
      looks: looksOf.get(item.id) ?? [],
      letGo: letGoOf.get(item.id),
      item,
      block,
      system: item.system ?? block.system,
      worth: worthOf([...item.topics, ...item.causes]),
    });
  }
  const compared = [...records.rehearsals].filter(({ lines }) => lines.length > 0);
  for (const { line: id, failedAt, lastShare, failures } of failingLines(compared)) {
    const line = records.lines.get(id);
    if (!line || line.text.trim() === '') continue;
    all.push({
      kind: 'line',
      id,
      since: localDayOf(failedAt as Instant, records.minutesEast(failedAt)),
      looks: (looksOf.get(id) ?? []).filter(({ at }) => at > failedAt),
      letGo: letGoOf.get(id),
      line,
      lastShare,
      system: undefined,
      // Each failure counts like a miss on its concepts (our choice): else a few lines would never
      // be reached before hundreds of misses.
      worth: failures * worthOf(line.concepts),
    });
  }
  return all;
}

/** What comes back, with the day of its next look. */
export type ScheduledLook = ComingBack & { readonly due: LocalDay; readonly gapDays: number };

export interface LooksToday extends LevelledDay<ScheduledLook> {
  /** Looks that the minutes of a day hold. */
  readonly perDay: number;
  readonly secondsALook: number;
  /** Made today already. */
  readonly madeToday: number;
  readonly scheduled: readonly ScheduledLook[];
}

/**
 * What comes back today, levelled to the minutes given, most useful first; nothing on paper day or
 * after it.
 */
export function looksOn(
  day: LocalDay,
  subjects: readonly ComingBack[],
  settings: StudySettings,
  lookTimes: readonly number[],
): LooksToday {
  const seconds = secondsALook(lookTimes);
  const perDay = Math.floor((settings.looksMinutes * 60) / seconds);
  const over = settings.paperDay !== undefined && day >= settings.paperDay;
  const scheduled: ScheduledLook[] = [];
  let madeToday = 0;
  for (const subject of subjects) {
    if (subject.looks.some((look) => look.day === day)) madeToday += 1;
    const next = over ? undefined : nextLook(forSchedule(subject), settings.paperDay);
    if (next) scheduled.push({ ...subject, due: next.day, gapDays: next.state.gapDays });
  }
  const lastDay =
    settings.paperDay === undefined ? undefined : ((settings.paperDay - 1) as LocalDay);
  const levelled = levelDay(scheduled, day, perDay, lastDay, madeToday);
  return { ...levelled, perDay, secondsALook: seconds, madeToday, scheduled };
}

/**
 * A subject as its next look is reckoned: a line that failed in its last rehearsal was not held that
 * day, so it comes back the next.
 */
function forSchedule(subject: ComingBack): LookSubject {
  if (subject.kind === 'miss') return subject;
  const failed = { day: subject.since, outcome: 'not-yet' } as const;
  return { ...subject, looks: [failed, ...subject.looks] };
}

/** The looks of a sitting in the order they are made. */
export function inSittingOrder(
  looks: readonly ScheduledLook[],
  bySystem: boolean,
): ScheduledLook[] {
  const systemOf = (look: ScheduledLook) => look.system;
  if (!bySystem) return mixSystems(looks, systemOf);
  return looks
    .map((look, k) => ({ look, k }))
    .sort((a, b) => (a.look.system ?? '~').localeCompare(b.look.system ?? '~') || a.k - b.k)
    .map(({ look }) => look);
}

/** Days just past from which "this pace" is taken. */
const paceDays = 14;
const newMissDays = 28;

/**
 * What the simulation to paper day needs of the log; undefined without a paper day ahead. It foretells
 * misses: the few lines that come back beside them are left out.
 */
export function simulationInput(
  today: LocalDay,
  everything: readonly ComingBack[],
  settings: StudySettings,
  lookTimes: readonly number[],
): Omit<SimulationInput, 'runs' | 'seed'> | undefined {
  const { paperDay } = settings;
  if (paperDay === undefined || paperDay <= today) return undefined;
  const perDay = Math.floor((settings.looksMinutes * 60) / secondsALook(lookTimes));
  const subjects = everything.filter(({ kind }) => kind === 'miss');
  let held = 0;
  let notHeld = 0;
  let fresh = 0;
  for (const { looks, since } of subjects) {
    for (const { outcome } of looks) {
      if (outcome === 'had-it') held += 1;
      else notHeld += 1;
    }
    if (since >= today - newMissDays && since < today) fresh += 1;
  }
  return {
    subjects,
    today,
    paperDay,
    perDay,
    keptShares: keptShares(today, subjects, paperDay, perDay),
    newMissesPerDay: fresh / newMissDays,
    heldBefore: held,
    notHeldBefore: notHeld,
  };
}

/** For each of the days just past, the share of its planned looks that were made; none before the first look. */
function keptShares(
  today: LocalDay,
  subjects: readonly LookSubject[],
  paperDay: LocalDay,
  perDay: number,
): number[] {
  const firstLook = Math.min(...subjects.flatMap(({ looks }) => looks.map(({ day }) => day)));
  const shares: number[] = [];
  for (let day = Math.max(firstLook, today - paceDays); day < today; day++) {
    let due = 0;
    let made = 0;
    for (const subject of subjects) {
      if (subject.since >= day) continue;
      if (subject.looks.some((look) => look.day === day)) made += 1;
      const before = { ...subject, looks: subject.looks.filter((look) => look.day < day) };
      const next = nextLook(before, paperDay);
      if (next && next.day <= day) due += 1;
    }
    const planned = Math.min(perDay, due);
    if (planned > 0) shares.push(Math.min(1, made / planned));
  }
  return shares;
}
