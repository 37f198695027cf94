/** Rows to blocks: by day and block name, with item numbers that make sense within each. */
import { longestBlock } from '../../model/log';
import { fileNote, plural, type FileNote } from '../file-fault';
import { blockDraft, type Numbered } from './block-draft';
import { rowFault } from './cell-faults';
import { columnsOf, type ColumnMapping } from './columns';
import type { BlockDraft, ImportContext } from './plan-types';
import type { RowReading } from './read-row';
import type { Table } from './table';
import type { RowFault } from './table-rows';

interface OpenBlock {
  readonly first: RowReading;
  readonly readings: RowReading[];
  readonly byPosition: Map<number, RowReading>;
}

export interface BlockGrouping {
  /** Adds a row; returns why it cannot come in, or undefined. */
  add(reading: RowReading): RowFault | undefined;
  /** All blocks, in the order of their first rows. */
  close(): {
    /** Rows of a sitting that only repeats an earlier one. */
    readonly rejected: readonly RowFault[];
    readonly blocks: readonly BlockDraft[];
    readonly leftOut: readonly RowFault[];
    readonly notes: readonly FileNote[];
  };
}

/** Fewest items in a block for consecutive numbers across blocks to be no accident. */
const fewestForChain = 5;

export function blockGrouping(
  table: Table,
  mapping: ColumnMapping,
  context: ImportContext,
): BlockGrouping {
  const labelled = columnsOf(mapping, 'block').length > 0;
  const positionColumn = columnsOf(mapping, 'position')[0];
  const hasReference = columnsOf(mapping, 'reference').length > 0;
  const sittings = new Map<string, OpenBlock[]>();
  const inOrder: OpenBlock[] = [];
  /** Rows with which item numbers began again. */
  const begun = new Set<number>();

  function open(key: string, reading: RowReading): OpenBlock {
    const block: OpenBlock = { first: reading, readings: [], byPosition: new Map() };
    const list = sittings.get(key);
    if (list) list.push(block);
    else sittings.set(key, [block]);
    inOrder.push(block);
    return block;
  }

  function repeatFault(reading: RowReading, before: RowReading): RowFault {
    const column = positionColumn === undefined ? '' : (table.header[positionColumn] ?? '');
    const fault = sameCells(reading, before)
      ? {
          reason: `The row is the same as row ${before.row.row}.`,
          mend: 'Nothing to do, unless the item number is wrong.',
        }
      : {
          reason: `Item ${reading.position ?? 0} of this block stands in row ${before.row.row} already, with other contents.`,
          mend: labelled
            ? 'Correct the item number or the block.'
            : 'Correct the item number, or give each block a name in a column of its own.',
        };
    return rowFault(reading.row.row, column, String(reading.position ?? ''), fault);
  }

  /**
   * A sitting that shares only one item number with the one before is a slip of
   * the pen, not another sitting: its rows go back, the shared number is rejected.
   */
  function unlikelySittings(): readonly RowFault[] {
    const faults: RowFault[] = [];
    for (const list of sittings.values()) {
      for (let at = 1; at < list.length;) {
        const [before, block] = [list[at - 1]!, list[at]!];
        const shared = [...block.byPosition.keys()].filter((each) => before.byPosition.has(each));
        if (shared.length >= 2) {
          at += 1;
          continue;
        }
        for (const reading of block.readings) {
          const { position } = reading;
          const other = position === undefined ? undefined : before.byPosition.get(position);
          if (other) faults.push(repeatFault(reading, other));
          else {
            before.readings.push(reading);
            if (position !== undefined) before.byPosition.set(position, reading);
          }
        }
        list.splice(at, 1);
        inOrder.splice(inOrder.indexOf(block), 1);
        begun.delete(block.first.row.row);
      }
    }
    return faults;
  }

  /** A table joined to itself gives each sitting twice; the second one is not another block. */
  function repeatedSittings(): readonly RowFault[] {
    const faults: RowFault[] = [];
    for (const list of sittings.values()) {
      for (const [at, block] of list.entries()) {
        const before = at === 0 ? undefined : list[at - 1];
        const pairs = block.readings.map((reading) => ({
          reading,
          before: before?.byPosition.get(reading.position ?? 0),
        }));
        if (!pairs.every((pair) => pair.before && sameCells(pair.reading, pair.before))) continue;
        inOrder.splice(inOrder.indexOf(block), 1);
        begun.delete(block.first.row.row);
        for (const pair of pairs)
          if (pair.before) faults.push(repeatFault(pair.reading, pair.before));
      }
    }
    return faults;
  }

  function add(reading: RowReading): RowFault | undefined {
    const key = `${reading.day} ${reading.label.toLowerCase()}`;
    let block = sittings.get(key)?.at(-1) ?? open(key, reading);
    const { position } = reading;
    const before = position === undefined ? undefined : block.byPosition.get(position);
    if (position !== undefined && before) {
      if (labelled || !beginsAgain(block, position)) return repeatFault(reading, before);
      block = open(key, reading);
      begun.add(reading.row.row);
    }
    if (position !== undefined) block.byPosition.set(position, reading);
    block.readings.push(reading);
    return undefined;
  }

  function close() {
    const rejected = [...unlikelySittings(), ...repeatedSittings()];
    const running = areRunning(inOrder);
    const leftOut: RowFault[] = [];
    const conflicts: number[] = [];
    const split: number[] = [];
    const blocks = inOrder.flatMap((block) => {
      const numbered = numberItems(block.readings, running, hasReference);
      if (numbered.length > 1) split.push(block.first.row.row);
      return numbered.map((items) =>
        blockDraft(items, table, mapping, context, leftOut, conflicts),
      );
    });
    const notes = [
      ...(begun.size === 0
        ? []
        : [
            fileNote(
              'warning',
              'Item numbers begin again within a day; the rows from there on were read as another block.',
              [...begun],
            ),
          ]),
      ...(running
        ? [
            fileNote(
              'warning',
              `Item numbers run on from block to block; items are numbered from 1 in each${hasReference ? '' : ', and the file’s number is kept as reference'}.`,
            ),
          ]
        : []),
      ...(split.length === 0
        ? []
        : [
            fileNote(
              'warning',
              `More than ${longestBlock} items fell into one block; they were split in the order of the file.`,
              split,
            ),
          ]),
      ...(conflicts.length === 0
        ? []
        : [
            fileNote(
              'warning',
              `${plural(conflicts.length, 'row')} gave other values for the whole block than its first row; the first row counts.`,
              conflicts,
            ),
          ]),
    ];
    return { rejected, blocks, leftOut, notes };
  }

  return { add, close };
}

