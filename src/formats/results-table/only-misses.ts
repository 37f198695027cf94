/** Blocks of which only misses come in, and whether that is the file's doing or that of lost rows. */
import { fileNote, plural, type FileNote } from '../file-fault';
import type { BlockDraft } from './plan-types';

/**
 * What is said of blocks that show misses only.
 *
 * @param lost rows that do not come in and may have held an item that was right; such a
 *   row is taken to belong to the block of the row above it or of the row below it
 */
export function onlyMissesNotes(
  blocks: readonly BlockDraft[],
  lost: readonly number[],
): readonly FileNote[] {
  const shown = blocks.filter((block) => block.content.onlyMisses && block.joins === undefined);
  if (shown.length === 0) return [];
  const losing = blocksBeside(blocks, lost);
  const bare = shown.filter((block) => !losing.has(block)).length;
  const notes: FileNote[] = [];
  if (bare > 0) {
    const message = `${plural(bare, 'block')} ${bare === 1 ? 'holds' : 'hold'} misses only; how many items there were is not in the file, so accuracy cannot be told.`;
    notes.push(fileNote('warning', message));
  }
  const short = shown.length - bare;
  if (short > 0) {
    const message = `Of ${plural(short, 'block')} only misses come in, and rows beside them do not: mend those rows first, else how many items there were is not known.`;
    notes.push(fileNote('warning', message));
  }
  return notes;
}

/** The blocks that hold the row next above or next below a lost row. */
function blocksBeside(
  blocks: readonly BlockDraft[],
  lost: readonly number[],
): ReadonlySet<BlockDraft> {
  const rows = blocks
    .flatMap((block) => block.items.map(({ row }) => ({ row, block })))
    .sort((a, b) => a.row - b.row);
  const beside = new Set<BlockDraft>();
  let at = 0;
  for (const row of [...lost].sort((a, b) => a - b)) {
    while (at < rows.length && rows[at]!.row < row) at += 1;
    for (const next of [rows[at - 1], rows[at]]) if (next) beside.add(next.block);
  }
  return beside;
}
