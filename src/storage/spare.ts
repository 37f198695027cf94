/**
 * The spare copy: a second set of files beside the database, in the browser's private folder.
 *
 * Some browsers throw a whole database away when its own log file is torn, as it is when the browser
 * is killed in the middle of a write: everything in it is gone two starts later, saved or not. So each
 * saved change is written here as well before it is called saved, and put back should the database be
 * found empty. Where the browser has no such folder, or no room, the app works without.
 *
 * ```
 * spare/  copy.zip                        a backup, made soon after a start
 *         1770000000000-3f2a-0001.jsonl   changes since, by the tab that saved them; one a line
 *         picture-<sha-256>               written once
 * ```
 */
import type { Change } from './change';
import type { RecordRef } from './schema';

/** What is used of the browser's folder; TypeScript's own types lag behind. */
export interface SpareFolder {
  getFileHandle(name: string, options?: { create: boolean }): Promise<SpareFile>;
  removeEntry(name: string): Promise<void>;
  keys(): AsyncIterable<string>;
}

export interface SpareFile {
  getFile(): Promise<Blob>;
  createWritable(options?: { keepExistingData: boolean }): Promise<SpareStream>;
}

export interface SpareStream {
  write(
    chunk: string | ArrayBuffer | { type: 'write'; position: number; data: string },
  ): Promise<void>;
  close(): Promise<void>;
}

/** One saved change as it is read back; checked by whoever puts it back. */
export interface SpareLine {
  readonly kind: string;
  /** When it was saved, in ms: the changes of several tabs are put in order by it. */
  readonly at: number;
  readonly record?: unknown;
  /** The id of a record that was removed without leaving a mark. */
  readonly gone?: string;
}

export interface SpareContent {
  readonly copy: Blob | undefined;
  /** In the order they were saved. */
  readonly lines: readonly SpareLine[];
  /** By their SHA-256. */
  readonly pictures: ReadonlyMap<string, () => Promise<ArrayBuffer>>;
}

const folderName = 'spare';
const copyName = 'copy.zip';
const linesPattern = /^\d+-[0-9a-z]+-\d{4,}\.jsonl$/;
const picturePattern = /^picture-([0-9a-f]{64})$/;

/** A file of changes is copied each time one is added: a new one is begun past this size. */
const mostFileBytes = 128_000;
/** Changes from which a fresh copy is worth its making: until then they are put back one by one. */
const mostLinesBytes = 2_000_000;
const mostLineFiles = 60;
/** Changes turned into text at a time, so that the page still answers. */
const changesAtOnce = 500;

/** The folder of the spare copy; undefined where the browser has none. */
export async function findSpareFolder(): Promise<SpareFolder | undefined> {
  const storage = (globalThis.navigator as Partial<Navigator> | undefined)?.storage;
  const scope: { FileSystemFileHandle?: { prototype: object } } = globalThis;
  if (!storage || !('createWritable' in (scope.FileSystemFileHandle?.prototype ?? {}))) {
    return undefined;
  }
  try {
    const root = await storage.getDirectory();
    return await root.getDirectoryHandle(folderName, { create: true });
  } catch (error) {
    // SecurityError in some private windows.
    if (error instanceof DOMException) return undefined;
    throw error;
  }
}

/** Removes the whole spare copy. */
export async function forgetSpare(folder: SpareFolder): Promise<void> {
  for (const name of await namesIn(folder)) await folder.removeEntry(name);
}

export async function readSpare(folder: SpareFolder): Promise<SpareContent> {
  const names = await namesIn(folder);
  const lines: SpareLine[] = [];
  for (const name of names.filter((each) => linesPattern.test(each))) {
    const file = await (await folder.getFileHandle(name)).getFile();
    lines.push(...(await file.text()).split('\n').flatMap(lineOf));
  }
  const pictures = names.flatMap((name) => {
    const hash = picturePattern.exec(name)?.[1];
    const read = async () => (await (await folder.getFileHandle(name)).getFile()).arrayBuffer();
    return hash === undefined ? [] : [[hash, read] as const];
  });
  return {
    copy: names.includes(copyName)
      ? await (await folder.getFileHandle(copyName)).getFile()
      : undefined,
    lines: lines.sort((a, b) => a.at - b.at),
    pictures: new Map(pictures),
  };
}

/** A line that cannot be read was cut off: what it held was never called saved. */
function lineOf(text: string): SpareLine[] {
  try {
    const line = JSON.parse(text) as SpareLine | null;
    return typeof line?.kind === 'string' && typeof line.at === 'number' ? [line] : [];
  } catch {
    return [];
  }
}

async function namesIn(folder: SpareFolder): Promise<string[]> {
  const names: string[] = [];
  for await (const name of folder.keys()) names.push(name);
  return names.sort();
}

/** What one tab writes into the spare copy. Nothing here fails a save: it is the second line. */
export class Spare {
  readonly #find: () => Promise<SpareFolder | undefined>;
  readonly #now: () => number;
  readonly #tab: string;
  #folder: Promise<SpareFolder | undefined> | undefined;
  #file = 0;
  #bytes = 0;
  #trouble = '';
  /** One after another: each file is copied when it grows. */
  #queue: Promise<unknown> = Promise.resolve();

