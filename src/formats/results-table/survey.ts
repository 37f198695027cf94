/**
 * The first look over a whole table: what single rows cannot tell (the order of
 * day and month, what a mark means), and what has to be asked.
 */
import { fileNote, plural, type FileNote } from '../file-fault';
import type { LocalDay } from '../../model/time';
import { columnsOf, type ColumnMapping } from './columns';
import { dayOrderOf, parseDateCell, type DateReading, type DayOrder } from './dates';
import { senseOfHeader } from './fields';
import { readOutcomeWord, type OutcomeReading } from './outcome-words';
import { remembering } from './remembering';
import type { ImportAnswers, ImportQuestion } from './plan-types';
import type { Table } from './table';
import type { TableRow } from './table-rows';

export interface Survey {
  readonly questions: readonly ImportQuestion[];
  readonly notes: readonly FileNote[];
  readonly dayOrder: DayOrder;
  /** The date in a cell; looks each text up once. */
  readonly readDate: (cell: string) => DateReading;
  readonly readOutcome: (cell: string) => OutcomeReading;
  readonly fixedDay: LocalDay | undefined;
  readonly markMeans: 'right' | 'missed';
  readonly crossMeans: 'right' | 'missed';
  /** Undefined when an empty cell says nothing. */
  readonly blankMeans: 'right' | 'missed' | undefined;
}

/** Examples shown with a question. */
const mostExamples = 4;

export function surveyTable(table: Table, mapping: ColumnMapping, answers: ImportAnswers): Survey {
  const readDate = remembering(parseDateCell);
  const readOutcome = remembering(readOutcomeWord);
  const rows = table.rows.filter((row) => !repeatsHeader(table, row));
  const dates = surveyDates(table, rows, mapping, answers, readDate);
  const outcomes = surveyOutcomes(table, rows, mapping, answers, readOutcome);
  return {
    ...dates,
    ...outcomes,
    readDate,
    readOutcome,
    questions: [...outcomes.questions, ...dates.questions],
    notes: [...dates.notes, ...outcomes.notes],
  };
}

/** A header row that stands among the rows again, as in files joined end to end. */
export function repeatsHeader(table: Table, { cells }: TableRow): boolean {
  return table.hasHeader && cells.every((cell, i) => cell.trim() === table.header[i]);
}

/** The outcome of an item by the option chosen, where both columns are there and no other says. */
export function outcomeFromOptions(mapping: ColumnMapping): boolean {
  return (
    columnsOf(mapping, 'outcome').length === 0 &&
    columnsOf(mapping, 'chosen').length > 0 &&
    columnsOf(mapping, 'key').length > 0
  );
}

function surveyDates(
  table: Table,
  rows: readonly TableRow[],
  mapping: ColumnMapping,
  answers: ImportAnswers,
  readDate: (cell: string) => DateReading,
): Pick<Survey, 'questions' | 'notes' | 'dayOrder' | 'fixedDay'> {
  const column = columnsOf(mapping, 'date')[0];
  if (column === undefined) {
    const questions: ImportQuestion[] = answers.day === undefined ? [{ kind: 'day' }] : [];
    return { questions, notes: [], dayOrder: 'day-first', fixedDay: answers.day };
  }
  const questions: ImportQuestion[] = [];
  const notes: FileNote[] = [];
  const name = table.header[column] ?? '';
  const examples = new Set<string>();
  const serialRows: number[] = [];
  const shortYearRows: number[] = [];
  let emptyBelow = 0;
  let anyDate = false;
  const readings: DateReading[] = [];
  for (const { row, cells } of rows) {
    const cell = cells[column] ?? '';
    if (cell.trim() === '') {
      if (anyDate) emptyBelow += 1;
      continue;
    }
    const reading = readDate(cell);
    readings.push(reading);
    anyDate ||= reading.kind !== 'none';
    if (reading.kind === 'ordered' && examples.size < mostExamples) examples.add(cell.trim());
    if (reading.kind === 'serial') serialRows.push(row);
    else if (reading.kind !== 'none' && !/\d{4}/.test(cell)) shortYearRows.push(row);
  }

  const shown = dayOrderOf(readings);
  const settled = shown === 'day-first' || shown === 'month-first' ? shown : answers.dayOrder;
  if (shown === 'ambiguous' || shown === 'mixed') {
    if (!settled) {
      const mixed = shown === 'mixed';
      questions.push({ kind: 'dayOrder', column: name, examples: [...examples], mixed });
    }
  } else if (shown !== 'any') {
    const order = shown === 'day-first' ? 'day, month, year' : 'month, day, year';
    notes.push(fileNote('note', `Dates were read as ${order}: some of them fit no other order.`));
  }
  if (emptyBelow > 0 && answers.emptyDates === undefined) {
    questions.push({ kind: 'emptyDates', column: name, rows: emptyBelow });
  }
  if (serialRows.length > 0) {
    const message = `${plural(serialRows.length, 'date')} stood as a spreadsheet’s day number and ${serialRows.length === 1 ? 'was' : 'were'} read as such: check the days.`;
    notes.push(fileNote('warning', message, serialRows));
  }
  if (shortYearRows.length > 0) {
    const message = `${plural(shortYearRows.length, 'date')} had a year of two digits, read as 20…`;
    notes.push(fileNote('note', message, shortYearRows));
  }
  return { questions, notes, dayOrder: settled ?? 'day-first', fixedDay: undefined };
}

