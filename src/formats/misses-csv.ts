/** The misses as a table that any spreadsheet opens. */
import { inMapOrder, type Concept, type OrganSystem } from '../model/concept-map';
import { reasonWords, type Block, type Item } from '../model/log';
import { isoDay } from '../model/time';
import { writeCsv } from './csv-write';

export interface MissesLog {
  readonly blocks: ReadonlyMap<string, Block>;
  readonly items: ReadonlyMap<string, Item>;
  readonly concepts: ReadonlyMap<string, Concept>;
  readonly systems: ReadonlyMap<string, OrganSystem>;
}

const headers = [
  'day',
  'item',
  'source',
  'reference',
  'system',
  'topics',
  'named causes',
  'reason',
  'missing piece',
  'option turns',
  'chosen',
  'key',
  'seconds',
];

/**
 * Every miss, oldest first, as CSV (RFC 4180) whose text no spreadsheet takes for a formula.
 *
 * @example
 * missesCsv(log); // 'day,item,source,...\r\n2026-02-03,4,paper bank,...\r\n'
 */
export function missesCsv(log: MissesLog): string {
  const conceptNames = (ids: readonly string[]) =>
    ids.map((id) => log.concepts.get(id)?.name ?? id).join('; ');
  // Systems in the order of their map first, so that equal logs give equal files.
  const systemNames = new Map(inMapOrder(log.systems.values()).map(({ id, name }) => [id, name]));
  const misses = [...log.items.values()]
    .filter(({ outcome }) => outcome === 'missed')
    .flatMap((item) => {
      const block = log.blocks.get(item.block);
      return block ? [{ item, block }] : [];
    })
    .sort((a, b) => a.block.day - b.block.day || a.item.position - b.item.position);
  const rows = misses.map(({ item, block }) => {
    const system = item.system ?? block.system;
    return [
      isoDay(block.day),
      item.position,
      block.source,
      item.reference,
      system && (systemNames.get(system) ?? system),
      conceptNames(item.topics),
      conceptNames(item.causes),
      item.reason && reasonWords[item.reason],
      item.missingPiece,
      item.optionTurns.map(({ option, turn }) => `${option}: ${turn}`).join('; '),
      item.chosen,
      item.key,
      item.seconds,
    ];
  });
  return writeCsv([headers, ...rows]);
}
