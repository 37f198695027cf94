/** Ways to begin: the starter map, the demo, an empty map; and how to end. */
import { deleteEverything, readLocal, writeLocal, type Store } from '../storage';
import { forgetAppFiles, keepAppFilesAgain } from './app-files';
import type { MapChangeManner, PlannedMapChange } from './map-change';
import type { BeginningFiles, layOut as LayOutFunction } from './lay-out';
import type { DraftChange, Workspace } from './workspace.svelte';

type LayOut = typeof LayOutFunction;

export type Beginning = 'starter' | 'veterinary' | 'demo' | 'empty';

/** The maps that come with the app, by the names of their folders. */
export type ShippedMap = 'human' | 'veterinary' | 'blank';

/** Where the shipped files come from; the app brings them, loaded when first asked for. */
export interface SeedFiles {
  /** A map: its head, then its parts, as unknown JSON. */
  map(name: ShippedMap): Promise<readonly unknown[]>;
  /** The readings that go with a map; undefined where none are written. */
  readings(name: ShippedMap): Promise<unknown>;
  demo(): Promise<unknown>;
}

const unread =
  'The files could not be read from where the app is served. Start the app again, then try once more.';

/** The local value that holds the tour's place; deleting everything removes it. */
const tourKey = 'tourPlace';

const mapOf = {
  starter: 'human',
  demo: 'human',
  veterinary: 'veterinary',
  empty: 'blank',
} as const satisfies Record<Beginning, ShippedMap>;

export class Beginnings {
  readonly #workspace: Workspace;
  readonly #store: Store;
  readonly #seeds: SeedFiles;
  #busy = $state<Beginning>();
  #failure = $state('');

  constructor(workspace: Workspace, store: Store, seeds: SeedFiles) {
    this.#workspace = workspace;
    this.#store = store;
    this.#seeds = seeds;
  }

  /** Which beginning is being laid out just now. */
  get busy(): Beginning | undefined {
    return this.#busy;
  }

  get failure(): string {
    return this.#failure;
  }

  /** Lays out a beginning as one step; true once it is stored. */
  async begin(kind: Beginning): Promise<boolean> {
    if (this.#busy) return false;
    this.#busy = kind;
    this.#failure = '';
    try {
      const changes = await this.#changesFor(kind);
      if (typeof changes === 'string') {
        this.#failure = changes;
        return false;
      }
      const result = await this.#workspace.commit('the beginning', changes);
      if (result.kind === 'failed') this.#failure = result.message;
      if (result.kind === 'conflict')
        this.#failure = 'Another tab has begun already; this tab now shows what it chose.';
      // Undoing the beginning would leave a log without its map.
      this.#workspace.forgetSteps();
      keepAppFilesAgain();
      return result.kind === 'saved';
    } finally {
      this.#busy = undefined;
    }
  }

  /** Deletes everything on this device, the app's own files too; returns why not, or undefined when it is done. */
  async end(): Promise<string | undefined> {
    const result = await deleteEverything(this.#store);
    if (result.kind === 'failed') return `${result.failure.message} ${result.failure.wayOn}`;
    await this.#workspace.load();
    this.#workspace.forgetSteps();
    await forgetAppFiles();
    return undefined;
  }

  /**
   * What a shipped map or a map file would change; nothing is stored yet.
   *
   * @param source the name of a shipped map, or the text of a map file
   */
  async planMap(
    source: { readonly shipped: ShippedMap } | { readonly text: string },
    manner: MapChangeManner,
  ): Promise<PlannedMapChange> {
    try {
      const { planMapFrom } = await import('./map-from');
      const [parts, readings] =
        'shipped' in source
          ? await Promise.all([
              this.#seeds.map(source.shipped),
              this.#seeds.readings(source.shipped),
            ])
          : [source.text, undefined];
      return planMapFrom(this.#workspace, parts, readings, manner);
    } catch {
      return { kind: 'refused', message: unread };
    }
  }

  /** How far the demo's tour had come on this device, as it was kept; undefined at first. */
  async readTourPlace(): Promise<unknown> {
    const read = await readLocal(this.#store, tourKey);
    return read.kind === 'read' ? read.value : undefined;
  }

  /** Keeps how far the tour has come. Where that fails the tour only begins anew. */
  async keepTourPlace(place: string | number): Promise<void> {
    await writeLocal(this.#store, tourKey, place);
  }

  async #changesFor(kind: Beginning): Promise<DraftChange[] | string> {
    const name = mapOf[kind];
    let files: BeginningFiles;
    let layOut: LayOut;
    try {
      const [map, readings, demo, module] = await Promise.all([
        this.#seeds.map(name),
        this.#seeds.readings(name),
        kind === 'demo' ? this.#seeds.demo() : undefined,
        import('./lay-out'),
      ]);
      files = { map, readings, demo };
      layOut = module.layOut;
    } catch {
      // The files are parts of the app fetched on demand: the network or the server is away.
      return unread;
    }
    const { today } = this.#workspace;
    return layOut(files, today, (day) => this.#workspace.minutesEastOn(day));
  }
}
