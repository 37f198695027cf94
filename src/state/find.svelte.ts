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
import type { SearchJobs } from '../workers/search-jobs';
import {
  conceptDocument,
  itemDocument,
  lastLooksOf,
  lineDocument,
  noteDocument,
  readingDocument,
  type FindSource,
} from './find-documents';
import type { Load } from './load';
import type { Workspace } from './workspace.svelte';

export {
  searchKinds,
  type Filters,
  type Found,
  type FoundDocument,
  type SearchKind,
  type Snippet,
} from '../search';

/** Documents sent at once, so that a question never waits long behind indexing. */
const chunkSize = 200;
/** Quiet time before changed parts are saved, in ms. */
const saveDelayMs = 3_000;

interface Known {
  readonly record: unknown;
  readonly document: SearchDocument | undefined;
}

export class Finder {
  readonly #workspace: Workspace;
  readonly #store: Store;
  readonly #client: WorkerClient<SearchJobs>;
  /** What was made of each record; by document key. */
  #known = new Map<string, Known>();
  /** Marks that the worker holds. */
  #sent = new Map<string, string>();
  #madeFrom: Record<string, unknown> = {};
  #work: Promise<void> = Promise.resolve();
  #restored = false;
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
    this.#enqueue();
  }

  /** Reads every kind that Find looks through, so that an effect runs again after a change. */
  follow(): void {
    for (const kind of [...searchKinds, 'blocks', 'looks'] as const)
      void this.#workspace.of(kind).live;
    this.#enqueue();
  }

  async find(typed: string, filters: Filters, most: number): Promise<Load<Found>> {
    const result = await this.#client.run('find', { typed, filters, most });
    if (result.kind === 'done') return { kind: 'ready', value: result.output };
    if (result.kind === 'failed') return { kind: 'failed', message: result.message };
    return { kind: 'loading' };
  }

  /** Resolves when what was written before is findable. */
  settled(): Promise<void> {
    return this.#work;
  }

  #enqueue(): void {
    this.#work = this.#work.then(() => this.#bringUpToDate());
  }

  async #bringUpToDate(): Promise<void> {
    this.#remake();
    if (!this.#restored) await this.#restore();
    const put: SearchDocument[] = [];
    for (const [key, { document }] of this.#known) {
      if (document && this.#sent.get(key) !== document.mark) put.push(document);
    }
    const remove = [...this.#sent.keys()].filter((key) => !this.#known.get(key)?.document);
    if (put.length === 0 && remove.length === 0) return;
    for (let from = 0; from === 0 || from < put.length; from += chunkSize) {
      this.#waiting = put.length - from;
      const chunk = put.slice(from, from + chunkSize);
      const gone = from === 0 ? remove : [];
      const result = await this.#client.run(
        'update',
        { put: chunk, remove: gone },
        { supersedes: false },
      );
      if (result.kind !== 'done') return void (this.#waiting = 0); // a fresh worker begins again
      for (const key of gone) this.#sent.delete(key);
      for (const document of chunk) this.#sent.set(document.key, document.mark);
      this.#version += 1;
    }
    this.#waiting = 0;
    clearTimeout(this.#saveTimer);
    this.#saveTimer = setTimeout(() => void this.#save(), saveDelayMs);
  }

  /** Makes the documents of records that changed, or of all where what they name has. */
  #remake(): void {
    const of = this.#workspace;
    const concepts = of.of('concepts').live;
    const blocks = of.of('blocks').live;
    const looks = of.of('looks').live;
    const same =
      this.#madeFrom['concepts'] === concepts &&
      this.#madeFrom['blocks'] === blocks &&
      this.#madeFrom['looks'] === looks;
    this.#madeFrom = { concepts, blocks, looks };
    const source: FindSource = { concepts, blocks, lastLooks: lastLooksOf(looks.values()) };
    const next = new Map<string, Known>();
    const take = <T extends { readonly id: string }>(
      kind: SearchKind,
      records: ReadonlyMap<string, T>,
      make: (record: T) => SearchDocument | undefined,
    ): void => {
      for (const record of records.values()) {
        const key = `${kind}:${record.id}`;
        const before = this.#known.get(key);
        const stands = before?.record === record && (same || kind === 'concepts');
        next.set(key, stands ? before : { record, document: make(record) });
      }
    };
    take('concepts', concepts, conceptDocument);
    take('items', of.of('items').live, (item) => itemDocument(item, source));
    take('notes', of.of('notes').live, (note) => noteDocument(note, source));
    take('readings', of.of('readings').live, (reading) => readingDocument(reading, source));
    take('lines', of.of('lines').live, (line) => lineDocument(line, source));
    this.#known = next;
  }

  /** Loads what was saved; whatever is damaged or stale is left to be indexed again. */
  async #restore(): Promise<void> {
    const read = await readSearchIndex(this.#store);
    const parts = read.kind === 'read' ? read.parts : [];
    const expected = [...this.#known.values()].flatMap(({ document }) =>
      document ? [[document.key, document.mark] as const] : [],
    );
    const result = await this.#client.run('restore', { parts, expected });
    if (result.kind !== 'done') return;
    const wanting = new Set(result.output.wanting);
    this.#sent = new Map(expected.filter(([key]) => !wanting.has(key)));
    this.#restored = true;
    this.#version += 1;
    const damaged = result.output.damaged.map((id) => ({ id }));
    if (damaged.length > 0) await writeSearchIndex(this.#store, damaged);
  }

  /** A failure to save costs only time at the next start, so nobody is troubled with it. */
  async #save(): Promise<void> {
    const result = await this.#client.run('save', null);
    if (result.kind === 'done') await writeSearchIndex(this.#store, result.output);
  }
}
