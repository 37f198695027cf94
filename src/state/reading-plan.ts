/** From stored readings and the ranking to the plan of an evening. */
import {
  compareSince,
  measurePace,
  planReadings,
  readingMinutes,
  type ReadingPace,
  type ReadingPlan,
  type SinceThen,
} from '../engine';
import type { Concept } from '../model/concept-map';
import type { Block, Item } from '../model/log';
import type { Reading, ReadingEvent } from '../model/study';
import { localDayOf, noonOf, type LocalDay } from '../model/time';
import type { RankedRoot } from './roots.svelte';

/** How far a reading covers a concept it is mainly about, and one it only touches. */
export const coverageDegrees = { main: 0.6, touched: 0.3 } as const;

/** A reading that was of little use covers half as much when it is read again (our choice). */
const littleUse = 0.5;

/** A concept with at least an even chance of being a gap is a likely one. */
export const likelyGap = 0.5;

export interface ReadingFacts {
  readonly reading: Reading;
  /** Minutes still to read; undefined where no length is known. */
  readonly minutesLeft: number | undefined;
  /** When it was last read. */
  readonly lastRead: ReadingEvent | undefined;
  /** Why it cannot be planned; undefined when it can. */
  readonly notPlanned: 'read' | 'no-length' | 'no-concept' | undefined;
}

/** The candidate's pace, from the readings whose minutes they wrote down. */
export function paceOf(
  readings: ReadonlyMap<string, Reading>,
  events: Iterable<ReadingEvent>,
): ReadingPace {
  const timed = [];
  for (const event of events) {
    const reading = readings.get(event.reading);
    if (!reading || !event.minutes) continue;
    timed.push({ pages: reading.pages, words: reading.words, tookMinutes: event.minutes });
  }
  return measurePace(timed);
}

/** What is known of each reading. */
export function readingFacts(
  readings: ReadonlyMap<string, Reading>,
  events: Iterable<ReadingEvent>,
  pace: ReadingPace,
): ReadingFacts[] {
  const lastOf = new Map<string, ReadingEvent>();
  for (const event of events) {
    const last = lastOf.get(event.reading);
    if (!last || event.at > last.at) lastOf.set(event.reading, event);
  }
  return Array.from(readings.values(), (reading): ReadingFacts => {
    const whole = readingMinutes(reading, pace);
    const lastRead = lastOf.get(reading.id);
    const minutesLeft =
      whole === undefined ? undefined : Math.max(1, whole * (1 - (reading.progress ?? 0)));
    let notPlanned: ReadingFacts['notPlanned'];
    if (lastRead && !reading.again) notPlanned = 'read';
    else if (minutesLeft === undefined) notPlanned = 'no-length';
    else if (reading.main.length + reading.touched.length === 0) notPlanned = 'no-concept';
    return { reading, minutesLeft, lastRead, notPlanned };
  });
}

/** Minutes of reading on a day: as written down, else as the whole reading is reckoned. */
export function minutesReadOn(
  day: LocalDay,
  events: Iterable<ReadingEvent>,
  readings: ReadonlyMap<string, Reading>,
  pace: ReadingPace,
  minutesEast: (at: number) => number,
): number {
  let minutes = 0;
  for (const event of events) {
    if (localDayOf(event.at, minutesEast(event.at)) !== day) continue;
    const reading = readings.get(event.reading);
    minutes += event.minutes ?? (reading && readingMinutes(reading, pace)) ?? 0;
  }
  return minutes;
}

export interface EveningInput {
  readonly facts: readonly ReadingFacts[];
  readonly roots: readonly RankedRoot[];
  readonly concepts: ReadonlyMap<string, Concept>;
  readonly budgetMinutes: number;
  readonly pinned: readonly string[];
  readonly refused: readonly string[];
}

