/** A generated results table: the demo's scenario under another seed, written as CSV. */
import { conceptsOf, readMapParts, readPieces, readReadings } from '../../seed-data/demo/read-seed';
import { simulateDemo } from '../../seed-data/demo/simulate';
import { writeCsv } from '../../src/formats';
import { reasonWords, type MissReason } from '../../src/model/log';
import { isoDay, type LocalDay } from '../../src/model/time';

interface SimulatedBlock {
  readonly id: string;
  readonly daysBefore: number;
}

interface SimulatedItem {
  readonly block: string;
  readonly position: number;
  readonly outcome: string;
  readonly topics: readonly string[];
  readonly causes?: readonly string[];
  readonly reason?: MissReason;
  readonly missingPiece?: string;
}

/** The day the generated log ends: recent for any clock the tests may run under. */
export const lastDay = 20_700 as LocalDay; // 2026-09-04

/** CSV text with one item a row, topics and causes by the concepts' names. */
export function resultsCsv(blockCount: number, seed = 77): string {
  const concepts = conceptsOf(readMapParts('human'));
  const names = new Map(concepts.map(({ id, name }) => [id, name]));
  const texts = { pieces: readPieces(), readings: readReadings('human'), notes: [], lines: [] };
  const demo = simulateDemo(concepts, texts, { seed, blockCount });
  const blocks = new Map((demo.blocks as SimulatedBlock[]).map((block) => [block.id, block]));
  const named = (ids: readonly string[]) => ids.map((id) => names.get(id) ?? id).join('; ');
  const rows = (demo.items as SimulatedItem[]).map((item) => [
    isoDay((lastDay - (blocks.get(item.block)?.daysBefore ?? 0)) as LocalDay),
    item.block,
    item.position,
    item.outcome === 'missed' ? 'wrong' : 'correct',
    named(item.topics),
    named(item.causes ?? []),
    item.reason ? reasonWords[item.reason] : '',
    item.missingPiece ?? '',
  ]);
  const header = [
    'Date',
    'Block',
    'Item',
    'Result',
    'Topic',
    'Named cause',
    'Reason',
    'Missing piece',
  ];
  return writeCsv([header, ...rows]);
}
