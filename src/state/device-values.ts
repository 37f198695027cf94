/** Values of this device alone (a place in a row of pages, the last backup): never merged, no undo. */
import { readLocal, writeLocal, type Store } from '../storage';

export class DeviceValues {
  readonly #store: Store;

  constructor(store: Store) {
    this.#store = store;
  }

  /** The value under a name; undefined where there is none or it cannot be read. The caller checks it. */
  async find(name: string): Promise<unknown> {
    const read = await readLocal(this.#store, name);
    return read.kind === 'read' ? read.value : undefined;
  }

  /** @returns whether it was saved */
  async put(name: string, value: unknown): Promise<boolean> {
    return (await writeLocal(this.#store, name, value)).kind === 'saved';
  }
}
