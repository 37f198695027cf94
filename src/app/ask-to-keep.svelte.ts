/**
 * Asks the browser not to clear the log by itself when the device runs short of room: once, right
 * after the first entry of one's own is saved. Some browsers pass the question on to the person,
 * who then knows what there is to keep.
 */
import { settingsId } from '../model/settings';
import type { AppState } from '../state/context';

/** Among the device's own values: asked once, it is left to the button in Safekeeping. */
const askedName = 'askedToKeep';

export async function askToKeepAfterFirstEntry(state: AppState): Promise<void> {
  // Absent where the page is not served securely.
  const storage = (navigator as Partial<Navigator>).storage;
  if (!storage || (await state.deviceValues.find(askedName)) === true) return;
  if (await storage.persisted()) return;
  const { workspace } = state;
  const entries = () => workspace.of('blocks').live.size + workspace.of('notes').live.size;
  let before = entries();
  const stop = $effect.root(() => {
    // The browser stands outside Svelte; the sizes say that an entry has been stored.
    $effect(() => {
      const count = entries();
      const demo = workspace.of('settings').find(settingsId)?.demo ?? false;
      if (demo || count <= before) {
        // The demo's entries are nobody's, and it may be left.
        before = demo ? count : Math.min(before, count);
        return;
      }
      stop();
      void storage.persist();
      void state.deviceValues.put(askedName, true);
    });
  });
}