function sameCells(a: RowReading, b: RowReading): boolean {
  return a.row.cells.every((cell, i) => cell === b.row.cells[i]);
}

/** 1 … 40, then 1 again: a second sitting on the same day, in a table that names no blocks. */
function beginsAgain(block: OpenBlock, position: number): boolean {
  const last = block.readings.at(-1)?.position ?? 0;
  const smallest = Math.min(...block.byPosition.keys());
  return block.readings.length >= 2 && position === smallest && last > position;
}

/** Numbers that count through the file and not within each block. */
function areRunning(blocks: readonly OpenBlock[]): boolean {
  const spans = blocks.map(({ byPosition, readings }) => {
    let low = Infinity;
    let high = -Infinity;
    for (const position of byPosition.keys()) {
      low = Math.min(low, position);
      high = Math.max(high, position);
    }
    return {
      low,
      high,
      whole: byPosition.size === readings.length && high - low + 1 === byPosition.size,
    };
  });
  if (spans.some(({ high }) => high > longestBlock)) return true;
  return (
    spans.length >= 2 &&
    spans.every(({ low, high, whole }, i) => {
      const before = spans[i - 1];
      const long = high - low + 1 >= fewestForChain || i === spans.length - 1;
      return whole && long && (before === undefined || low === before.high + 1);
    })
  );
}

/** Items with their final numbers, in parts of at most `longestBlock`. */
function numberItems(
  readings: readonly RowReading[],
  running: boolean,
  hasReference: boolean,
): readonly (readonly Numbered[])[] {
  const free = freeNumbers(new Set(readings.map((reading) => reading.position)));
  let numbered = readings.map((reading) => ({
    reading,
    position: reading.position ?? free(),
    reference: reading.reference,
  }));
  numbered.sort((a, b) => a.position - b.position);
  const tooHigh = numbered.some(({ position }) => position > longestBlock);
  if (running || tooHigh) {
    numbered = numbered.map((each, i) => ({
      reading: each.reading,
      position: (i % longestBlock) + 1,
      reference:
        each.reference ??
        (hasReference || each.reading.position === undefined ? undefined : String(each.position)),
    }));
  }
  const parts: Numbered[][] = [];
  for (let start = 0; start < numbered.length; start += longestBlock) {
    parts.push(numbered.slice(start, start + longestBlock));
  }
  return parts;
}

function freeNumbers(used: ReadonlySet<number | undefined>): () => number {
  let next = 0;
  return () => {
    do next += 1;
    while (used.has(next));
    return next;
  };
}
