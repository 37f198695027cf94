/** From a pasted list or a file to readings to be added. */
import { decodeTextFile, readReadingList, type ReadingListFault } from '../formats';
import type { Concept } from '../model/concept-map';
import type { ConceptId } from '../model/ids';
import type { Reading } from '../model/study';
import { ConceptNames } from './concept-names';
import type { Draft } from './workspace.svelte';

export interface PlannedReadings {
  readonly drafts: readonly Omit<Draft<'readings'>, 'id'>[];
  readonly faults: readonly ReadingListFault[];
  /** Rows left out because a reading of the same title and locator is there already. */
  readonly known: number;
  /** Names of concepts that are not on the map. */
  readonly unknownConcepts: readonly string[];
}

/** What a list would add to the readings there are. */
export function planReadingList(
  text: string,
  concepts: Iterable<Concept>,
  existing: Iterable<Reading>,
): PlannedReadings {
  const { rows, faults } = readReadingList(text);
  const names = new ConceptNames(concepts);
  const keyOf = ({ title, locator }: { title: string; locator: string }) =>
    `${title.toLowerCase()}\n${locator.toLowerCase()}`;
  const there = new Set(Array.from(existing, keyOf));
  const unknown = new Set<string>();
  const idsOf = (written: readonly string[]): ConceptId[] => {
    const ids = new Set<ConceptId>();
    for (const name of written) {
      const concept = names.findExact(name);
      if (concept) ids.add(concept.id);
      else unknown.add(name);
    }
    return [...ids];
  };
  const drafts: Omit<Draft<'readings'>, 'id'>[] = [];
  let known = 0;
  for (const row of rows) {
    const key = keyOf(row);
    if (there.has(key)) {
      known += 1;
      continue;
    }
    there.add(key);
    drafts.push({
      title: row.title,
      source: row.source,
      locator: row.locator,
      minutes: row.minutes ?? 0,
      ...(row.pages !== undefined && { pages: row.pages }),
      ...(row.words !== undefined && { words: row.words }),
      kind: row.kind,
      main: idsOf(row.main),
      touched: idsOf(row.touched),
    });
  }
  return { drafts, faults, known, unknownConcepts: [...unknown] };
}

/** The text of a file, or why it cannot be read. */
export function readListFile(
  name: string,
  bytes: Uint8Array,
):
  | { readonly kind: 'read'; readonly text: string }
  | { readonly kind: 'failed'; readonly message: string } {
  const decoded = decodeTextFile(bytes);
  return decoded.kind === 'text'
    ? { kind: 'read', text: decoded.text }
    : { kind: 'failed', message: `${name}: ${decoded.message} ${decoded.mend}` };
}
