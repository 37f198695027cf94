/** A block and its items in draft form, from the rows that were found to belong together. */
import type { SystemId } from '../../model/ids';
import { longestBlock } from '../../model/log';
import { readText, rowFault, type CellFault } from './cell-faults';
import { columnsOf, type ColumnMapping } from './columns';
import { findMinutes, findWholeNumber } from './numbers';
import { findYesNo } from './outcome-words';
import type { BlockContent, BlockDraft, ImportContext, ItemContent, ItemDraft } from './plan-types';
import { blockFields, type BlockField, type RowReading } from './read-row';
import type { Table } from './table';
import type { RowFault } from './table-rows';

/** Fewest items whose one system speaks for the whole block. */
const fewestForSystem = 5;

/** A row with its final place in the block. */
export interface Numbered {
  readonly reading: RowReading;
  readonly position: number;
  readonly reference: string | undefined;
}

function itemDraft({ reading, position, reference }: Numbered): ItemDraft {
  const { system, reason, seconds, chosen, key } = reading;
  const content: ItemContent = {
    position,
    outcome: reading.outcome,
    topics: [...reading.topics],
    causes: [...reading.causes],
    missingPiece: reading.missingPiece,
    optionTurns: [],
    ...(system !== undefined && { system }),
    ...(reason !== undefined && { reason }),
    ...(seconds !== undefined && { seconds }),
    ...(chosen !== undefined && { chosen }),
    ...(key !== undefined && { key }),
    ...(reference !== undefined && { reference }),
  };
  return { row: reading.row.row, content };
}

export function blockDraft(
  numbered: readonly Numbered[],
  table: Table,
  mapping: ColumnMapping,
  context: ImportContext,
  leftOut: RowFault[],
  conflicts: number[],
): BlockDraft {
  const readings = numbered.map((each) => each.reading);
  const values = blockValues(readings, table, mapping, leftOut, conflicts);
  const { timed, itemCount, minutesGiven, minutesUsed, reviewMinutes } = values;
  const highest = numbered.reduce((most, { position }) => Math.max(most, position), 0);
  const system = onlySystem(readings);
  const mixed = values.mixed ?? mixedBySystems(readings, system) ?? context.defaults?.mixed;
  const timedOrNot = timed ?? context.defaults?.timed;
  const onlyMisses =
    itemCount === undefined && readings.every(({ outcome }) => outcome === 'missed');
  const content: BlockContent = {
    day: readings[0]!.day,
    itemCount: Math.max(itemCount ?? 0, highest),
    source: values.source ?? context.defaults?.source ?? '',
    ...(onlyMisses && { onlyMisses }),
    ...(timedOrNot !== undefined && { timed: timedOrNot }),
    ...(mixed !== undefined && { mixed }),
    ...(minutesGiven !== undefined && { minutesGiven }),
    ...(minutesUsed !== undefined && { minutesUsed }),
    ...(reviewMinutes !== undefined && { reviewMinutes }),
    ...(mixed === false && system !== undefined && { system }),
  };
  const starts = readings.flatMap(({ minutes }) => (minutes === undefined ? [] : [minutes]));
  return {
    content,
    label: readings[0]!.label,
    ...(starts.length > 0 && { startMinutes: starts.reduce((a, b) => Math.min(a, b)) }),
    items: numbered.map(itemDraft),
  };
}

/** The one system of all items, where there are enough of them to speak for the block. */
function onlySystem(readings: readonly RowReading[]): SystemId | undefined {
  const first = readings[0]?.system;
  const all = readings.every(({ system }) => system === first);
  return all && readings.length >= fewestForSystem ? first : undefined;
}

/** What the rows' systems say of the block; undefined where they say nothing. */
function mixedBySystems(
  readings: readonly RowReading[],
  system: SystemId | undefined,
): boolean | undefined {
  if (system !== undefined) return false;
  const systems = new Set(readings.flatMap((each) => (each.system ? [each.system] : [])));
  return systems.size > 1 ? true : undefined;
}

interface BlockValues {
  readonly source?: string;
  readonly timed?: boolean;
  readonly mixed?: boolean;
  readonly itemCount?: number;
  readonly minutesGiven?: number;
  readonly minutesUsed?: number;
  readonly reviewMinutes?: number;
}

const minutesFault: CellFault = {
  reason: 'This is not a number of minutes up to 1,440.',
  mend: 'Write it as 60.',
};

/** How each block field is read, and what is said when it cannot be. */
const blockReaders: {
  readonly [F in BlockField]: {
    readonly find: (cell: string) => BlockValues[F] | undefined;
    readonly fault: CellFault;
  };
} = {
  source: {
    find: (cell) => {
      const reading = readText(cell);
      return reading.kind === 'text' ? reading.text : undefined;
    },
    fault: { reason: 'This is no text that can be kept.', mend: 'Shorten or correct it.' },
  },
  timed: {
    find: (cell) => findWord(cell, /^timed$/i, /^(un|not )timed$/i),
    fault: { reason: 'This is neither timed nor untimed.', mend: 'Write yes or no.' },
  },
  mixed: {
    find: (cell) => findWord(cell, /^mixed$/i, /^(one|single)( system)?$/i),
    fault: { reason: 'This is neither mixed nor one system.', mend: 'Write yes or no.' },
  },
  itemCount: {
    find: (cell) => atMost(findWholeNumber(cell), longestBlock),
    fault: {
      reason: `This is not a number of items up to ${longestBlock}.`,
      mend: 'Write it as 40.',
    },
  },
  minutesGiven: { find: (cell) => atMost(findMinutes(cell), 1_440), fault: minutesFault },
  minutesUsed: { find: (cell) => atMost(findMinutes(cell), 1_440), fault: minutesFault },
  reviewMinutes: { find: (cell) => atMost(findMinutes(cell), 1_440), fault: minutesFault },
};

/** The first filled cell of each block field; later ones that differ are reported. */
function blockValues(
  readings: readonly RowReading[],
  table: Table,
  mapping: ColumnMapping,
  leftOut: RowFault[],
  conflicts: number[],
): BlockValues {
  const values: Record<string, unknown> = {};
  for (const field of blockFields) {
    const column = columnsOf(mapping, field)[0];
    if (column === undefined) continue;
    let first: string | undefined;
    for (const { row } of readings) {
      const cell = row.cells[column]?.trim() ?? '';
      if (cell === '') continue;
      if (first === undefined) {
        first = cell;
        const { find, fault } = blockReaders[field];
        const value = find(cell);
        if (value === undefined) {
          leftOut.push(rowFault(row.row, table.header[column] ?? '', cell, fault));
        } else values[field] = value;
      } else if (cell !== first && !conflicts.includes(row.row)) conflicts.push(row.row);
    }
  }
  return values;
}

function findWord(cell: string, yes: RegExp, no: RegExp): boolean | undefined {
  if (yes.test(cell)) return true;
  return no.test(cell) ? false : findYesNo(cell);
}

function atMost(value: number | undefined, most: number): number | undefined {
  return value !== undefined && value <= most ? value : undefined;
}
