/** What one trace worker holds of the log, so that it is sent what differs and nothing else. */
import type { Block, Item } from '../model/log';
import { packItems } from '../workers/packed-items';
import type { TraceItem, TracePatch } from '../workers/trace-jobs';
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

export class SentLog {
  readonly #workspace: Workspace;
  readonly #made: MadeItems;
  /** Items the worker holds, by id. */
  #sent = new Map<string, TraceItem>();
  /** The map the worker holds; undefined when it holds nothing. */
  #sentConcepts: unknown;

  constructor(workspace: Workspace, made: MadeItems) {
    this.#workspace = workspace;
    this.#made = made;
  }

  /** The worker lost its memory: everything is sent again next time. */
  forget(): void {
    this.#sent = new Map();
    this.#sentConcepts = undefined;
  }

  /** To be sent in any case: from here on the worker is taken to hold it. */
  patch(halfLifeDays: number | undefined): TracePatch {
    const concepts = this.#workspace.of('concepts').live;
    const blocks = this.#workspace.of('blocks').live;
    // Which topics count is read through the map, so a change there may change any item.
    const mapChanged = concepts !== this.#sentConcepts;
    const reset = this.#sentConcepts === undefined;

    const changed: TraceItem[] = [];
    const next = new Map<string, TraceItem>();
    const itemsByBlock = new Map<string, Item[]>();
    for (const item of this.#workspace.of('items').live.values()) {
      const block = blocks.get(item.block);
      if (!block) continue;
      const group = itemsByBlock.get(item.block);
      if (group) group.push(item);
      else itemsByBlock.set(item.block, [item]);

      let made = this.#made.get(item);
      if (made?.block !== block || made.concepts !== concepts) {
        made = { block, concepts, traced: traceItem(item, block, concepts) };
        this.#made.set(item, made);
      }
      next.set(item.id, made.traced);
      if (this.#sent.get(item.id) !== made.traced) changed.push(made.traced);
    }
    const removedItems = [...this.#sent.keys()].filter((id) => !next.has(id));

    this.#sent = next;
    this.#sentConcepts = concepts;
    const many = changed.length > fewItems;
    return {
      now: this.#workspace.now,
      halfLifeDays,
      reset,
      ...(mapChanged && { concepts: traceConcepts(concepts) }),
      items: many ? [] : changed,
      ...(many && { packed: packItems(changed) }),
      removedItems,
      unitemised: unitemisedBlocks(blocks.values(), itemsByBlock),
      readings: readingsRead(
        this.#workspace.of('readingEvents').live.values(),
        this.#workspace.of('readings').live,
      ),
    };
  }
}
