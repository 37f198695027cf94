/** The log as peers read it: numbered concepts, closures, answered items. */
import type { TraceLog } from '../../../../src/engine/index';

export interface AnsweredItem {
  readonly topics: readonly number[];
  readonly missed: boolean;
}

export interface ItemTable {
  readonly conceptCount: number;
  /** Concept -> itself and all it rests on within three links, each with its least distance. */
  readonly closures: readonly (readonly { readonly concept: number; readonly links: number }[])[];
  readonly items: readonly AnsweredItem[];
  /** The named causes of each miss that has any. */
  readonly named: readonly (readonly number[])[];
}

/** As in the engine: further down, a link says too little. */
const deepestLinks = 3;

/**
 * Reads a log. Right items known by count only are spread evenly over the concepts that nothing
 * rests on (those of the system, where the total names one): peers need a topic for each item,
 * and this is what a plain spreadsheet would do.
 */
export function readItemTable(log: TraceLog): ItemTable {
  const indexOf = new Map(log.concepts.map((concept, index) => [concept.id, index]));
  const index = (id: string): number => {
    const found = indexOf.get(id);
    if (found === undefined) throw new RangeError(`readItemTable: got unknown concept ${id}`);
    return found;
  };
  const restsOn = log.concepts.map((concept) => concept.restsOn.map((link) => index(link.id)));
  const items: AnsweredItem[] = log.items.map((item) => ({
    topics: item.topics.map(index),
    missed: item.missed,
  }));
  return {
    conceptCount: log.concepts.length,
    closures: restsOn.map((_, concept) => closureOf(concept, restsOn)),
    items: [...items, ...spreadTotals(log, restsOn)],
    named: log.items.flatMap((item) =>
      item.missed && item.causes.length > 0 ? [item.causes.map(index)] : [],
    ),
  };
}

/** Breadth first, so each concept is met at its least distance; a visited set bounds the walk. */
function closureOf(
  start: number,
  restsOn: readonly (readonly number[])[],
): { concept: number; links: number }[] {
  const met = [{ concept: start, links: 0 }];
  const visited = new Set([start]);
  for (const { concept, links } of met) {
    if (links === deepestLinks) continue;
    for (const below of restsOn[concept]!) {
      if (visited.has(below)) continue;
      visited.add(below);
      met.push({ concept: below, links: links + 1 });
    }
  }
  return met;
}

function spreadTotals(log: TraceLog, restsOn: readonly (readonly number[])[]): AnsweredItem[] {
  const carried = new Set(restsOn.flat());
  const leaves = log.concepts.map((_, concept) => concept).filter((c) => !carried.has(c));
  const leavesBySystem = new Map<string | undefined, number[]>([[undefined, leaves]]);
  for (const leaf of leaves) {
    for (const system of log.concepts[leaf]!.systems) {
      leavesBySystem.set(system, [...(leavesBySystem.get(system) ?? []), leaf]);
    }
  }
  // One running place for each system, so that many small totals spread as evenly as one large.
  const next = new Map<string | undefined, number>();
  const spread: AnsweredItem[] = [];
  for (const { system, right, missed } of log.unitemised) {
    const pool = leavesBySystem.get(system) ?? leaves;
    let place = next.get(system) ?? 0;
    for (let answered = 0; answered < right + missed; answered++) {
      spread.push({ topics: [pool[place++ % pool.length]!], missed: answered < missed });
    }
    next.set(system, place);
  }
  return spread;
}