/** The plan of an evening. */
export function planEvening(input: EveningInput): ReadingPlan {
  const worth = new Map(input.roots.map((root) => [root.conceptId, root.avoidable]));
  const pinned = new Set(input.pinned);
  const readings = input.facts.flatMap(({ reading, minutesLeft, notPlanned, lastRead }) => {
    if (minutesLeft === undefined || (notPlanned && !pinned.has(reading.id))) return [];
    const use = lastRead && reading.rating === 'little' ? littleUse : 1;
    const main = new Set<string>(reading.main);
    const touched = new Set(reading.touched.filter((concept) => !main.has(concept)));
    const at = (degree: number) => (concept: string) => ({ concept, degree: degree * use });
    const covers = [
      ...[...main].map(at(coverageDegrees.main)),
      ...[...touched].map(at(coverageDegrees.touched)),
    ];
    return [{ id: reading.id, minutes: minutesLeft, covers }];
  });
  const restsOn = new Map(
    Array.from(input.concepts.values(), ({ id, restsOn: links }) => [
      id,
      links.map(({ concept }) => concept),
    ]),
  );
  return planReadings({ ...input, readings, worth, restsOn });
}

/** Concepts that are likely gaps and that no reading is mainly about, most avoidable misses first. */
export function gapsWithoutReading(
  roots: readonly RankedRoot[],
  readings: Iterable<Reading>,
): RankedRoot[] {
  const covered = new Set<string>();
  for (const { main } of readings) for (const concept of main) covered.add(concept);
  return roots
    .filter(({ conceptId, gapChance }) => gapChance >= likelyGap && !covered.has(conceptId))
    .sort((a, b) => b.avoidable - a.avoidable);
}

/** Days after a reading at which its misses are looked at, and how far back they are compared. */
const daysAfter = 7;
const daysBefore = 56;

export interface ReadingSince {
  readonly event: ReadingEvent;
  readonly reading: Reading;
  /** Undefined: no item answered on one side, or nothing missed on either. */
  readonly since: SinceThen | undefined;
  readonly missesBefore: number;
  readonly itemsBefore: number;
  readonly missesSince: number;
  readonly itemsSince: number;
}

/**
 * For each reading read a week ago or longer (of each its last time), what the misses on its main
 * concepts did since: those that name one as topic or cause, against all items answered.
 */
export function readingsSince(
  today: LocalDay,
  readings: ReadonlyMap<string, Reading>,
  events: Iterable<ReadingEvent>,
  blocks: Iterable<Block>,
  items: Iterable<Item>,
  minutesEast: (at: number) => number,
): ReadingSince[] {
  const lastOf = new Map<string, ReadingEvent>();
  for (const event of events) {
    const last = lastOf.get(event.reading);
    if (!last || event.at > last.at) lastOf.set(event.reading, event);
  }
  const blockOf = new Map<string, Block>();
  // Of a block of which only misses are known nobody knows how many items were answered.
  for (const block of blocks) if (!block.onlyMisses) blockOf.set(block.id, block);
  const timeOf = (block: Block) => block.startedAt ?? noonOf(block.day);
  const misses = [...items].filter((item) => item.outcome === 'missed' && blockOf.has(item.block));

  const found: ReadingSince[] = [];
  for (const event of lastOf.values()) {
    const reading = readings.get(event.reading);
    const day = localDayOf(event.at, minutesEast(event.at));
    if (!reading || reading.main.length === 0 || today - day < daysAfter) continue;
    const main = new Set<string>(reading.main);
    const counts = { missesBefore: 0, itemsBefore: 0, missesSince: 0, itemsSince: 0 };
    const sideOf = (block: Block) => {
      if (timeOf(block) >= event.at) return 'since';
      return block.day >= day - daysBefore ? 'before' : undefined;
    };
    for (const block of blockOf.values()) {
      const side = sideOf(block);
      if (side === 'since') counts.itemsSince += block.itemCount;
      else if (side === 'before') counts.itemsBefore += block.itemCount;
    }
    for (const item of misses) {
      if (![...item.topics, ...item.causes].some((concept) => main.has(concept))) continue;
      const side = sideOf(blockOf.get(item.block)!);
      if (side === 'since') counts.missesSince += 1;
      else if (side === 'before') counts.missesBefore += 1;
    }
    found.push({
      event,
      reading,
      ...counts,
      since: compareSince(
        { misses: counts.missesBefore, items: counts.itemsBefore },
        { misses: counts.missesSince, items: counts.itemsSince },
      ),
    });
  }
  return found.sort((a, b) => b.event.at - a.event.at);
}
