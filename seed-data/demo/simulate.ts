/**
 * Simulates the demo's blocks: which items came, which were missed, and why.
 *
 * Deliberately not the model that traces them: whether an item needs a deeper
 * concept is drawn item by item, and a needed gap fails or does not.
 */
import { drawNormal } from './normal';
import { randomFrom, type Random } from './random';
import { simulateDays } from './days';
import { between, choose, chooseByShare, minutesAbout } from './draw';
import type { Pieces, SeedConcept, SeedLine, SeedReading } from './read-seed';
import * as scenario from './scenario';
import { simulateLooks, simulateReadingEvents, simulateRehearsals, type LookedAt } from './study';

export interface DemoFile {
  readonly format: 'hypocentre-demo';
  readonly version: 2;
  readonly about: string;
  readonly paper: { readonly name: string; readonly daysAhead: number };
  readonly blocks: readonly object[];
  readonly items: readonly object[];
  readonly notes: readonly object[];
  readonly readingEvents: readonly object[];
  readonly looks: readonly object[];
  readonly lines: readonly object[];
  readonly rehearsals: readonly object[];
  readonly days: readonly object[];
}

const about =
  'Invented: a ship’s medical technician moving ashore prepares for an invented paper. Made by seed-data/generate.ts; do not edit by hand.';

export interface SimulationSize {
  readonly seed: number;
  readonly blockCount: number;
}

export interface DemoTexts {
  readonly pieces: Pieces;
  readonly readings: readonly SeedReading[];
  readonly notes: readonly object[];
  readonly lines: readonly SeedLine[];
}

/** The demo for one map and its texts; the same seed gives the same file. */
export function simulateDemo(
  concepts: readonly SeedConcept[],
  texts: DemoTexts,
  { seed, blockCount }: SimulationSize = scenario,
): DemoFile {
  // A stream of its own for each part: a new note or line does not change which items came.
  const days = simulateDays(randomFrom(seed + 1));
  const log = simulateLog(concepts, texts.pieces, days.sleptBefore, {
    random: randomFrom(seed),
    facts: randomFrom(seed + 2),
    words: randomFrom(seed + 6),
    blockCount,
  });
  return {
    format: 'hypocentre-demo',
    version: 2,
    about,
    paper: { name: 'Inter-Island Licence (invented)', daysAhead: scenario.paperDaysAhead },
    blocks: log.blocks,
    items: log.items,
    notes: texts.notes,
    readingEvents: simulateReadingEvents(texts.readings, randomFrom(seed + 3)),
    looks: simulateLooks(log.misses, randomFrom(seed + 4)),
    lines: texts.lines,
    rehearsals: simulateRehearsals(texts.lines, randomFrom(seed + 5)),
    days: days.logged,
  };
}

interface LogParts {
  /** For what came and what was missed. */
  readonly random: Random;
  /** For what says nothing about it: clocks, minutes, seconds. */
  readonly facts: Random;
  /** For what is written about a miss. */
  readonly words: Random;
  readonly blockCount: number;
}

