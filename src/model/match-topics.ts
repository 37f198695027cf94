/** Finds the concepts that the topic names of a file mean. */
import type { Concept } from './concept-map';
import { foldName } from './fold-name';
import type { ConceptId } from './ids';
import { nameIndex, type NameIndex } from './nearest-names';
import type { TopicMatch } from './settings';

export type NamedConcept = Pick<Concept, 'id' | 'name' | 'aliases'>;
export type RememberedMatch = Pick<TopicMatch, 'folded' | 'concepts'>;

/** What one name means. `text` is the name as typed, `folded` its key. */
export type NameMatch =
  | {
      readonly kind: 'matched';
      readonly text: string;
      readonly folded: string;
      readonly concepts: readonly ConceptId[];
      readonly by: 'remembered' | 'name' | 'alias';
    }
  /** Remembered as a name that the candidate leaves out. */
  | { readonly kind: 'left-out'; readonly text: string; readonly folded: string }
  /** Several concepts carry the name; one of them has to be chosen by hand. */
  | {
      readonly kind: 'ambiguous';
      readonly text: string;
      readonly folded: string;
      readonly candidates: readonly ConceptId[];
    }
  | { readonly kind: 'unmatched'; readonly text: string; readonly folded: string };

export interface TopicCell {
  /** Every concept found in the cell, each once, in the order of the text. */
  readonly concepts: readonly ConceptId[];
  /** Each name of the cell with what became of it. */
  readonly names: readonly NameMatch[];
}

export interface TopicSuggestion {
  readonly concept: ConceptId;
  /** The concept's own name, also when an alias was near. */
  readonly name: string;
  /** 0 to 1; 1 is the same name. */
  readonly closeness: number;
}

export interface TopicMatcher {
  /** One name, not split. */
  matchName(text: string): NameMatch;
  /** A cell that may hold several names. */
  matchCell(text: string): TopicCell;
  /** The nearest concepts to a name, closest first, each once. */
  suggest(text: string, most?: number): readonly TopicSuggestion[];
}

/**
 * A matcher of topic names over the concepts of a map.
 *
 * A remembered match comes first (it was made by hand), then a concept's name,
 * then an alias. A cell is one name when the whole of it is known; otherwise it
 * is split at ";", "|" and line ends, and a part that is not known at commas.
 * Cells are remembered, so a file that repeats its topics costs little.
 *
 * @param remembered matches whose concepts are no longer in the map are passed over
 *
 * @example
 * const matcher = topicMatcher([{ id, name: 'Acid-base balance', aliases: ['ABB'] }], []);
 * matcher.matchCell('acid base balance; Gout').names.map((name) => name.kind); // ["matched", "unmatched"]
 */
export function topicMatcher(
  concepts: readonly NamedConcept[],
  remembered: readonly RememberedMatch[],
): TopicMatcher {
  const byName = new Map<string, ConceptId[]>();
  const byAlias = new Map<string, ConceptId[]>();
  for (const concept of concepts) {
    addTo(byName, foldName(concept.name), concept.id);
    for (const alias of concept.aliases) addTo(byAlias, foldName(alias), concept.id);
  }
  const known = new Set(concepts.map((concept) => concept.id));
  const byHand = new Map(remembered.map((match) => [match.folded, match.concepts]));
  const cells = new Map<string, TopicCell>();
  let nearest: NameIndex<NamedConcept> | undefined;

  function matchName(typed: string): NameMatch {
    const text = typed.replace(/\s+/g, ' ').trim();
    const folded = foldName(text);
    if (folded === '') return { kind: 'unmatched', text, folded };

    const chosen = byHand.get(folded);
    if (chosen?.length === 0) return { kind: 'left-out', text, folded };
    const still = chosen?.filter((id) => known.has(id)) ?? [];
    if (still.length > 0)
      return { kind: 'matched', text, folded, concepts: still, by: 'remembered' };

    for (const [table, by] of [
      [byName, 'name'],
      [byAlias, 'alias'],
    ] as const) {
      const found = table.get(folded);
      if (found?.length === 1) return { kind: 'matched', text, folded, concepts: found, by };
      if (found) return { kind: 'ambiguous', text, folded, candidates: found };
    }
    return { kind: 'unmatched', text, folded };
  }

  function matchCell(text: string): TopicCell {
    const before = cells.get(text);
    if (before) return before;
    const names = namesIn(text);
    const found = new Set(names.flatMap((name) => (name.kind === 'matched' ? name.concepts : [])));
    const cell: TopicCell = { concepts: [...found], names };
    cells.set(text, cell);
    return cell;
  }

  function namesIn(text: string): readonly NameMatch[] {
    const whole = matchName(text);
    if (whole.kind !== 'unmatched') return [whole];
    return partsOf(text, /[;|\r\n]/).flatMap((part) => {
      const match = matchName(part);
      if (match.kind !== 'unmatched') return [match];
      return partsOf(part, /,/).map(matchName);
    });
  }

  function suggest(text: string, most = 5): readonly TopicSuggestion[] {
    nearest ??= nameIndex(
      concepts.flatMap((concept) =>
        [concept.name, ...concept.aliases].map((name) => [foldName(name), concept] as const),
      ),
    );
    const best = new Map<ConceptId, TopicSuggestion>();
    // Name and aliases of one concept may all be near: ask for more, keep each concept once.
    for (const { value, closeness } of nearest.findNearest(foldName(text), most * 4)) {
      if (!best.has(value.id))
        best.set(value.id, { concept: value.id, name: value.name, closeness });
    }
    return [...best.values()].slice(0, most);
  }

  return { matchName, matchCell, suggest };
}

/** The parts that hold a letter or digit; "A;;B;" has two. */
function partsOf(text: string, separator: RegExp): readonly string[] {
  return text.split(separator).filter((part) => /[\p{L}\p{N}]/u.test(part));
}

function addTo(table: Map<string, ConceptId[]>, folded: string, id: ConceptId): void {
  if (folded === '') return;
  const ids = table.get(folded);
  if (!ids) table.set(folded, [id]);
  else if (!ids.includes(id)) ids.push(id);
}
