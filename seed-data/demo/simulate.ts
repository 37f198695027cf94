/**
 * Simulates the demo's blocks: which items came, which were missed, and why.
 *
 * Deliberately not the model that traces them: whether an item needs a deeper
 * concept is drawn item by item, and a needed gap fails or does not.
 */
import { randomFrom, type Random } from '../../src/engine/numeric/random';
import type { Pieces, SeedConcept } from './read-seed';
import * as scenario from './scenario';

export interface DemoFile {
  readonly format: 'hypocentre-demo';
  readonly version: 1;
  readonly about: string;
  readonly blocks: readonly object[];
  readonly items: readonly object[];
}

const about =
  'Invented: a ship’s medical technician moving ashore prepares for an invented paper. Made by seed-data/generate.ts; do not edit by hand.';

export interface SimulationSize {
  readonly seed: number;
  readonly blockCount: number;
}

/** The demo log for one map and its missing pieces; the same seed gives the same file. */
export function simulateDemo(
  concepts: readonly SeedConcept[],
  pieces: Pieces,
  { seed, blockCount }: SimulationSize = scenario,
): DemoFile {
  const random = randomFrom(seed);
  const byId = new Map(concepts.map((concept) => [concept.id, concept]));
  for (const { concept } of scenario.plantedGaps) {
    if (!byId.has(concept)) throw new RangeError(`simulateDemo: "${concept}" is not on the map`);
  }
  const pickTopic = topicPicker(concepts, byId, random);
  const say = pieceTeller(pieces, random);
  const blocks: object[] = [];
  const items: object[] = [];

  for (let index = 0; index < blockCount; index += 1) {
    const day = Math.floor(((index + 0.5) * scenario.weeks * 7) / blockCount);
    const week = Math.floor(day / 7);
    const id = `demo-block-${index + 1}`;
    const timed = random.uniform() < 0.25 + (0.65 * index) / blockCount;
    const minutes = Math.round(timed ? 54 + 6 * random.uniform() : 60 + 25 * random.uniform());
    const hurriedFrom = scenario.itemsInBlock * (1 - scenario.hurriedTail);

    for (let position = 1; position <= scenario.itemsInBlock; position += 1) {
      const topic = pickTopic();
      const system = choose(topic.systems, random);
      const cause = failureOf(topic, byId, week, random);
      const hurried =
        timed && position > hurriedFrom && random.uniform() < scenario.hurriedMissChance;
      const slipped = random.uniform() < scenario.slipChance;
      const missed = cause !== undefined || hurried || slipped;
      const shared = { id: `${id}-${position}`, block: id, position, system, topics: [topic.id] };
      if (!missed) {
        items.push({ ...shared, outcome: 'right', causes: [], missingPiece: '', optionTurns: [] });
        continue;
      }
      const source = cause ?? topic.id;
      items.push({
        ...shared,
        outcome: 'missed',
        causes: nameCause(cause, topic.id, concepts, random),
        reason: reasonFor(cause !== undefined, hurried, random),
        ...say(source),
      });
    }
    blocks.push({
      id,
      daysBefore: scenario.weeks * 7 - day,
      itemCount: scenario.itemsInBlock,
      minutesGiven: 60,
      minutesUsed: minutes,
      timed,
      mixed: true,
      source: choose(scenario.sources, random),
      reviewMinutes: Math.round(90 + 120 * random.uniform()),
    });
  }
  return { format: 'hypocentre-demo', version: 1, about, blocks, items };
}

function choose<T>(values: readonly T[], random: Random): T {
  const value = values[Math.floor(random.uniform() * values.length)];
  if (value === undefined) throw new RangeError('choose: got an empty list; need at least one');
  return value;
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
): () => SeedConcept {
  const planted = new Set(scenario.plantedGaps.map(({ concept }) => concept));
  const leansOnGap = (concept: SeedConcept) =>
    concept.restsOn.some(
      (link) =>
        planted.has(link.concept) ||
        byId.get(link.concept)?.restsOn.some((next) => planted.has(next.concept)),
    );
  const rested = new Set(concepts.flatMap(({ restsOn }) => restsOn.map((link) => link.concept)));
  const shuffled = concepts
    .map((concept) => ({ concept, key: random.uniform() }))
    .sort((a, b) => a.key - b.key);
  let total = 0;
  const ends = shuffled.map(({ concept }, rank) => {
    const lean = leansOnGap(concept) ? scenario.leaning : 1;
    total += (rank + 8) ** -0.8 * (rested.has(concept.id) ? 0.35 : 1) * lean;
    return total;
  });
  return () => {
    const target = random.uniform() * total;
    const index = ends.findIndex((end) => end >= target);
    return (shuffled[index] ?? shuffled[0]!).concept;
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
    if (!known || known.pieces.length === 0) return { missingPiece: '', optionTurns: [] };
    const turn = told.get(concept) ?? Math.floor(random.uniform() * known.pieces.length);
    told.set(concept, turn + 1);
    const optionTurns = known.optionTurns.filter(() => random.uniform() < 0.3);
    return { missingPiece: known.pieces[turn % known.pieces.length] ?? '', optionTurns };
  };
}
