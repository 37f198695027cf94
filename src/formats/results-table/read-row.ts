/** One row of a mapped table to an item's content, or to the reason why not. */
import type { ConceptId, SystemId } from '../../model/ids';
import type { MissReason, Outcome } from '../../model/log';
import type { NameMatch, TopicMatcher } from '../../model/match-topics';
import type { LocalDay } from '../../model/time';
import { rowFault, valueFault, type CellFault } from './cell-faults';
import { columnsOf, type ColumnMapping } from './columns';
import { findClockMinutes } from './dates';
import { resultFields, senseOfHeader, type ResultField } from './fields';
import { findSeconds } from './numbers';
import type { ImportContext } from './plan-types';
import { findReason } from './reason-words';
import { remembering } from './remembering';
import { longestName, rowCells } from './row-cells';
import {
  conceptsIn,
  findGuessed,
  outcomeByOptions,
  positionOf,
  systemFinder,
  within,
} from './row-values';
import { outcomeFromOptions, repeatsHeader, type Survey } from './survey';
import type { Table } from './table';
import type { RowFault, TableRow } from './table-rows';

export interface RowReading {
  readonly kind: 'item';
  readonly row: TableRow;
  readonly day: LocalDay;
  readonly minutes: number | undefined;
  readonly label: string;
  /** As in the file; the block decides on the final one. */
  readonly position: number | undefined;
  readonly outcome: Outcome;
  readonly unanswered: boolean;
  readonly topics: readonly ConceptId[];
  readonly causes: readonly ConceptId[];
  /** Every topic and cause name of the row with what became of it. */
  readonly names: readonly NameMatch[];
  readonly system: SystemId | undefined;
  readonly unmatchedSystem: string | undefined;
  readonly reason: MissReason | undefined;
  readonly missingPiece: string;
  readonly seconds: number | undefined;
  readonly chosen: string | undefined;
  readonly key: string | undefined;
  readonly reference: string | undefined;
  /** Cells that do not come in though the row does. */
  readonly leftOut: readonly RowFault[];
  /** True when a text of the row looks like a formula; it is kept as text. */
  readonly formulaText: boolean;
}

export interface RejectedRow {
  readonly kind: 'rejected';
  readonly fault: RowFault;
  /** True when an item that was not missed may be lost with the row. */
  readonly mayBeRight: boolean;
}

export type RowResult = RowReading | RejectedRow;

/** Longest option letter or word, as in the model. */
const longestOption = 20;
const longestSeconds = 86_400;

/**
 * A reader of rows. It remembers the last date, for rows that leave it out, so
 * rows are read in the order of the file.
 */
