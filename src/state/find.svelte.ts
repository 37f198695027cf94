/** Find: keeps the search worker in step with the log, saves its index, asks it. */
import {
  searchKinds,
  type Filters,
  type Found,
  type SearchDocument,
  type SearchKind,
} from '../search';
import { readSearchIndex, writeSearchIndex, type Store } from '../storage';
import type { WorkerClient } from '../workers/client';
import type { SearchJobs, StoredPart } from '../workers/search-jobs';
import {
  conceptDocument,
  itemDocument,
  lastLooksOf,
  lineDocument,
  noteDocument,
  readingDocument,
  stillStands,
  watched,
  type FindSource,
  type Uses,
} from './find-documents';
import { loadOf, type Load } from './load';
import { otherWork, stretchOf } from './other-work';
import type { Workspace } from './workspace.svelte';

export {
  parseQuery,
  searchKinds,
  type Filters,
  type Found,
  type FoundDocument,
  type SearchKind,
  type Snippet,
} from '../search';

/** Documents sent at once, so that a question never waits long behind indexing. */
const chunkSize = 50;
/** Workers lost one after another before waiting for the next change: one that dies at once would be started for ever. */
const mostLost = 2;
/** Quiet time before changed parts are saved, in ms. */
const saveDelayMs = 3_000;

/** Longest stretch of work, in ms, before keys and frames have their turn. */
const mostAtOnceMs = 6;

/** What was made of one record. */
interface Known {
  readonly record: unknown;
  readonly document: SearchDocument | undefined;
  readonly uses: Uses;
}

/** Kinds that documents are made from beside their own record. */
const usedKinds = ['concepts', 'blocks', 'looks', 'pictures'] as const;

const makers: {
  readonly [K in SearchKind]: (record: never, source: FindSource) => SearchDocument | undefined;
} = {
  concepts: conceptDocument,
  items: itemDocument,
  notes: noteDocument,
  readings: readingDocument,
  lines: lineDocument,
};

export class Finder {
  readonly #workspace: Workspace;
  readonly #store: Store;
  readonly #client: WorkerClient<SearchJobs>;
  readonly #known = new Map<SearchKind, Map<string, Known>>();
  /** The records each kind was last made from; of used kinds too. */
  readonly #madeFrom = new Map<string, ReadonlyMap<string, unknown>>();
  #lastLooks: FindSource['lastLooks'] = new Map();
  /** By document key: the marks that the worker holds. */
  #sent = new Map<string, string>();
  /** Keys whose document may differ from what the worker holds. */
  #due = new Set<string>();
  #work: Promise<void> = Promise.resolve();
  #restored = false;
  #lost = 0;
  #saveTimer: ReturnType<typeof setTimeout> | undefined;
  /** Grows with every change that has reached the index; screens ask again then. */
  #version = $state(0);
  #waiting = $state(0);

  constructor(workspace: Workspace, store: Store, client: WorkerClient<SearchJobs>) {
    this.#workspace = workspace;
    this.#store = store;
    this.#client = client;
  }

  get version(): number {
    return this.#version;
  }

  /** Documents that are not in the index yet. */
  get waiting(): number {
    return this.#waiting;
  }

  /** The worker lost its memory: everything is sent again. */
  forgetSent(): void {
    this.#sent = new Map();
    this.#restored = false;
    this.#lost += 1;
    if (this.#lost <= mostLost) this.#enqueue();
  }

  /** Reads every kind that documents are made from, so that an effect runs again after a change. */
  follow(): void {
    void this.#lives();
    this.#enqueue();
  }

  async find(typed: string, filters: Filters, most: number): Promise<Load<Found>> {
    const result = await this.#client.run('find', { typed, filters, most });
    if (result.kind === 'done' && this.#lost > mostLost) {
      // A worker that answers lives: what the lost ones held is given to it.
      this.#lost = mostLost;
      this.#enqueue();
    }
    return loadOf(result);
  }

  /** Resolves when what was written before is findable. */
  settled(): Promise<void> {
    return this.#work;
  }

  #enqueue(): void {
    this.#work = this.#work.then(() => this.#bringUpToDate());
  }