function surveyOutcomes(
  table: Table,
  rows: readonly TableRow[],
  mapping: ColumnMapping,
  answers: ImportAnswers,
  readOutcome: (cell: string) => OutcomeReading,
): Pick<Survey, 'questions' | 'notes' | 'markMeans' | 'crossMeans' | 'blankMeans'> {
  const column = columnsOf(mapping, 'outcome')[0];
  if (column === undefined) {
    const questions: ImportQuestion[] = outcomeFromOptions(mapping)
      ? []
      : [{ kind: 'outcome-column' }];
    return {
      questions,
      notes: [],
      markMeans: 'right',
      crossMeans: 'missed',
      blankMeans: undefined,
    };
  }
  const header = table.header[column] ?? '';
  const sense = table.hasHeader ? senseOfHeader(header) : 'neutral';
  const counts = { says: 0, yes: 0, no: 0, tick: 0, cross: 0, blank: 0, unknown: 0 };
  const examples = new Set<string>();
  for (const { cells } of rows) {
    const cell = cells[column] ?? '';
    const reading = readOutcome(cell);
    counts[reading.kind === 'mark' ? reading.mark : reading.kind] += 1;
    if (reading.kind === 'mark' || reading.kind === 'cross') {
      if (examples.size < mostExamples) examples.add(cell.trim());
    }
  }
  const questions: ImportQuestion[] = [];
  const notes: FileNote[] = [];

  // "Correct: x, (empty), x": a tick mark or a cross? Nothing in the column tells.
  const crossesAlone =
    sense === 'right' &&
    counts.cross > 0 &&
    counts.says + counts.yes + counts.no + counts.tick === 0;
  const marks = counts.yes + counts.no > 0 || crossesAlone;
  const ask = marks && (sense === 'neutral' || crossesAlone);
  const markMeans = ask ? answers.markMeans : sense === 'missed' ? 'missed' : 'right';
  if (!markMeans) questions.push({ kind: 'markMeans', column: header, examples: [...examples] });

  const sorts = [counts.yes, counts.no, counts.tick, counts.cross].filter((count) => count > 0);
  const marksOnly = counts.says === 0 && counts.unknown === 0 && sorts.length === 1;
  let blankMeans: Survey['blankMeans'];
  if (marksOnly && counts.blank > 0) {
    if (answers.blankMeans) {
      blankMeans = answers.blankMeans === 'leave-out' ? undefined : answers.blankMeans;
    } else if (sense === 'missed' && counts.no === 0) {
      blankMeans = 'right';
      const message = `Only misses are marked in “${header}”; ${plural(counts.blank, 'row')} without a mark ${counts.blank === 1 ? 'was' : 'were'} read as right.`;
      notes.push(fileNote('warning', message));
    } else {
      questions.push({ kind: 'blankMeans', column: header, rows: counts.blank });
    }
  }
  return {
    questions,
    notes,
    markMeans: markMeans ?? 'right',
    crossMeans: crossesAlone ? (markMeans ?? 'right') : 'missed',
    blankMeans,
  };
}
