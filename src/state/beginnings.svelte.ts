/** Ways to begin: the starter map, the demo, an empty map; and how to end. */
import { parseDemoFile, parseMapFile, type DemoContent, type MapContent } from '../formats';
import { settingsId, type Settings } from '../model/settings';
import { deleteEverything, type Store } from '../storage';
import type { Draft, DraftChange, Workspace } from './workspace.svelte';

export type Beginning = 'starter' | 'demo' | 'empty';

/** Where the shipped files come from; the app brings them, loaded when first asked for. */
export interface SeedFiles {
  /** The starter map: its head, then its parts, as unknown JSON. */
  starterMap(): Promise<readonly unknown[]>;
  /** Disciplines and organ systems alone. */
  blankMap(): Promise<readonly unknown[]>;
  demo(): Promise<unknown>;
}

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
      return result.kind === 'saved';
    } finally {
      this.#busy = undefined;
    }
  }

  /** Deletes everything on this device; returns why not, or undefined when it is done. */
  async end(): Promise<string | undefined> {
    const result = await deleteEverything(this.#store);
    if (result.kind === 'failed') return `${result.failure.message} ${result.failure.wayOn}`;
    await this.#workspace.load();
    this.#workspace.forgetSteps();
    return undefined;
  }

  async #changesFor(kind: Beginning): Promise<DraftChange[] | string> {
    let parts: readonly unknown[];
    let demoFile: unknown;
    try {
      parts = await (kind === 'empty' ? this.#seeds.blankMap() : this.#seeds.starterMap());
      if (kind === 'demo') demoFile = await this.#seeds.demo();
    } catch {
      // The files are parts of the app fetched on demand: the network or the server is away.
      return 'The files could not be read from where the app is served. Start the app again, then try once more.';
    }
    const map = parseMapFile(parts);
    if (map.kind === 'rejected')
      return `The map that came with the app is damaged: ${firstFault(map.faults)}`;
    const changes = [...mapChanges(map.value), settingsChange(kind === 'demo')];
    if (kind !== 'demo') return changes;

    const demo = parseDemoFile(demoFile, this.#workspace.today);
    if (demo.kind === 'rejected')
      return `The demo that came with the app is damaged: ${firstFault(demo.faults)}`;
    return [...changes, ...demoChanges(demo.value)];
  }
}

function firstFault(
  faults: readonly { readonly path: string; readonly message: string }[],
): string {
  const fault = faults[0];
  return fault ? `${fault.path}: ${fault.message}` : 'it could not be read';
}

function mapChanges(map: MapContent): DraftChange[] {
  return [
    ...map.disciplines.map((content, position): DraftChange => ({
      kind: 'disciplines',
      put: { position, ...content },
    })),
    ...map.systems.map((content, position): DraftChange => ({
      kind: 'systems',
      put: { position, ...content },
    })),
    ...map.concepts.map((put): DraftChange => ({ kind: 'concepts', put })),
  ];
}

function demoChanges(demo: DemoContent): DraftChange[] {
  return [
    ...demo.blocks.map((put): DraftChange => ({ kind: 'blocks', put })),
    ...demo.items.map((put): DraftChange => ({ kind: 'items', put })),
  ];
}

function settingsChange(demo: boolean): DraftChange {
  const settings: Draft<'settings'> = {
    id: settingsId,
    theme: 'system',
    paperName: demo ? 'Inter-Island Licence (invented)' : '',
    demo,
    started: true,
  } satisfies Omit<Settings, 'stamp'>;
  return { kind: 'settings', put: settings };
}