  /**
   * @param startedAt in ms; with `tab` it names the files, so that they sort by time
   * @param tab digits and small letters that tell this tab from others
   */
  constructor(
    startedAt: number,
    tab: string,
    find: () => Promise<SpareFolder | undefined> = findSpareFolder,
    now: () => number = () => Date.now(),
  ) {
    this.#now = now;
    this.#tab = `${startedAt}-${tab}`;
    this.#find = find;
  }

  /** Why the last change could not be written; empty when it could. */
  get trouble(): string {
    return this.#trouble;
  }

  /**
   * Resolves once the changes are in the file, or cannot be.
   *
   * @param gone records removed without a mark, or put back to an older version among `changes`
   */
  add(changes: readonly Change[], gone: readonly RecordRef[] = []): Promise<void> {
    return this.#attempt(async (folder) => {
      const at = this.#now();
      const lines: readonly SpareLine[] = [
        ...gone.map(({ kind, id }) => ({ kind, at, gone: id })),
        ...changes.map(({ kind, record }) => ({ kind, at, record })),
      ];
      const small = lines.length <= changesAtOnce;
      if (!small || this.#bytes > mostFileBytes) this.#begin();
      const handle = await folder.getFileHandle(this.#name(), { create: true });
      const stream = await handle.createWritable({ keepExistingData: true });
      // Removed meanwhile with everything else, it begins anew.
      let position = (await handle.getFile()).size;
      for (let start = 0; start < lines.length; start += changesAtOnce) {
        const text = lines
          .slice(start, start + changesAtOnce)
          .map((line) => `${JSON.stringify(line)}\n`)
          .join('');
        const data = new TextEncoder().encode(text);
        await stream.write({ type: 'write', position, data: text });
        position += data.length;
      }
      await stream.close();
      this.#bytes = position;
      if (!small) this.#begin();
    });
  }

  addPicture(hash: string, bytes: ArrayBuffer): Promise<void> {
    return this.#attempt(async (folder) => {
      const name = `picture-${hash}`;
      if ((await namesIn(folder)).includes(name)) return;
      await writeWhole(folder, name, bytes);
    });
  }

  /**
   * Puts a fresh copy of everything in place of the changes so far, where there is none or they are many.
   *
   * @param make the bytes of a backup; it is begun when the changes before it are known by name
   * @param olderThan in ms: files that another tab wrote to since then are left to it
   */
  renew(make: () => Promise<Uint8Array | undefined>, olderThan: number): Promise<void> {
    let before: string[] = [];
    let wanted = false;
    const begun = this.#attempt(async (folder) => {
      const names = await namesIn(folder);
      before = names.filter((name) => linesPattern.test(name));
      wanted = !names.includes(copyName) || (await isMuch(folder, before));
      this.#begin();
    });
    return begun.then(async () => {
      if (!wanted) return;
      // Not in the queue: saves go on while the copy is being made.
      const bytes = await make();
      if (!bytes) return;
      await this.#attempt(async (folder) => {
        await writeWhole(folder, copyName, bytes.slice().buffer);
        for (const name of before) {
          const file = (await (await folder.getFileHandle(name)).getFile()) as File;
          if (name.startsWith(`${this.#tab}-`) || file.lastModified < olderThan) {
            await folder.removeEntry(name);
          }
        }
      });
    });
  }

  /** Removes everything, of other tabs too. @throws the browser's error: then nothing may be called deleted */
  forget(): Promise<void> {
    return this.#enqueue(async () => {
      const folder = await this.#open();
      if (folder) await forgetSpare(folder);
      this.#begin();
    });
  }

  #begin(): void {
    this.#file += 1;
    this.#bytes = 0;
  }

  #name(): string {
    return `${this.#tab}-${String(this.#file).padStart(4, '0')}.jsonl`;
  }

  #open(): Promise<SpareFolder | undefined> {
    return (this.#folder ??= this.#find());
  }

  #attempt(work: (folder: SpareFolder) => Promise<void>): Promise<void> {
    return this.#enqueue(async () => {
      try {
        const folder = await this.#open();
        if (folder) await work(folder);
        this.#trouble = '';
      } catch (error) {
        // No room, or the folder is gone: the database has the change all the same.
        if (!(error instanceof DOMException)) throw error;
        this.#trouble = error.name;
      }
    });
  }

  #enqueue(work: () => Promise<void>): Promise<void> {
    const next = this.#queue.then(work, work);
    this.#queue = next.catch(() => undefined);
    return next;
  }
}

async function isMuch(folder: SpareFolder, names: readonly string[]): Promise<boolean> {
  let bytes = 0;
  for (const name of names) bytes += (await (await folder.getFileHandle(name)).getFile()).size;
  return bytes > mostLinesBytes || names.length > mostLineFiles;
}

async function writeWhole(folder: SpareFolder, name: string, bytes: ArrayBuffer): Promise<void> {
  const stream = await (await folder.getFileHandle(name, { create: true })).createWritable();
  await stream.write(bytes);
  await stream.close();
}