function simulateLog(
  concepts: readonly SeedConcept[],
  pieces: Pieces,
  sleptBefore: (daysBefore: number) => number,
  { random, facts, words, blockCount }: LogParts,
): { blocks: object[]; items: object[]; misses: LookedAt[] } {
  const byId = new Map(concepts.map((concept) => [concept.id, concept]));
  for (const { concept } of scenario.plantedGaps) {
    if (!byId.has(concept)) throw new RangeError(`simulateDemo: "${concept}" is not on the map`);
  }
  const pickTopic = topicPicker(concepts, byId, random);
  const say = pieceTeller(pieces, words);
  const blocks: object[] = [];
  const items: object[] = [];
  const misses: LookedAt[] = [];

  for (let index = 0; index < blockCount; index += 1) {
    const day = Math.floor(((index + 0.5) * scenario.weeks * 7) / blockCount);
    const daysBefore = scenario.weeks * 7 - day;
    const week = Math.floor(day / 7);
    const progress = index / Math.max(1, blockCount - 1);
    const id = `demo-block-${index + 1}`;
    const timed = random.uniform() < 0.25 + (0.65 * index) / blockCount;
    const hour = chooseByShare(scenario.hours, facts);
    const minutes = minutesAbout(hour.minutes, hour.spread, facts);
    const oneSystem = facts.uniform() < between(scenario.oneSystemShare, progress);
    const system = oneSystem ? choose(pickTopic().systems, random) : undefined;
    const slip = scenario.slipChance * slipFactor(sleptBefore(daysBefore), minutes, progress);
    const hurriedFrom = scenario.itemsInBlock * (1 - scenario.hurriedTail);

    let seconds = 0;
    for (let position = 1; position <= scenario.itemsInBlock; position += 1) {
      const topic = pickTopic(system);
      const cause = failureOf(topic, byId, week, random);
      const hurried =
        timed && position > hurriedFrom && random.uniform() < scenario.hurriedMissChance;
      const slipped = random.uniform() < slip;
      const missed = cause !== undefined || hurried || slipped;
      const ranOut = hurried && cause === undefined;
      const taken = secondsOf(missed, timed, ranOut, facts);
      seconds += taken;
      const shared = {
        id: `${id}-${position}`,
        block: id,
        position,
        system: system ?? choose(topic.systems, random),
        topics: [topic.id],
        seconds: taken,
      };
      if (!missed) {
        const guessed = facts.uniform() < scenario.guessedChance;
        items.push({ ...shared, outcome: guessed ? 'guessed-right' : 'right' });
        continue;
      }
      items.push({
        ...shared,
        outcome: 'missed',
        causes: nameCause(cause, topic.id, concepts, random),
        reason: reasonFor(cause !== undefined, hurried, random),
        ...say(cause ?? topic.id),
      });
      misses.push({ id: shared.id, daysBefore, openOn: openOn(cause) });
    }
    blocks.push({
      id,
      daysBefore,
      minutes,
      itemCount: scenario.itemsInBlock,
      minutesGiven: 60,
      minutesUsed: timed ? Math.min(60, Math.round(seconds / 60)) : Math.round(seconds / 60),
      timed,
      mixed: !oneSystem,
      system,
      source: choose(scenario.sources, random),
      reviewMinutes: reviewMinutes(progress, facts),
      changedToRight: Math.floor(3.2 * facts.uniform() ** 1.5),
    });
  }
  return { blocks, items, misses };
}

/** Whether the concept under a miss is still missing some days before the demo is opened. */
function openOn(cause: string | undefined): (daysBefore: number) => boolean {
  const gap = scenario.plantedGaps.find(({ concept }) => concept === cause);
  return (daysBefore) => {
    const week = scenario.weeks - daysBefore / 7;
    return gap !== undefined && (gap.healedInWeek === undefined || week < gap.healedInWeek);
  };
}

function slipFactor(sleptHours: number, startMinutes: number, progress: number): number {
  const { anHourShort, restedHours, lateInTheDay, atTheEnd } = scenario.slipFactors;
  const late = startMinutes >= 20 * 60 ? lateInTheDay : 1;
  return (
    anHourShort ** (restedHours - sleptHours) *
    late *
    between({ first: 1, last: atTheEnd }, progress)
  );
}

function secondsOf(missed: boolean, timed: boolean, ranOut: boolean, facts: Random): number {
  const { seconds, logSpread, missFactor, timedFactor } = scenario.pace;
  const scattered = seconds * Math.exp(logSpread * drawNormal(facts));
  if (ranOut) return Math.round(5 + 15 * facts.uniform());
  return Math.round(scattered * (missed ? missFactor : 1) * (timed ? timedFactor : 1));
}

/** Review takes four hours an hour of block at first and about two with practice. */
function reviewMinutes(progress: number, facts: Random): number {
  return 5 * Math.round(between({ first: 46, last: 26 }, progress) * (0.8 + 0.4 * facts.uniform()));
}

/**
 * Draws topics by a power law over a shuffled list, foundations less often than
 * what rests on them, and what rests directly on a planted gap more often: this
 * candidate's paper leans on it.
 */
