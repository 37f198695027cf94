/** Which rows of a planned import are in the log already, as after an overlapping export. */
import type { BlockId } from '../../model/ids';
import type { LocalDay } from '../../model/time';
import type {
  BlockDraft,
  ItemContent,
  ItemDraft,
  LoggedItem,
  LoggedItems,
  LoggedRow,
} from './plan-types';

export interface InLog {
  /** In the order of the file. */
  readonly rows: readonly LoggedRow[];
  /** What is left of the blocks without those rows; blocks without any item left are gone. */
  readonly rest: readonly BlockDraft[];
}

/** Share of item numbers in both that must agree before bare rights and misses count as the same. */
const agreeingShare = 0.8;
/** Blocks of one day compared with a draft at most, so that a day of many blocks stays linear. */
const mostCandidates = 50;

/**
 * The rows of drafted blocks that the log holds already.
 *
 * By own reference first (same reference, same day), else by contents: day, item
 * number, outcome, and no topic or cause that the item in the log lacks (a review
 * adds some). Contents are compared block with block, and each item of the log
 * answers for one row only, so that what a file really repeats still comes in.
 * "Item 3 was right" is true of many blocks; rows without topic and cause count
 * only where the two blocks agree in four items out of five.
 *
 * Linear in drafted and logged items together.
 */
export function findInLog(drafts: readonly BlockDraft[], log: LoggedItems | undefined): InLog {
  if (!log || log.items.length === 0) return { rows: [], rest: drafts };
  const index = logIndex(log);
  const rows: LoggedRow[] = [];
  const rest: BlockDraft[] = [];
  for (const draft of drafts) {
    const known = knownItems(draft, index);
    for (const [item, { by }] of known) {
      rows.push({ row: item.row, day: draft.content.day, position: item.content.position, by });
    }
    const left = draft.items.filter((item) => !known.has(item));
    if (left.length === draft.items.length) rest.push(draft);
    else if (left.length > 0) rest.push(joining(draft, left, known, index));
  }
  return { rows: rows.sort((a, b) => a.row - b.row), rest };
}

interface Known {
  readonly by: LoggedRow['by'];
  readonly logged: LoggedItem;
}

interface LogIndex {
  readonly blocks: LoggedItems['blocks'];
  /** Day and reference -> items not yet answered for. */
  readonly byReference: ReadonlyMap<string, LoggedItem[]>;
  /** Day, item number and outcome -> blocks not yet answered for. */
  readonly byEnding: ReadonlyMap<string, number[]>;
  /** For each block, its items by number. */
  readonly items: readonly Map<number, LoggedItem>[];
  readonly usedBlocks: Set<number>;
  readonly usedItems: Set<LoggedItem>;
}

const referenceKey = (day: LocalDay, reference: string) => `${day} ${reference.trim()}`;
const endingKey = (day: LocalDay, { position, outcome }: ItemContent | LoggedItem) =>
  `${day} ${position} ${outcome}`;

function logIndex(log: LoggedItems): LogIndex {
  const byReference = new Map<string, LoggedItem[]>();
  const byEnding = new Map<string, number[]>();
  const items = log.blocks.map(() => new Map<number, LoggedItem>());
  for (const item of log.items) {
    const block = log.blocks[item.blockIndex];
    if (!block) continue;
    items[item.blockIndex]?.set(item.position, item);
    if (item.reference) append(byReference, referenceKey(block.day, item.reference), item);
    append(byEnding, endingKey(block.day, item), item.blockIndex);
  }
  return {
    blocks: log.blocks,
    byReference,
    byEnding,
    items,
    usedBlocks: new Set(),
    usedItems: new Set(),
  };
}

function append<T>(lists: Map<string, T[]>, key: string, value: T): void {
  const list = lists.get(key);
  if (list) list.push(value);
  else lists.set(key, [value]);
}

