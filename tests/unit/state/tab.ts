/** A tab over the real store, as the state classes are given it. */
import type { DeviceId } from '../../../src/model/ids';
import { Workspace } from '../../../src/state/workspace.svelte';
import { deviceOf, openChangesChannel, type Store } from '../../../src/storage';
import { at, countingIds, device, requireStore } from '../storage/harness';

let tabCount = 0;

export interface Tab {
  readonly workspace: Workspace;
  readonly store: Store;
}

/** A tab with its own connection to the same database; Node's own BroadcastChannel joins them. */
export async function openTab(minutesEast = 0, of: DeviceId = device): Promise<Tab> {
  const channel = openChangesChannel(new BroadcastChannel('state-test'));
  const store = await requireStore({ channel });
  // As the app does at a start: what is no record is only kept for a device that is known.
  await deviceOf(store, countingIds('device'));
  const workspace = new Workspace({
    store,
    channel,
    device: of,
    makeId: countingIds(`made-${++tabCount}`),
    now: () => at(60),
    minutesEast: () => minutesEast,
  });
  await workspace.load();
  return { workspace, store };
}

/** Waits for what happens elsewhere; fails by the test's own time limit. */
export async function until(holds: () => boolean): Promise<void> {
  while (!holds()) await new Promise((resolve) => setImmediate(resolve));
}
