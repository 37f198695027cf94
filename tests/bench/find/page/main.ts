/** The page that the speed bench drives: Find as the app has it, and minisearch, on the same notes. */
import MiniSearch from 'minisearch';
import { Finder } from '../../../../src/state/find.svelte';
import { newNote } from '../../../../src/state/new-study';
import { Workspace } from '../../../../src/state/workspace.svelte';
import { deviceOf, openChangesChannel, openStore } from '../../../../src/storage';
import { countsIn } from '../../../../src/search/word-counts';
import { TextIndex } from '../../../../src/search';
import { WorkerClient } from '../../../../src/workers/client';
import type { SearchJobs } from '../../../../src/workers/search-jobs';
import { drawCorpus } from '../corpus';
import { askedAgain } from './asked-again.svelte';
import { peerOptions, type PeerQuestion } from './peer.worker';

class Peer {
  readonly #worker = new Worker(new URL('./peer.worker.ts', import.meta.url), { type: 'module' });
  readonly #waiting = new Map<number, (output: unknown) => void>();
  #next = 0;

  constructor() {
    this.#worker.onmessage = ({ data }: MessageEvent<{ id: number; output: unknown }>) => {
      this.#waiting.get(data.id)?.(data.output);
      this.#waiting.delete(data.id);
    };
  }

  ask(question: PeerQuestion): Promise<unknown> {
    const id = (this.#next += 1);
    return new Promise((resolve) => {
      this.#waiting.set(id, resolve);
      this.#worker.postMessage({ id, question });
    });
  }
}

async function openWorkspace() {
  const channel = openChangesChannel(new BroadcastChannel('bench-find'));
  const opened = await openStore({
    name: 'bench-find',
    channel,
    onlost: () => undefined,
  });
  if (opened.kind !== 'open') throw new Error(`the store: ${opened.kind}`);
  const makeId = (() => crypto.randomUUID()) as never;
  const device = await deviceOf(opened.store, makeId);
  if (device.kind === 'failed') throw new Error(`the store: ${device.failure.message}`);
  const workspace = new Workspace({
    store: opened.store,
    channel,
    device: device.device,
    makeId,
    now: () => Date.now() as never,
    minutesEast: () => 0,
  });
  const loading = performance.now();
  await workspace.load();
  return { workspace, store: opened.store, loadMs: performance.now() - loading };
}

function startFinder({ workspace, store }: Awaited<ReturnType<typeof openWorkspace>>) {
  const client = new WorkerClient<SearchJobs>(
    () =>
      new Worker(new URL('../../../../src/workers/search.worker.ts', import.meta.url), {
        type: 'module',
      }),
  );
  const finder = new Finder(workspace, store, client);
  finder.follow();
  return finder;
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const started = performance.now();
  await work();
  return performance.now() - started;
}

/** One file for the peer's saved index: it is kept where Find's is, in IndexedDB. */
function peerStore(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open('bench-peer', 1);
    request.onupgradeneeded = () => request.result.createObjectStore('saved');
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(new Error(String(request.error)));
  });
}

async function peerSaved(put?: string): Promise<string> {
  const db = await peerStore();
  const store = db
    .transaction('saved', put === undefined ? 'readonly' : 'readwrite')
    .objectStore('saved');
  const request = put === undefined ? store.get('index') : store.put(put, 'index');
  return new Promise((resolve) => (request.onsuccess = () => resolve(String(request.result))));
}

/** Written once: the notes, both indexes, both saved. */
async function prepare(seed: number, count: number) {
  const { documents } = drawCorpus(seed, count, 1);
  const opened = await openWorkspace();
  const puts = documents.map(({ key, title, text }) => ({
    kind: 'notes' as const,
    put: newNote(key.slice(6) as never, title, text, []),
  }));
  const committed = await opened.workspace.commit('the corpus', puts);
  if (committed.kind !== 'saved') throw new Error(`the corpus: ${committed.kind}`);
  const peer = new Peer();
  const peerBuild = await timed(() =>
    peer.ask({
      kind: 'add',
      documents: documents.map(({ key, title, text }) => ({ key, title, text })),
    }),
  );
  await peerSaved(String(await peer.ask({ kind: 'save' })));
  let finder!: Finder;
  const build = await timed(() => {
    finder = startFinder(opened);
    return finder.settled();
  });
  await savedParts(opened.store.db);
  return { build, peerBuild };
}

/** Waits until parts are on the disk and none has come for longer than Find waits before it saves. */
async function savedParts(db: { count(store: 'searchIndex'): Promise<number> }) {
  const stillMs = 6_000;
  let last = 0;
  let since = performance.now();
  while (last === 0 || performance.now() - since < stillMs) {
    await new Promise((resolve) => setTimeout(resolve, 200));
    const now = await db.count('searchIndex');
    if (now !== last) [last, since] = [now, performance.now()];
  }
}