/** The items of a draft that the log holds; what answers for them is used up. */
function knownItems(draft: BlockDraft, index: LogIndex): ReadonlyMap<ItemDraft, Known> {
  const known = new Map<ItemDraft, Known>();
  const { day } = draft.content;
  for (const item of draft.items) {
    const { reference } = item.content;
    if (!reference) continue;
    const waiting = index.byReference.get(referenceKey(day, reference)) ?? [];
    while (waiting[0] && index.usedItems.has(waiting[0])) waiting.shift();
    const logged = waiting.shift();
    if (!logged) continue;
    index.usedItems.add(logged);
    known.set(item, { by: 'reference', logged });
  }
  const open = draft.items.filter((item) => !known.has(item));
  if (open.length === 0) return known;
  const blockIndex = likestBlock(day, open, index);
  if (blockIndex === undefined) return known;
  const block = index.items[blockIndex]!;
  const shared = open.filter(({ content }) => block.has(content.position));
  const same = shared.filter(({ content }) => holds(block.get(content.position)!, content));
  const agreeing = same.length >= shared.length * agreeingShare;
  for (const item of same) {
    const logged = block.get(item.content.position)!;
    const telling = item.content.topics.length + item.content.causes.length > 0;
    if (index.usedItems.has(logged) || !(agreeing || telling)) continue;
    index.usedItems.add(logged);
    index.usedBlocks.add(blockIndex);
    known.set(item, { by: 'contents', logged });
  }
  return known;
}

/** The block of that day that shares most items with the draft; undefined where none shares any. */
function likestBlock(
  day: LocalDay,
  items: readonly ItemDraft[],
  index: LogIndex,
): number | undefined {
  const votes = new Map<number, number>();
  for (const { content } of items) {
    const blocks = index.byEnding.get(endingKey(day, content)) ?? [];
    while (blocks[0] !== undefined && index.usedBlocks.has(blocks[0])) blocks.shift();
    for (const block of blocks.slice(0, mostCandidates)) {
      const logged = index.items[block]?.get(content.position);
      if (index.usedBlocks.has(block) || !logged || !holds(logged, content)) continue;
      votes.set(block, (votes.get(block) ?? 0) + 1);
    }
  }
  let best: number | undefined;
  for (const [block, count] of votes) {
    if (best === undefined || count > votes.get(best)!) best = block;
  }
  return best;
}

/** Whether the item in the log says all that the row says. */
function holds(logged: LoggedItem, content: ItemContent): boolean {
  if (logged.outcome !== content.outcome) return false;
  if (logged.reference && content.reference && logged.reference !== content.reference) return false;
  return (
    content.topics.every((topic) => logged.topics.includes(topic)) &&
    content.causes.every((cause) => logged.causes.includes(cause))
  );
}

/** What is left of a draft, as a part of the block that holds most of its other items. */
function joining(
  draft: BlockDraft,
  left: readonly ItemDraft[],
  known: ReadonlyMap<ItemDraft, Known>,
  index: LogIndex,
): BlockDraft {
  const counts = new Map<number, number>();
  for (const { logged } of known.values()) {
    counts.set(logged.blockIndex, (counts.get(logged.blockIndex) ?? 0) + 1);
  }
  const [blockIndex] = [...counts].sort((a, b) => b[1] - a[1])[0]!;
  const joins: BlockId = index.blocks[blockIndex]!.id;
  const taken = index.items[blockIndex]!;
  // Another item may stand under the same number there: nothing in the log is overwritten.
  if (left.some(({ content }) => taken.has(content.position))) return alone(draft, left);
  // The next draft to join this block finds these numbers taken.
  for (const { content } of left) taken.set(content.position, { ...content, blockIndex });
  return { ...draft, joins, items: left };
}

/** A block of its own: its size is that of what is left, so that no item counts twice. */
function alone(draft: BlockDraft, left: readonly ItemDraft[]): BlockDraft {
  const items = left.map(({ row, content }, i) => ({
    row,
    content: { ...content, position: i + 1 },
  }));
  return { ...draft, content: { ...draft.content, itemCount: items.length }, items };
}
