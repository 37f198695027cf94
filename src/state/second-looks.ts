/** From stored records to what comes back, when, and in what order. */
import {
  levelDay,
  mixSystems,
  nextLook,
  secondsALook,
  type LevelledDay,
  type LookSubject,
  type SimulationInput,
} from '../engine';
import type { Plan } from '../model/kept-beside';
import type { Block, Item } from '../model/log';
import type { Look } from '../model/study';
import { localDayOf, type LocalDay } from '../model/time';
import type { StudySettings } from './study-settings';

/**
 * One thing that comes back. Today these are misses and lucky guesses; a line of the recall sheet that
 * keeps failing in rehearsals joins them as one more kind, with its own prompt and missing piece.
 */
export interface ComingBack extends LookSubject {
  readonly item: Item;
  readonly block: Block;
  readonly system: string | undefined;
  /** What holding it is worth beside the others. */
  readonly worth: number;
}

export interface LookRecords {
  readonly items: Iterable<Item>;
  readonly blocks: ReadonlyMap<string, Block>;
  readonly looks: Iterable<Look>;
  readonly plans: Iterable<Plan>;
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

/** Every miss that comes back, with its looks. Linear in the records. */
export function comingBack(records: LookRecords): ComingBack[] {
  const looksOf = new Map<string, { day: LocalDay; outcome: Look['outcome']; at: number }[]>();
  for (const { item, at, outcome } of records.looks) {
    const look = { day: localDayOf(at, records.minutesEast(at)), outcome, at };
    const list = looksOf.get(item);
    if (list) list.push(look);
    else looksOf.set(item, [look]);
  }
  // The last look of a day counts, so they are given in the order they were made.
  for (const list of looksOf.values()) list.sort((a, b) => a.at - b.at);
  const letGoOf = new Map<string, LocalDay[]>();
  for (const { day, letGo } of records.plans)
    for (const item of letGo ?? []) letGoOf.set(item, [...(letGoOf.get(item) ?? []), day]);

  const most = Math.max(1e-9, ...records.avoidable.values());
  const all: ComingBack[] = [];
  for (const item of records.items) {
    const block = records.blocks.get(item.block);
    if (!block || !hasSomethingToLookAt(item)) continue;
    const avoidable = [...item.topics, ...item.causes].map(
      (concept) => records.avoidable.get(concept) ?? 0,
    );
    all.push({
      id: item.id,
      since: block.day,
      looks: looksOf.get(item.id) ?? [],
      letGo: letGoOf.get(item.id),
      item,
      block,
      system: item.system ?? block.system,
      worth: leastWorth + Math.max(0, ...avoidable) / most,
    });
  }
  return all;
}

/** A miss with the day of its next look. */
export interface ScheduledLook extends ComingBack {
  readonly due: LocalDay;
  readonly gapDays: number;
}

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
    const next = over ? undefined : nextLook(subject, settings.paperDay);
    if (next) scheduled.push({ ...subject, due: next.day, gapDays: next.state.gapDays });
  }
  const lastDay =
    settings.paperDay === undefined ? undefined : ((settings.paperDay - 1) as LocalDay);
  const levelled = levelDay(scheduled, day, perDay, lastDay, madeToday);
  return { ...levelled, perDay, secondsALook: seconds, madeToday, scheduled };
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

/** What the simulation to paper day needs of the log; undefined without a paper day ahead. */
export function simulationInput(
  today: LocalDay,
  subjects: readonly ComingBack[],
  settings: StudySettings,
  lookTimes: readonly number[],
): Omit<SimulationInput, 'runs' | 'seed'> | undefined {
  const { paperDay } = settings;
  if (paperDay === undefined || paperDay <= today) return undefined;
  const perDay = Math.floor((settings.looksMinutes * 60) / secondsALook(lookTimes));
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
  subjects: readonly ComingBack[],
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
