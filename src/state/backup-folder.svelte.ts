/** The folder for backups, as the screen shows it, and the backups that are made by themselves. */
import type { Store } from '../storage';
import {
  grantedFolder,
  mayWrite,
  newestOfOthers,
  rememberFolder,
  writeInto,
  type FolderHandle,
} from './backup-folder';
import { deviceMark, type Safekeeping } from './safekeeping.svelte';

/** The browser's question for a folder; undefined when the person closed it. */
export type PickFolder = () => Promise<FolderHandle | undefined>;

export class BackupFolder {
  readonly #store: Store;
  readonly #safekeeping: Safekeeping;
  readonly #device: string;
  readonly #pick: PickFolder;
  #folder = $state.raw<FolderHandle>();
  #asksAgain = $state(false);
  #trouble = $state('');

  constructor(store: Store, safekeeping: Safekeeping, device: string, pick: PickFolder) {
    this.#store = store;
    this.#safekeeping = safekeeping;
    this.#device = device;
    this.#pick = pick;
  }

  get name(): string {
    return this.#folder?.name || (this.#folder ? 'the chosen folder' : '');
  }

  /** The browser's leave to write has lapsed; only a press of a button can renew it. */
  get asksAgain(): boolean {
    return this.#asksAgain;
  }

  /** Why the last backup that was to be made by itself was not; empty when it was. */
  get trouble(): string {
    return this.#trouble;
  }

  async load(): Promise<void> {
    this.#folder = await grantedFolder(this.#store);
    if (this.#folder) this.#asksAgain = !(await mayWrite(this.#folder));
  }

  /** Asks for a folder and makes the first backup in it; what went wrong, in words. */
  async grant(): Promise<string | undefined> {
    const folder = await this.#pick();
    if (!folder) return undefined;
    this.#folder = folder;
    const saved = await rememberFolder(this.#store, folder);
    if (saved.kind === 'failed') return `${saved.failure.message} ${saved.failure.wayOn}`;
    return this.backUp();
  }

  async forget(): Promise<void> {
    this.#folder = undefined;
    this.#trouble = '';
    await rememberFolder(this.#store, undefined);
  }

  /** Makes a backup in the folder; what went wrong, in words. */
  async backUp(): Promise<string | undefined> {
    const folder = this.#folder;
    if (!folder) return 'No folder has been chosen.';
    if (!(await mayWrite(folder))) {
      const answer = await folder.requestPermission?.({ mode: 'readwrite' });
      this.#asksAgain = answer !== 'granted';
      if (this.#asksAgain) return 'The browser was not allowed to write into the folder.';
    }
    return this.#write(folder);
  }

  /** Makes a backup without asking, where that is possible and anything has changed. */
  async backUpQuietly(): Promise<void> {
    const folder = this.#folder;
    if (!folder || this.#safekeeping.changedSince === 0) return;
    this.#asksAgain = !(await mayWrite(folder));
    if (!this.#asksAgain) await this.#write(folder);
  }

  /** The newest copy that another device left in the folder. */
  async otherCopy(): Promise<File | undefined> {
    if (!this.#folder) return undefined;
    try {
      return await newestOfOthers(this.#folder, deviceMark(this.#device));
    } catch {
      // The folder was moved or its drive is away: as good as no copy.
      return undefined;
    }
  }

  async #write(folder: FolderHandle): Promise<string | undefined> {
    const trouble = await this.#tryToWrite(folder);
    this.#trouble = trouble ?? '';
    return trouble;
  }

  async #tryToWrite(folder: FolderHandle): Promise<string | undefined> {
    const made = await this.#safekeeping.make();
    if (made.kind === 'failed') return made.message;
    try {
      await writeInto(folder, made.name, made.bytes);
    } catch (error) {
      const reason = error instanceof DOMException ? error.name : String(error);
      return `The backup could not be written into “${this.name}” (${reason}). Is the folder still there, and is there room?`;
    }
    await this.#safekeeping.remember(made, 'folder');
    return undefined;
  }
}
