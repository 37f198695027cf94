/** From what was typed to what is shown. */
import { searchKinds, type SearchDocument, type SearchKind } from './document';
import { anyFilter, passes, type Filters } from './filters';
import type { LunrScore } from './lunr-scores';
import type { NamesTable } from './names-table';
import { nearestTo, wordAsWritten } from './nearest';
import { parseQuery } from './query';
import { rank } from './rank';
import { snippetOf, type Snippet } from './snippet';
import type { TextIndex } from './text-index';

export interface FoundDocument {
  readonly key: string;
  readonly kind: SearchKind;
  readonly title: Snippet;
  readonly snippet: Snippet | undefined;
  /** Names of linked concepts, where the words stand in those alone. */
  readonly linked: Snippet | undefined;
  readonly systems: readonly string[];
  readonly disciplines: readonly string[];
  readonly concepts: readonly string[];
  readonly day: number | undefined;
  readonly score: number;
}

export interface FoundGroup {
  readonly kind: SearchKind;
  readonly count: number;
  /** The best of them. */
  readonly first: readonly FoundDocument[];
}

/** What was looked through, and what would be found with less asked. */
export interface NothingFound {
  readonly searched: readonly { readonly kind: SearchKind; readonly count: number }[];
  /** Words of the log nearest to those typed. */
  readonly nearest: readonly string[];
  /** Results without the filters; 0 where there are none of either. */
  readonly withoutFilters: number;
  /** The same words without quotes and without what a minus leaves out, where that finds something. */
  readonly looser: { readonly typed: string; readonly count: number } | undefined;
}

export interface Found {
  readonly count: number;
  /** Groups in the order of their best result. */
  readonly groups: readonly FoundGroup[];
  /** Words typed that are nowhere as typed, and words of the log (as written) searched instead. */
  readonly mended: readonly { readonly typed: string; readonly instead: readonly string[] }[];
  /** Documents looked through, after the filters. */
  readonly searched: number;
  /** Only where nothing was found. */
  readonly nothing: NothingFound | undefined;
}

const snippetLength = 180;

/**
 * The results of a typed question, grouped by kind.
 *
 * @param most results shown of each kind
 */
export function find(
  index: TextIndex,
  names: NamesTable,
  typed: string,
  filters: Filters,
  most: number,
): Found {
  const ranking = rank(index, names, typed, filters, most);
  const rows = ranking.kinds.flatMap(({ first }) => first.map(({ row }) => row));
  const scores = index.lunrScores(rows, ranking.terms);
  const marks = new Set(ranking.terms.map(({ term }) => term));
  return {
    count: ranking.count,
    groups: ranking.kinds.map(({ kind, count, first }) => ({
      kind,
      count,
      first: first.map(({ row, factor }) => {
        const scored = scores.get(row);
        const score = (scored?.score ?? 0) * factor;
        return shown(index.documentAt(row)!, score, marks, scored?.fields);
      }),
    })),
    mended: ranking.mended.map((one) => ({
      typed: one.typed,
      instead: one.terms.map((term) => wordAsWritten(index, term)),
    })),
    searched: searchedOf(index, filters).reduce((sum, { count }) => sum + count, 0),
    nothing: ranking.count > 0 ? undefined : nothingFound(index, names, typed, filters),
  };
}

function shown(
  document: SearchDocument,
  score: number,
  marks: ReadonlySet<string>,
  fields: LunrScore['fields'] | undefined,
): FoundDocument {
  const text = [document.names.join(', '), document.text].filter((part) => part !== '').join('\n');
  const byLinkOnly = fields?.size === 1 && fields.has('links');
  return {
    key: document.key,
    kind: document.kind,
    title: snippetOf(document.title, marks, 300),
    snippet: text === '' ? undefined : snippetOf(text, marks, snippetLength),
    linked: byLinkOnly ? snippetOf(document.links, marks, snippetLength) : undefined,
    systems: document.systems,
    disciplines: document.disciplines,
    concepts: document.concepts,
    day: document.day,
    score,
  };
}

function searchedOf(index: TextIndex, filters: Filters): NothingFound['searched'] {
  const counts = new Map<SearchKind, number>();
  if (anyFilter(filters)) {
    for (const row of index.rows()) {
      const document = index.documentAt(row)!;
      if (!passes(document, filters)) continue;
      counts.set(document.kind, (counts.get(document.kind) ?? 0) + 1);
    }
  } else for (const kind of searchKinds) counts.set(kind, index.countOfKind(kind));
  return searchKinds.flatMap((kind) => {
    const count = counts.get(kind) ?? 0;
    return count > 0 ? [{ kind, count }] : [];
  });
}

function nothingFound(
  index: TextIndex,
  names: NamesTable,
  typed: string,
  filters: Filters,
): NothingFound {
  const countOf = (question: string, within: Filters) =>
    rank(index, names, question, within, 1).count;
  const { words, phrases, without } = parseQuery(typed);
  const strict = phrases.length > 0 || without.length > 0;
  const looser = [...words, ...phrases].join(' ');
  const looserCount = strict && looser !== '' ? countOf(looser, filters) : 0;
  return {
    searched: searchedOf(index, filters),
    nearest: nearestTo(index, typed),
    withoutFilters: anyFilter(filters) ? countOf(typed, {}) : 0,
    looser: looserCount > 0 ? { typed: looser, count: looserCount } : undefined,
  };
}
