/** A newer version of the app that waits, and is taken when the person says so. */
import type { Workspace } from './workspace.svelte';

/** Between two looks for a save that still runs, in ms; a field saves at least as often. */
const lookMs = 300;

export class Updates {
  readonly #workspace: Workspace;
  #take = $state.raw<() => void>();

  constructor(workspace: Workspace) {
    this.#workspace = workspace;
  }

  get ready(): boolean {
    return this.#take !== undefined;
  }

  offer(take: () => void): void {
    this.#take = take;
  }

  /** Takes it once what is being typed is saved: leaving a field saves it. */
  async take(): Promise<void> {
    const focused = document.activeElement;
    if (focused instanceof HTMLElement) focused.blur();
    do {
      await new Promise((resolve) => setTimeout(resolve, lookMs));
    } while (this.#workspace.saving);
    this.#take?.();
  }
}
