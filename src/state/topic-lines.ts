/** Topics of a block's items, as pasted: an item number and its topics on each line. */
import type { ConceptId } from '../model/ids';
import { topicMatcher, type NamedConcept, type RememberedMatch } from '../model/match-topics';

export interface TopicLines {
  /** By item number; a number named twice has the topics of both lines. */
  readonly topics: ReadonlyMap<number, readonly ConceptId[]>;
  /** What does not come in, with its line from 1. */
  readonly faults: readonly { readonly line: number; readonly message: string }[];
}

/** Cells of a results table that say how an item ended, and so name no topic. */
const outcomeWords = new Set(
  'right,wrong,missed,miss,correct,incorrect,guessed,guessed right,yes,no,true,false,x,1,0'.split(
    ',',
  ),
);

/**
 * Reads lines such as "12, Anion gap" or rows copied from a spreadsheet. The first cell
 * is the item's number; every other cell may name topics. A first line without a number
 * is a header.
 *
 * @param itemCount numbers go from 1 to this
 *
 * @example
 * parseTopicLines('4\tAnion gap', 40, concepts, []).topics; // Map { 4 => ['anion-gap'] }
 */
export function parseTopicLines(
  text: string,
  itemCount: number,
  concepts: readonly NamedConcept[],
  remembered: readonly RememberedMatch[],
): TopicLines {
  const matcher = topicMatcher(concepts, remembered);
  const topics = new Map<number, readonly ConceptId[]>();
  const faults: { line: number; message: string }[] = [];
  const lines = text.split(/\r\n|\r|\n/);
  for (const [index, line] of lines.entries()) {
    if (line.trim() === '') continue;
    const parted = /^\s*"?(\d{1,4})"?\s*[\t,;:.)\s]\s*(.+)$/.exec(line);
    const number = Number(parted?.[1]);
    if (!parted) {
      const header = index === 0 && !/^\s*\d/.test(line);
      if (!header) fault(index, 'Begin the line with the item number, then its topic.');
      continue;
    }
    if (number < 1 || number > itemCount) {
      fault(index, `This block has items 1 to ${itemCount}; the line says ${number}.`);
      continue;
    }
    const found: ConceptId[] = [...(topics.get(number) ?? [])];
    for (const cell of parted[2]!.split('\t')) {
      if (outcomeWords.has(cell.trim().toLowerCase())) continue;
      const match = matcher.matchCell(cell.trim().replace(/^"(.*)"$/, '$1'));
      found.push(...match.concepts);
      for (const name of match.names) {
        if (name.kind === 'unmatched' && name.folded !== '' && !outcomeWords.has(name.folded))
          fault(index, `“${name.text}” is not on the map: add it there, or use its name.`);
        if (name.kind === 'ambiguous')
          fault(index, `“${name.text}” fits several concepts: write the full name of one.`);
      }
    }
    if (found.length > 0) topics.set(number, [...new Set(found)]);
  }
  return { topics, faults };

  function fault(index: number, message: string): void {
    faults.push({ line: index + 1, message });
  }
}
