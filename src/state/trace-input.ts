/** From stored records to what the engine traces. */
import type { Concept } from '../model/concept-map';
import type { Block, Item } from '../model/log';
import type { Reading, ReadingEvent } from '../model/study';
import { noonOf } from '../model/time';
import type { TraceConcept, TraceItem, TracePatch } from '../workers/trace-jobs';

/** When a block was sat: its start, else noon of its day (only ages in days matter). */
export function blockInstant(block: Block): number {
  return block.startedAt ?? noonOf(block.day);
}

/**
 * The concepts as the engine reads them. Links to concepts that are gone are
 * left out: the map may be edited while old links still name a deleted one.
 */
export function traceConcepts(concepts: ReadonlyMap<string, Concept>): TraceConcept[] {
  return Array.from(concepts.values(), (concept) => ({
    id: concept.id,
    systems: concept.systems,
    restsOn: concept.restsOn
      .filter((link) => concepts.has(link.concept))
      .map((link) => ({ id: link.concept, strength: link.strength })),
  }));
}

/** One item as the engine reads it; topics and causes that are gone are left out. */
export function traceItem(
  item: Item,
  block: Block,
  concepts: ReadonlyMap<string, Concept>,
): TraceItem {
  const topics = item.topics.filter((id) => concepts.has(id));
  return {
    id: item.id,
    at: blockInstant(block),
    missed: item.outcome === 'missed',
    system: item.system ?? block.system ?? onlySystemOf(topics, concepts),
    topics,
    causes: item.causes.filter((id) => concepts.has(id)),
    reason: item.reason,
  };
}

/** The one system that all topics are seen in, where there is exactly one. */
function onlySystemOf(
  topics: Item['topics'],
  concepts: ReadonlyMap<string, Concept>,
): string | undefined {
  let only: string | undefined;
  for (const topic of topics) {
    for (const system of concepts.get(topic)?.systems ?? []) {
      if (only !== undefined && system !== only) return undefined;
      only = system;
    }
  }
  return only;
}

/**
 * What each block's totals say beyond its itemised rows.
 *
 * A block of 40 with twelve misses written down counts 28 right. Where the
 * candidate wrote a total of misses and itemised fewer, the rest count as
 * misses of unknown topic. Of a block of which only misses are known nothing is
 * added: nobody knows how many items were right. Right items that the block counts
 * by organ system go to that system, as far as there are so many.
 */
export function unitemisedBlocks(
  blocks: Iterable<Block>,
  itemsByBlock: ReadonlyMap<string, readonly Item[]>,
): TracePatch['unitemised'] {
  const unitemised = [];
  for (const block of blocks) {
    if (block.onlyMisses) continue;
    const items = itemsByBlock.get(block.id) ?? [];
    const rest = Math.max(0, block.itemCount - items.length);
    if (rest === 0) continue;
    const itemisedMisses = items.filter((item) => item.outcome === 'missed').length;
    const missed = Math.min(rest, Math.max(0, (block.missedCount ?? 0) - itemisedMisses));
    const at = blockInstant(block);
    let right = rest - missed;
    for (const { system, count } of block.rightBySystem ?? []) {
      const counted = Math.min(right, count);
      if (counted > 0) unitemised.push({ at, system, right: counted, missed: 0 });
      right -= counted;
    }
    if (right + missed > 0) unitemised.push({ at, system: block.system, right, missed });
  }
  return unitemised;
}

/** Readings read, with the concepts they cover as their main matter. */
export function readingsRead(
  events: Iterable<ReadingEvent>,
  readings: ReadonlyMap<string, Reading>,
): TracePatch['readings'] {
  return Array.from(events, (event) => ({
    at: event.at,
    concepts: readings.get(event.reading)?.main ?? [],
  }));
}