function topicPicker(
  concepts: readonly SeedConcept[],
  byId: ReadonlyMap<string, SeedConcept>,
  random: Random,
): (system?: string) => SeedConcept {
  const planted = new Set(scenario.plantedGaps.map(({ concept }) => concept));
  const first = scenario.plantedGaps[0]?.concept;
  const within2 = (concept: SeedConcept) => [
    ...concept.restsOn.map((link) => link.concept),
    ...concept.restsOn.flatMap((link) =>
      (byId.get(link.concept)?.restsOn ?? []).map((next) => next.concept),
    ),
  ];
  const leaningOf = (concept: SeedConcept) => {
    const below = within2(concept);
    if (below.some((id) => id === first)) return scenario.leaningOnFirst;
    return below.some((id) => planted.has(id)) ? scenario.leaning : 1;
  };
  const rested = new Set(concepts.flatMap(({ restsOn }) => restsOn.map((link) => link.concept)));
  const shuffled = concepts
    .map((concept) => ({ concept, key: random.uniform() }))
    .sort((a, b) => a.key - b.key);
  const weighted = shuffled.map(({ concept }, rank) => ({
    concept,
    share: (rank + 8) ** -0.8 * (rested.has(concept.id) ? 0.35 : 1) * leaningOf(concept),
  }));
  const bySystem = new Map<string, typeof weighted>();
  return (system) => {
    if (system === undefined) return chooseByShare(weighted, random).concept;
    const seen =
      bySystem.get(system) ?? weighted.filter(({ concept }) => concept.systems.includes(system));
    bySystem.set(system, seen);
    return chooseByShare(seen, random).concept;
  };
}

/** The gap that made this item fail, or undefined: walks down what the topic rests on. */
function failureOf(
  topic: SeedConcept,
  byId: ReadonlyMap<string, SeedConcept>,
  week: number,
  random: Random,
): string | undefined {
  const needed = new Set([topic.id]);
  let level = [topic];
  for (let depth = 0; depth < 3; depth += 1) {
    const next: SeedConcept[] = [];
    for (const concept of level) {
      for (const link of concept.restsOn) {
        const below = byId.get(link.concept);
        if (!below || needed.has(below.id)) continue;
        if (random.uniform() >= (link.strength ?? scenario.neededChance)) continue;
        needed.add(below.id);
        next.push(below);
      }
    }
    level = next;
  }
  for (const gap of scenario.plantedGaps) {
    const healed = gap.healedInWeek !== undefined && week >= gap.healedInWeek;
    if (!healed && needed.has(gap.concept) && random.uniform() < gap.failure) return gap.concept;
  }
  return undefined;
}

function nameCause(
  cause: string | undefined,
  topic: string,
  concepts: readonly SeedConcept[],
  random: Random,
): string[] {
  const draw = random.uniform();
  const { right, topic: byTopic, other } = scenario.naming;
  if (draw < right) return cause === undefined ? [] : [cause];
  if (draw < right + byTopic) return [topic];
  if (draw < right + byTopic + other) return [choose(concepts, random).id];
  return [];
}

function reasonFor(gap: boolean, hurried: boolean, random: Random): string {
  if (hurried && !gap) return 'out-of-time';
  const draw = random.uniform();
  if (gap) return draw < 0.65 ? 'not-known' : draw < 0.85 ? 'two-left' : 'not-recalled';
  if (draw < 0.3) return 'misread';
  if (draw < 0.5) return 'changed-from-right';
  if (draw < 0.7) return 'not-recalled';
  return draw < 0.85 ? 'two-left' : 'overthought';
}

/** Gives each miss a missing piece of its source, in turn; none where none is written. */
function pieceTeller(pieces: Pieces, random: Random) {
  const told = new Map<string, number>();
  return (concept: string) => {
    const known = pieces.get(concept);
    if (!known || known.pieces.length === 0) return {};
    const turn = told.get(concept) ?? Math.floor(random.uniform() * known.pieces.length);
    told.set(concept, turn + 1);
    const optionTurns = known.optionTurns.filter(() => random.uniform() < 0.3);
    return {
      missingPiece: known.pieces[turn % known.pieces.length] ?? '',
      ...(optionTurns.length > 0 ? { optionTurns } : {}),
    };
  };
}
