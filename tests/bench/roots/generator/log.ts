/** Writes simulated items down as the log that the methods read. */
import type { TraceConcept, TraceLog } from '../../../../src/engine/index';
import type { Candidate } from './candidate';
import { uniformStream } from './random';
import { drawItems, type SimulatedItem } from './sitting';
import { truthOf, type Truth } from './truth';

/** How much is written down: every item, only the misses, or the misses with totals by system. */
export const loggings = ['itemised', 'misses-only', 'misses-only-by-system'] as const;
export type Logging = (typeof loggings)[number];

/** One simulated candidate after a number of items: what the methods see, and the truth. */
export interface Case {
  readonly log: TraceLog;
  readonly truth: Truth;
  /** Concept -> misses it truly caused, of those after any healing. */
  readonly trueCauseCounts: Float64Array;
  readonly itemCount: number;
  readonly missCount: number;
}

const dayMs = 86_400_000;
/** 2025-01-06, a Monday; any fixed day would do. */
const firstDayMs = 20_094 * dayMs;

export const conceptId = (concept: number): string => `c${concept}`;
export const conceptIndex = (id: string): number => Number(id.slice(1));

/** The case of a candidate after `itemCount` items. */
export function caseOf(candidate: Candidate, itemCount: number, logging: Logging): Case {
  const items = drawItems(candidate, itemCount);
  const trueCauseCounts = new Float64Array(candidate.map.conceptCount);
  items.forEach(({ trueCause }, index) => {
    if (trueCause === undefined || trueCause < 0) return;
    // The ceiling knows the healing too: what a healed gap cost before it is no part of the truth.
    if (candidate.isHealed[trueCause] && 2 * index < itemCount) return;
    trueCauseCounts[trueCause]!++;
  });
  return {
    log: writeLog(candidate, items, logging),
    truth: truthOf(candidate),
    trueCauseCounts,
    itemCount,
    missCount: items.filter((item) => item.missed).length,
  };
}

function writeLog(
  candidate: Candidate,
  items: readonly SimulatedItem[],
  logging: Logging,
): TraceLog {
  const { recipe, map } = candidate;
  const atOf = (index: number) => firstDayMs + Math.floor((index * dayMs) / recipe.itemsPerDay);
  const systemOf = (item: SimulatedItem) => `s${map.systems[item.topics[0]!]![0]}`;
  const healedAt = atOf(Math.ceil(items.length / 2));
  return {
    now: atOf(items.length),
    concepts: writeMap(candidate),
    items: items.flatMap((item, index) =>
      item.missed || logging === 'itemised'
        ? [
            {
              id: `i${index}`,
              at: atOf(index),
              missed: item.missed,
              system: systemOf(item),
              topics: item.loggedTopics.map(conceptId),
              causes: item.namedCause === undefined ? [] : [conceptId(item.namedCause)],
            },
          ]
        : [],
    ),
    unitemised:
      logging === 'itemised' ? [] : writeTotals(recipe.blockSize, items, logging, atOf, systemOf),
    readings: recipe.readingsLogged
      ? [
          {
            at: healedAt,
            concepts: map.levels.flatMap((_, c) => (candidate.isHealed[c] ? [conceptId(c)] : [])),
          },
        ]
      : [],
  };
}

/** The map as the methods see it: links without a stated strength, some of them missing. */
function writeMap(candidate: Candidate): TraceConcept[] {
  const { map, recipe, seed } = candidate;
  const uniform = uniformStream(seed, 'missing links');
  return map.restsOn.map((links, concept) => ({
    id: conceptId(concept),
    systems: map.systems[concept]!.map((system) => `s${system}`),
    restsOn: links
      .filter(() => uniform() >= recipe.missingLinkShare)
      .map((below) => ({ id: conceptId(below) })),
  }));
}

/** Right items by block, and by system where the source of the items tells it. */
function writeTotals(
  blockSize: number,
  items: readonly SimulatedItem[],
  logging: Logging,
  atOf: (index: number) => number,
  systemOf: (item: SimulatedItem) => string,
): { at: number; system?: string; right: number; missed: number }[] {
  const totals = [];
  for (let start = 0; start < items.length; start += blockSize) {
    const rightBySystem = new Map<string | undefined, number>();
    for (const item of items.slice(start, start + blockSize)) {
      if (item.missed) continue;
      const system = logging === 'misses-only-by-system' ? systemOf(item) : undefined;
      rightBySystem.set(system, (rightBySystem.get(system) ?? 0) + 1);
    }
    for (const [system, right] of rightBySystem) {
      const at = atOf(start);
      totals.push(
        system === undefined ? { at, right, missed: 0 } : { at, system, right, missed: 0 },
      );
    }
  }
  return totals;
}
