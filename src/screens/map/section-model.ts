/** From the log in memory to what the map draws. */
import {
  findReach,
  layOutSection,
  noSystem,
  turned,
  type Neighbours,
  type Section,
} from '../../engine';
import type { Concept, OrganSystem } from '../../model/concept-map';
import type { Item } from '../../model/log';
import type { Picture } from '../../mapview/section-view-parts';
import type { RankedRoot } from '../../state/roots.svelte';
import { texts } from './texts';

export interface MapLinks {
  /** For each concept, the concepts it rests on. */
  readonly below: Neighbours;
  /** For each concept, the concepts that rest on it. */
  readonly above: Neighbours;
}

/** The links of the map, those to concepts that are gone left out. */
export function linksOf(concepts: ReadonlyMap<string, Concept>): MapLinks {
  const below = new Map<string, readonly string[]>(
    Array.from(concepts.values(), (concept) => [
      concept.id,
      concept.restsOn.map((link) => link.concept).filter((id) => concepts.has(id)),
    ]),
  );
  return { below, above: turned(below) };
}

/** Lays the map out; bars stay near where they were in the section before. */
export function sectionOf(
  concepts: ReadonlyMap<string, Concept>,
  systems: readonly OrganSystem[],
  links: MapLinks,
  rootOf: ReadonlyMap<string, RankedRoot>,
  before: Section | undefined,
): Section {
  return layOutSection(
    systems.map(({ id }) => id),
    Array.from(concepts.values(), (concept) => ({
      id: concept.id,
      systems: concept.systems,
      restsOn: links.below.get(concept.id) ?? [],
      traced: rootOf.get(concept.id)?.traced ?? 0,
    })),
    before,
  );
}

export function pictureOf(
  section: Section,
  concepts: ReadonlyMap<string, Concept>,
  systems: readonly OrganSystem[],
  rootOf: ReadonlyMap<string, RankedRoot>,
  pieces: ReadonlyMap<string, string>,
): Picture {
  const headOf = new Map(
    systems.map((system) => [system.id as string, system.shortName ?? system.name]),
  );
  return {
    section,
    heads: section.columns.map((id) =>
      id === noSystem ? texts.sectionModel.noSystemYet : (headOf.get(id) ?? id),
    ),
    concepts: section.bars.map(({ id }) => ({
      id,
      name: concepts.get(id)?.name ?? id,
      traced: rootOf.get(id)?.traced ?? 0,
      gapChance: rootOf.get(id)?.gapChance ?? 0,
      missingPiece: pieces.get(id) ?? '',
    })),
  };
}

/** The missing piece written last for each concept that was named as a cause or topic. */
export function lastPieces(items: Iterable<Item>): ReadonlyMap<string, string> {
  const pieces = new Map<string, { text: string; at: number; cause: boolean }>();
  for (const item of items) {
    if (item.outcome !== 'missed' || item.missingPiece === '') continue;
    for (const [ids, cause] of [
      [item.causes, true],
      [item.topics, false],
    ] as const) {
      for (const id of ids) {
        const known = pieces.get(id);
        const newer =
          !known ||
          (cause && !known.cause) ||
          (cause === known.cause && item.stamp.changedAt > known.at);
        if (newer) pieces.set(id, { text: item.missingPiece, at: item.stamp.changedAt, cause });
      }
    }
  }
  return new Map([...pieces].map(([id, { text }]) => [id, text]));
}

/** A concept with all above and below it. */
export function around(links: MapLinks, id: string): ReadonlySet<string> {
  return new Set([id, ...findReach(links.below, id), ...findReach(links.above, id)]);
}