let opened: Awaited<ReturnType<typeof openWorkspace>>;
let finder: Finder;
let peer: Peer;

/** ms from the first wish for a result to the result, with everything saved and nothing in memory. */
async function firstResult(seed: number, count: number, order: 'ours first' | 'peer first') {
  const { wholeWords } = drawCorpus(seed, count, 1);
  const typed = wholeWords[0]!;
  opened = await openWorkspace();
  const ours = () =>
    timed(async () => {
      finder = startFinder(opened);
      await askedAgain(finder);
      const found = await finder.find(typed, {}, 6);
      if (found.kind !== 'ready' || found.value.count === 0) throw new Error('nothing found');
    });
  const theirs = () =>
    timed(async () => {
      peer = new Peer();
      await peer.ask({ kind: 'load', json: await peerSaved() });
      await peer.ask({ kind: 'search', typed, unfinished: false });
    });
  const result = { ours: 0, peer: 0, load: opened.loadMs, upToDate: 0 };
  if (order === 'peer first') result.peer = await theirs();
  result.ours = await ours();
  result.upToDate = await timed(() => finder.settled());
  if (order === 'ours first') result.peer = await theirs();
  return result;
}

/** ms of each question, both engines in turn. */
async function keystrokes(seed: number, count: number, questionCount: number) {
  const corpus = drawCorpus(seed, count, questionCount);
  const sorts = {
    'one word, half typed': [corpus.prefixes, true],
    'two words, the last half typed': [corpus.twoWords, true],
    'two whole words': [corpus.wholeWords, false],
  } as const;
  const result: Record<string, { ours: number[]; peer: number[] }> = {};
  for (const [sort, [questions, unfinished]] of Object.entries(sorts)) {
    const ms = (result[sort] = { ours: [] as number[], peer: [] as number[] });
    for (const [i, typed] of questions.entries()) {
      const ours = async () => ms.ours.push(await timed(() => finder.find(typed, {}, 6)));
      const theirs = async () =>
        ms.peer.push(
          await timed(() => peer.ask({ kind: 'search', typed: typed.trim(), unfinished })),
        );
      if (i % 2 === 0) {
        await ours();
        await theirs();
      } else {
        await theirs();
        await ours();
      }
    }
    // The first tenth is warming up.
    for (const each of [ms.ours, ms.peer]) each.splice(0, Math.ceil(questions.length / 10));
  }
  return result;
}

/** ms from an edit to the answer that holds it; of ours with and without the saving on the disk. */
async function edits(count: number, editCount: number) {
  const { workspace } = opened;
  const result = { ours: [] as number[], afterSaving: [] as number[], peer: [] as number[] };
  for (let i = 0; i < editCount; i += 1) {
    const id = String((i * 997) % count);
    const word = `zzedit${i}q`;
    const note = workspace.of('notes').find(id)!;
    const text = `${note.text} ${word}`;
    const started = performance.now();
    await workspace.commit('an edit', [{ kind: 'notes', put: { ...note, text } }]);
    const saved = performance.now();
    finder.follow();
    for (;;) {
      const found = await finder.find(word, {}, 6);
      if (found.kind === 'ready' && found.value.count > 0) break;
    }
    result.ours.push(performance.now() - started);
    result.afterSaving.push(performance.now() - saved);
    result.peer.push(
      await timed(async () => {
        const document = { key: `notes:${id}`, title: note.title, text };
        await peer.ask({ kind: 'replace', document });
        await peer.ask({ kind: 'search', typed: word, unfinished: false });
      }),
    );
  }
  return result;
}

/** MB that each index takes on the heap of this page, the documents themselves counted for both. */
function memory(seed: number, count: number) {
  const collect = (window as unknown as { gc?: () => void }).gc;
  const used = () => {
    collect?.();
    collect?.();
    const { memory: heap } = performance as unknown as { memory: { usedJSHeapSize: number } };
    return heap.usedJSHeapSize / 2 ** 20;
  };
  const { documents } = drawCorpus(seed, count, 1);
  // Folded words are remembered from the first document on; that is no part of an index.
  documents.slice(0, 500).forEach((document) => countsIn(document));
  const kept: unknown[] = [];
  const before = used();
  const index = new TextIndex();
  for (const document of documents) index.put(document);
  kept.push(index);
  const between = used();
  const mini = new MiniSearch(peerOptions);
  mini.addAll(documents.map(({ key, title, text }) => ({ key, title, text })));
  kept.push(mini);
  const after = used();
  return { ours: between - before, peer: after - between, kept: kept.length, exact: !!collect };
}

Object.assign(window, { bench: { prepare, firstResult, keystrokes, edits, memory } });
