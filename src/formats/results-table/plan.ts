/** What an import of a mapped table would do; nothing is stored here. */
import { topicMatcher, type TopicMatcher } from '../../model/match-topics';
import { foldName } from '../../model/fold-name';
import type { LocalDay } from '../../model/time';
import { fileNote, plural, type FileNote } from '../file-fault';
import type { ColumnMapping } from './columns';
import { blockGrouping } from './group-blocks';
import { findInLog } from './in-log';
import { onlyMissesNotes } from './only-misses';
import type {
  AmbiguousTopic,
  BlockDraft,
  ImportContext,
  ImportPlan,
  ImportQuestions,
  ImportTotals,
  PlanProgress,
  UnmatchedTopic,
} from './plan-types';
import { rowReader, type RowReading } from './read-row';
import { surveyTable } from './survey';
import type { Table } from './table';
import type { RowFault } from './table-rows';

/** Rows between two reports of progress. */
const stepRows = 500;
/** Unmatched names that get suggestions at once; the rest are few rows each. */
export const suggestedNames = 100;

/**
 * The plan of an import, or the questions that have to be answered first.
 *
 * @example
 * planImport(table, guessColumns(table), { concepts, systems, remembered: [] });
 */
export function planImport(
  table: Table,
  mapping: ColumnMapping,
  context: ImportContext,
): ImportPlan | ImportQuestions {
  const steps = planImportSteps(table, mapping, context);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/**
 * As `planImport`, yielding progress every few hundred rows, so that a worker
 * can report, and stop by not asking for more. Linear in the number of cells.
 */
export function* planImportSteps(
  table: Table,
  mapping: ColumnMapping,
  context: ImportContext,
): Generator<PlanProgress, ImportPlan | ImportQuestions, void> {
  const rowsTotal = table.rows.length;
  yield { rowsDone: 0, rowsTotal };
  const survey = surveyTable(table, mapping, context.answers ?? {});
  if (survey.questions.length > 0) return { kind: 'questions', questions: survey.questions };

  const matcher = topicMatcher(context.concepts, context.remembered);
  const readRow = rowReader(table, mapping, context, survey, matcher);
  const grouping = blockGrouping(table, mapping, context);
  const rejected: RowFault[] = [...table.rejected];
  const taken: RowReading[] = [];
  /** Rows with which an item that was not missed may be lost. */
  const lost: number[] = table.rejected.map(({ row }) => row);

  let rowsDone = 0;
  for (const row of table.rows) {
    const result = readRow(row);
    const fault = result.kind === 'item' ? grouping.add(result) : result.fault;
    if (fault) rejected.push(fault);
    else if (result.kind === 'item') taken.push(result);
    if (fault && (result.kind === 'item' ? result.outcome !== 'missed' : result.mayBeRight)) {
      lost.push(row.row);
    }
    rowsDone += 1;
    if (rowsDone % stepRows === 0) yield { rowsDone, rowsTotal };
  }
  const grouped = grouping.close();
  rejected.push(...grouped.rejected);
  yield { rowsDone, rowsTotal };

  const found = findInLog(grouped.blocks, context.log);
  const bringInAll = context.answers?.inLog === 'bring-in';
  const blocks = bringInAll ? grouped.blocks : found.rest;
  const rowsInLog = bringInAll ? 0 : found.rows.length;

  const dropped = new Set(grouped.rejected.map((fault) => fault.row));
  if (!bringInAll) for (const { row } of found.rows) dropped.add(row);
  const kept = taken.filter((reading) => !dropped.has(reading.row.row));
  const leftOut = kept.flatMap((reading) => reading.leftOut);
  return {
    kind: 'plan',
    blocks,
    ...namesToMatch(kept, matcher),
    rejected: rejected.sort((a, b) => a.row - b.row),
    inLog: found.rows,
    leftOut: [...leftOut, ...grouped.leftOut].sort((a, b) => a.row - b.row),
    notes: [
      ...table.notes,
      ...survey.notes,
      ...grouped.notes,
      ...watchNotes(kept, context.today),
      ...onlyMissesNotes(blocks, lost),
    ],
    totals: totalsOf(table, blocks, rejected.length, rowsInLog),
  };
}

/** The letters say one thing and the result another. */
function contradictsOptions({ chosen, key, outcome }: RowReading): boolean {
  if (chosen === undefined || key === undefined) return false;
  return (chosen.toLowerCase() === key.toLowerCase()) === (outcome === 'missed');
}

/** Counts, over the rows that come in, the names that met no concept or system. */
function namesToMatch(
  readings: readonly RowReading[],
  matcher: TopicMatcher,
): Pick<ImportPlan, 'unmatched' | 'ambiguous' | 'unmatchedSystems'> {
  const unmatched = new Map<string, { name: string; rows: number; missedRows: number }>();
  const ambiguous = new Map<string, Omit<AmbiguousTopic, 'folded'>>();
  const systems = new Map<string, { name: string; rows: number }>();

  for (const { names, outcome, unmatchedSystem } of readings) {
    const seen = new Set<string>();
    for (const name of names) {
      if (name.kind === 'matched' || name.kind === 'left-out' || seen.has(name.folded)) continue;
      seen.add(name.folded);
      if (name.kind === 'unmatched') {
        const count = unmatched.get(name.folded) ?? { name: name.text, rows: 0, missedRows: 0 };
        count.rows += 1;
        if (outcome === 'missed') count.missedRows += 1;
        unmatched.set(name.folded, count);
      } else {
        const before = ambiguous.get(name.folded);
        ambiguous.set(name.folded, {
          name: before?.name ?? name.text,
          rows: (before?.rows ?? 0) + 1,
          candidates: name.candidates,
        });
      }
    }
    if (unmatchedSystem !== undefined) {
      const count = systems.get(foldName(unmatchedSystem)) ?? { name: unmatchedSystem, rows: 0 };
      count.rows += 1;
      systems.set(foldName(unmatchedSystem), count);
    }
  }

  const byRows = <T extends { readonly rows: number }>(list: readonly T[]) =>
    [...list].sort((a, b) => b.rows - a.rows);
  return {
    unmatched: byRows([...unmatched].map(([folded, count]) => ({ folded, ...count }))).map(
      (each, i): UnmatchedTopic => ({
        ...each,
        suggestions: i < suggestedNames ? matcher.suggest(each.name) : [],
      }),
    ),
    ambiguous: byRows([...ambiguous].map(([folded, each]) => ({ folded, ...each }))),
    unmatchedSystems: byRows([...systems.values()]),
  };
}

function watchNotes(
  readings: readonly RowReading[],
  today: LocalDay | undefined,
): readonly FileNote[] {
  const rowsWhere = (test: (reading: RowReading) => boolean) =>
    readings.filter(test).map((reading) => reading.row.row);
  const sayings: readonly (readonly [readonly number[], string])[] = [
    [
      rowsWhere(({ day }) => today !== undefined && day > today),
      'have a date after today; check the year and the order of day and month.',
    ],
    [rowsWhere((reading) => reading.unanswered), 'had no answer and count as missed.'],
    [
      rowsWhere((reading) => reading.formulaText),
      'hold text that begins like a spreadsheet formula; it is kept as plain text.',
    ],
    [
      rowsWhere(contradictsOptions),
      'give a result that the option chosen and the key contradict; the result counts.',
    ],
  ];
  return sayings.flatMap(([rows, saying]) => {
    if (rows.length === 0) return [];
    const text = rows.length === 1 ? singular(saying) : saying;
    return [fileNote('warning', `${plural(rows.length, 'row')} ${text}`, rows)];
  });
}

function singular(saying: string): string {
  return saying
    .replace(/ count as/, ' counts as')
    .replace(/^have /, 'has ')
    .replace(/^hold /, 'holds ')
    .replace(/^give /, 'gives ');
}

function totalsOf(
  table: Table,
  blocks: readonly BlockDraft[],
  rowsRejected: number,
  rowsInLog: number,
): ImportTotals {
  const totals = { right: 0, guessedRight: 0, missed: 0, itemsWithTopics: 0, missesWithCauses: 0 };
  let items = 0;
  for (const block of blocks) {
    for (const { content } of block.items) {
      items += 1;
      if (content.outcome === 'right') totals.right += 1;
      else if (content.outcome === 'guessed-right') totals.guessedRight += 1;
      else totals.missed += 1;
      if (content.topics.length > 0) totals.itemsWithTopics += 1;
      if (content.outcome === 'missed' && content.causes.length > 0) totals.missesWithCauses += 1;
    }
  }
  return {
    rowsRead: table.rows.length + table.rejected.length,
    rowsRejected,
    rowsInLog,
    blankRows: table.blankRows,
    blocks: blocks.length,
    items,
    ...totals,
  };
}