  async #bringUpToDate(): Promise<void> {
    // First the first answer: only then is what was saved compared with the log.
    if (!this.#restored && !(await this.#restore())) return;
    await this.#remake();
    const put: SearchDocument[] = [];
    const remove: string[] = [];
    for (const key of this.#due) {
      const document = this.#documentOf(key);
      if (!document && this.#sent.has(key)) remove.push(key);
      if (document && this.#sent.get(key) !== document.mark) put.push(document);
    }
    for (let from = 0; from < put.length || (from === 0 && remove.length > 0); from += chunkSize) {
      this.#waiting = put.length - from;
      const chunk = put.slice(from, from + chunkSize);
      const gone = from === 0 ? remove : [];
      const result = await this.#client.run(
        'update',
        { put: chunk, remove: gone },
        { supersedes: false },
      );
      if (result.kind !== 'done') return void (this.#waiting = 0); // a fresh worker begins again
      this.#lost = 0;
      for (const key of gone) this.#sent.delete(key);
      for (const document of chunk) this.#sent.set(document.key, document.mark);
      this.#version += 1;
    }
    this.#waiting = 0;
    this.#due = new Set();
    if (put.length + remove.length > 0) this.#saveSoon();
  }

  #documentOf(key: string): SearchDocument | undefined {
    const colon = key.indexOf(':');
    const kind = key.slice(0, colon) as SearchKind;
    return this.#known.get(kind)?.get(key.slice(colon + 1))?.document;
  }

  /** Makes the documents of records that changed, or that name something that has. */
  async #remake(): Promise<void> {
    // All as of one moment: what changes while this works is made in the next run.
    const lives = this.#lives();
    const { concepts, blocks, pictures, looks } = lives;
    const isNew = (kind: keyof typeof lives) => this.#madeFrom.get(kind) !== lives[kind];
    const usedChanged = usedKinds.some(isNew);
    if (isNew('looks')) this.#lastLooks = lastLooksOf(looks.values());
    const source: FindSource = { concepts, blocks, pictures, lastLooks: this.#lastLooks };
    for (const kind of searchKinds) {
      if (!usedChanged && !isNew(kind)) continue;
      await this.#remakeKind(kind, lives[kind], usedChanged, source);
    }
    for (const [kind, records] of Object.entries(lives)) this.#madeFrom.set(kind, records);
  }

  #lives() {
    const of = this.#workspace;
    return {
      concepts: of.of('concepts').live,
      items: of.of('items').live,
      notes: of.of('notes').live,
      readings: of.of('readings').live,
      lines: of.of('lines').live,
      blocks: of.of('blocks').live,
      looks: of.of('looks').live,
      pictures: of.of('pictures').live,
    };
  }

  async #remakeKind(
    kind: SearchKind,
    records: ReadonlyMap<string, unknown>,
    usedChanged: boolean,
    source: FindSource,
  ): Promise<void> {
    let known = this.#known.get(kind);
    if (!known) this.#known.set(kind, (known = new Map()));
    const stretch = stretchOf(mostAtOnceMs);
    let count = 0;
    for (const [id, record] of records) {
      count += 1;
      if (count % 20 === 0 && stretch.over()) await stretch.pause();
      const before = known.get(id);
      if (before && before.record === record) {
        if (!usedChanged || stillStands(before.uses, source)) continue;
      }
      const watching = watched(source);
      // The records of a kind are what its maker takes.
      const document = makers[kind](record as never, watching.source);
      known.set(id, { record, document, uses: watching.uses });
      this.#due.add(`${kind}:${id}`);
    }
    if (known.size === records.size) return;
    for (const id of known.keys()) {
      if (records.has(id)) continue;
      known.delete(id);
      this.#due.add(`${kind}:${id}`);
    }
  }

  /**
   * Hands over what was saved, from when on questions are answered; whatever is damaged or
   * stale is left to be indexed again. False where the worker broke off.
   */
  async #restore(): Promise<boolean> {
    this.#client.warmUp();
    let first = true;
    const handOver = (parts: readonly StoredPart[], last: boolean) => {
      const input = { parts, first, last };
      first = false;
      const transfer = buffersIn(parts);
      return this.#client.run('restore', input, { transfer, supersedes: false });
    };
    // What cannot be read is made again from the records.
    await readSearchIndex(this.#store, (parts) => void handOver(parts, false));
    // Documents of a run that broke off before may be due and are not in `held`.
    for (const [kind, known] of this.#known) {
      for (const id of known.keys()) this.#due.add(`${kind}:${id}`);
    }
    const result = await handOver([], true);
    if (result.kind !== 'done') return false;
    const { held, damaged } = result.output;
    this.#sent = new Map(held);
    for (const key of this.#sent.keys()) this.#due.add(key);
    this.#restored = true;
    this.#version += 1;
    if (damaged.length > 0) {
      await writeSearchIndex(
        this.#store,
        damaged.map((id) => ({ id })),
      );
    }
    await otherWork();
    return true;
  }

  #saveSoon(): void {
    clearTimeout(this.#saveTimer);
    this.#saveTimer = setTimeout(() => void this.#save(), saveDelayMs);
  }

  /** A failure to save costs only time at the next start, so nobody is troubled with it. */
  async #save(): Promise<void> {
    for (let left = 1; left > 0;) {
      const result = await this.#client.run('save', null);
      if (result.kind !== 'done' || !result.output.part) return;
      if (await writeSearchIndex(this.#store, [result.output.part])) return;
      left = result.output.left;
    }
  }
}

/** Buffers of the saved parts, each once: they are handed over, not copied. */
function buffersIn(parts: readonly { readonly content: unknown }[]): ArrayBuffer[] {
  const buffers = new Set<ArrayBuffer>();
  for (const { content } of parts) {
    for (const value of Object.values(content ?? {}) as unknown[]) {
      if (ArrayBuffer.isView(value) && value.buffer instanceof ArrayBuffer)
        buffers.add(value.buffer);
    }
  }
  return [...buffers];
}