export function rowReader(
  table: Table,
  mapping: ColumnMapping,
  context: ImportContext,
  survey: Survey,
  matcher: TopicMatcher,
): (row: TableRow) => RowResult {
  const columns = {} as Record<ResultField, readonly number[]>;
  for (const field of resultFields) columns[field] = columnsOf(mapping, field);
  const systems = systemFinder(context);
  const reasonOf = remembering(findReason);
  const byOptions = outcomeFromOptions(mapping);
  const cells = rowCells(table, columns, matcher);
  const secondsUnit = /\bmin/i.test(headerOf('seconds')) ? 'minutes' : 'seconds';
  const secondsOf = remembering((cell) => within(findSeconds(cell, secondsUnit), longestSeconds));
  const positionIn = remembering(positionOf);
  const outcomeColumn = columns.outcome[0];
  const outcomeSense =
    outcomeColumn === undefined ? 'neutral' : senseOfHeader(table.header[outcomeColumn] ?? '');
  let dayAbove: LocalDay | undefined;

  function cellOf(row: TableRow, field: ResultField): string {
    const column = columns[field][0];
    return column === undefined ? '' : (row.cells[column] ?? '');
  }

  function headerOf(field: ResultField): string {
    const column = columns[field][0];
    return column === undefined ? '' : (table.header[column] ?? '');
  }

  function rejected(row: TableRow, field: ResultField | undefined, fault: CellFault): RowResult {
    const ended = field && outcomeOf(row);
    const mayBeRight = ended !== undefined && !('outcome' in ended && ended.outcome === 'missed');
    const column = field ? headerOf(field) : '';
    const value = field ? cellOf(row, field) : row.cells.join(' ');
    return { kind: 'rejected', fault: rowFault(row.row, column, value, fault), mayBeRight };
  }

  function dayOf(row: TableRow): { day: LocalDay; minutes?: number } | CellFault {
    if (survey.fixedDay !== undefined) return { day: survey.fixedDay };
    const cell = cellOf(row, 'date');
    if (cell.trim() === '') {
      if (context.answers?.emptyDates === 'as-above' && dayAbove !== undefined) {
        return { day: dayAbove };
      }
      return { reason: 'The row has no date.', mend: 'Write the date in each row.' };
    }
    const reading = survey.readDate(cell);
    if (reading.kind === 'day' || reading.kind === 'serial') return reading;
    if (reading.kind === 'none') {
      return (
        valueFault(cell) ?? {
          reason: 'This is not a date that can be read.',
          mend: 'Write it as 2026-03-04.',
        }
      );
    }
    const day = survey.dayOrder === 'day-first' ? reading.dayFirst : reading.monthFirst;
    if (day !== undefined) {
      return reading.minutes === undefined ? { day } : { day, minutes: reading.minutes };
    }
    const order = survey.dayOrder === 'day-first' ? 'day first' : 'month first';
    return { reason: `There is no such date with the ${order}.`, mend: 'Write it as 2026-03-04.' };
  }

  function outcomeOf(row: TableRow): { outcome: Outcome; unanswered: boolean } | CellFault {
    if (byOptions) return outcomeByOptions(cellOf(row, 'chosen'), cellOf(row, 'key'));
    const cell = cellOf(row, 'outcome');
    const reading = survey.readOutcome(cell);
    const other = survey.markMeans === 'right' ? 'missed' : 'right';
    const plain = (outcome: Outcome) => ({ outcome, unanswered: false });
    switch (reading.kind) {
      case 'says':
        return { outcome: reading.outcome, unanswered: reading.unanswered === true };
      case 'mark':
        return plain(reading.mark === 'yes' ? survey.markMeans : other);
      case 'tick':
        return plain(outcomeSense === 'missed' ? 'missed' : 'right');
      case 'cross':
        return plain(survey.crossMeans);
      case 'blank':
        if (survey.blankMeans) return plain(survey.blankMeans);
        return {
          reason: 'The row does not say whether the item was right or missed.',
          mend: 'Write “right” or “missed” in each row.',
        };
      case 'unknown':
        return (
          valueFault(cell) ?? {
            reason: 'This word is neither right nor missed.',
            mend: 'Write “right”, “guessed right” or “missed”.',
          }
        );
    }
  }

  return (row) => {
    if (repeatsHeader(table, row)) {
      return rejected(row, undefined, {
        reason: 'The header stands here again.',
        mend: 'Nothing to do: the row holds no item.',
      });
    }
    const when = dayOf(row);
    if ('reason' in when) return rejected(row, 'date', when);
    dayAbove = when.day;
    const ended = outcomeOf(row);
    if ('reason' in ended) return rejected(row, byOptions ? 'key' : 'outcome', ended);
    const position = positionIn(cellOf(row, 'position'));
    if (typeof position === 'object') return rejected(row, 'position', position);

    cells.begin(row);
    const topicNames = cells.namesOf('topics');
    const causeNames = cells.namesOf('causes');
    const systemText = cells.textOf('system');
    const system = systemText === '' ? undefined : systems(systemText);
    const guessed = cells.typed('guessed', findGuessed);
    const lucky = guessed === true && ended.outcome === 'right';
    return {
      kind: 'item',
      row,
      day: when.day,
      minutes: cells.typed('time', findClockMinutes) ?? when.minutes,
      label: cells.textOf('block', longestName),
      position,
      outcome: lucky ? 'guessed-right' : ended.outcome,
      unanswered: ended.unanswered,
      topics: conceptsIn(topicNames),
      causes: conceptsIn(causeNames),
      names: causeNames.length === 0 ? topicNames : [...topicNames, ...causeNames],
      system,
      unmatchedSystem: systemText !== '' && system === undefined ? systemText : undefined,
      reason: cells.typed('reason', reasonOf),
      missingPiece: cells.textOf('missingPiece'),
      seconds: cells.typed('seconds', secondsOf),
      chosen: cells.textOf('chosen', longestOption) || undefined,
      key: cells.textOf('key', longestOption) || undefined,
      reference: cells.textOf('reference') || undefined,
      ...cells.end(),
    };
  };
}

/** Fields of the block, read once for each block and not for each item. */
export const blockFields = [
  'source',
  'timed',
  'mixed',
  'itemCount',
  'minutesGiven',
  'minutesUsed',
  'reviewMinutes',
] as const satisfies readonly ResultField[];
export type BlockField = (typeof blockFields)[number];
