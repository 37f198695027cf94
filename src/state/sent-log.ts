/** What one trace worker holds of the log, so that it is sent what differs and nothing else. */
import type { Concept } from '../model/concept-map';
import type { Block, Item } from '../model/log';
import { packItems, type PackedItems } from '../workers/packed-items';
import type { TraceItem, TracePatch } from '../workers/trace-jobs';
import { stretchOf } from './other-work';
import { readingsRead, traceConcepts, traceItem, unitemisedBlocks } from './trace-input';
import type { Workspace } from './workspace.svelte';

interface Traced {
  readonly block: Block;
  readonly concepts: unknown;
  readonly traced: TraceItem;
}

/** What each record was made into, and from what else; one for all workers of a page. */
export type MadeItems = WeakMap<Item, Traced>;

/** Beyond so many, items go in flat arrays; a few are as quick as they are. */
const fewItems = 200;
/** Items in one set of flat arrays: packed without holding up a key. */
const itemsPacked = 2_000;
/** Longest stretch of work, in ms, before keys and frames have their turn. */
const mostAtOnceMs = 8;
const hourMs = 3_600_000;

export class SentLog {
  readonly #workspace: Workspace;
  readonly #made: MadeItems;
  /** Items the worker holds, by id. */
  #sent = new Map<string, TraceItem>();
  /** The map the worker holds; undefined when it holds nothing. */
  #sentConcepts: unknown;
  /** Grows when the worker loses its memory. */
  #losses = 0;
  /** The patch that is being made: the next waits for it. */
  #making: Promise<unknown> = Promise.resolve();
  /** What else the last patch said, and when. */
  #lastRest = { text: '', at: -Infinity };

  constructor(workspace: Workspace, made: MadeItems) {
    this.#workspace = workspace;
    this.#made = made;
  }

  /** The worker lost its memory: everything is sent again next time. */
  forget(): void {
    this.#sent = new Map();
    this.#sentConcepts = undefined;
    this.#losses += 1;
  }

  /**
   * As `patch`; undefined where it would say nothing that the one before did not. The time alone
   * counts after an hour.
   */
  async patchIfNews(halfLifeDays: number | undefined): Promise<TracePatch | undefined> {
    const patch = await this.patch(halfLifeDays);
    const { now, reset, concepts, items, packed, removedItems, ...rest } = patch;
    const text = JSON.stringify(rest);
    const unchanged =
      !reset && !concepts && items.length + (packed?.length ?? 0) + removedItems.length === 0;
    if (unchanged && text === this.#lastRest.text && now - this.#lastRest.at < hourMs) {
      return undefined;
    }
    this.#lastRest = { text, at: now };
    return patch;
  }

  /**
   * To be sent in any case, and at once: from here on the worker is taken to hold it. Made in short
   * stretches, for a year of items takes longer than a key may wait; a record that changes meanwhile
   * is in this patch or in the next.
   */
  patch(halfLifeDays: number | undefined): Promise<TracePatch> {
    const patch = this.#making.then(() => this.#patch(halfLifeDays));
    this.#making = patch.catch(() => undefined); // whoever asked for it hears of it
    return patch;
  }

  async #patch(halfLifeDays: number | undefined): Promise<TracePatch> {
    const losses = this.#losses;
    const concepts = this.#workspace.of('concepts').live;
    const blocks = this.#workspace.of('blocks').live;
    // Which topics count is read through the map, so a change there may change any item.
    const mapChanged = concepts !== this.#sentConcepts;
    const reset = this.#sentConcepts === undefined;
    const stretch = stretchOf(mostAtOnceMs);

    const changed: TraceItem[] = [];
    const sent = this.#sent;
    let known = 0;
    const itemsByBlock = new Map<string, Item[]>();
    const items = this.#workspace.of('items').live;
    for (const item of items.values()) {
      if (stretch.over()) await stretch.pause();
      const block = blocks.get(item.block);
      if (!block) continue;
      const group = itemsByBlock.get(item.block);
      if (group) group.push(item);
      else itemsByBlock.set(item.block, [item]);

      known += 1;
      const { traced } = this.#make(item, block, concepts);
      const before = sent.get(item.id);
      if (before === traced) continue;
      sent.set(item.id, traced);
      if (mapChanged || !before || !saysTheSame(before, traced)) changed.push(traced);
    }
    const packed: PackedItems[] = [];
    const many = changed.length > fewItems;
    for (let from = 0; many && from < changed.length; from += itemsPacked) {
      packed.push(packItems(changed.slice(from, from + itemsPacked)));
      await stretch.pause();
    }
    // A worker that lost its memory meanwhile needs all of it.
    if (losses !== this.#losses) return this.#patch(halfLifeDays);

    const removedItems: string[] = [];
    if (sent.size > known) {
      for (const id of sent.keys()) {
        const item = items.get(id);
        if (!item || !blocks.has(item.block)) removedItems.push(id);
      }
      for (const id of removedItems) sent.delete(id);
    }
    this.#sentConcepts = concepts;
    return {
      now: this.#workspace.now,
      halfLifeDays,
      reset,
      ...(mapChanged && { concepts: traceConcepts(concepts) }),
      items: many ? [] : changed,
      ...(many && { packed }),
      removedItems,
      unitemised: unitemisedBlocks(blocks.values(), itemsByBlock),
      readings: readingsRead(
        this.#workspace.of('readingEvents').live.values(),
        this.#workspace.of('readings').live,
      ),
    };
  }

  #make(item: Item, block: Block, concepts: ReadonlyMap<string, Concept>): Traced {
    const known = this.#made.get(item);
    if (known?.block === block && known.concepts === concepts) return known;
    const made = { block, concepts, traced: traceItem(item, block, concepts) };
    this.#made.set(item, made);
    return made;
  }
}

/** Whether an item says the same to the engine. */
function saysTheSame(one: TraceItem, other: TraceItem): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}
