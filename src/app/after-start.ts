/** What can wait until the first screen stands: backups, use without a network, the browser's promise. */
import { settingsId } from '../model/settings';
import type { AppState, Keeping } from '../state/context';
import { urgencyOf } from '../state/last-backup';
import { askToKeepAfterFirstEntry } from './ask-to-keep.svelte';
import { keepOffline } from './offline';
import { texts } from './texts';

/** Time in ms for the first screen to settle. */
const settleMs = 2_000;
/** Share of the room the browser gives from which it is said. */
const nearlyFull = 0.9;

const goToSafekeeping = {
  label: texts.afterStart.goToSafekeeping,
  run: () => (location.hash = '#/safekeeping'),
};

export async function afterStart(state: AppState): Promise<void> {
  await new Promise((resolve) => setTimeout(resolve, settleMs));
  void keepOffline(state.notices, state.updates);
  const keeping = await state.keeping();
  void askToKeepAfterFirstEntry(state);
  if (state.workspace.of('settings').find(settingsId)?.demo) return;
  remind(state, keeping);
  await sayWhenNearlyFull(state);
}

/** Says plainly that work is in danger; what is merely due stands on Today and in Safekeeping. */
function remind({ notices, workspace }: AppState, { safekeeping, folder }: Keeping): void {
  const { last, changedSince } = safekeeping;
  if (folder.asksAgain && changedSince > 0) {
    notices.remind(texts.afterStart.theBrowserWants(folder.name), {
      label: texts.afterStart.backUpNow,
      run: async () => {
        const failure = await folder.backUp();
        if (failure) notices.failed(failure);
        else notices.done(texts.afterStart.theFolderHasANew(folder.name));
      },
    });
  } else if (folder.trouble) {
    notices.failed(folder.trouble, goToSafekeeping);
  } else if (urgencyOf(last?.at, changedSince, workspace.now) === 'overdue') {
    notices.remind(
      last ? texts.afterStart.theLastBackup : texts.afterStart.thereIsNoBackup,
      goToSafekeeping,
    );
  }
}

/** Before saves begin to fail, while there is still time for a backup. */
async function sayWhenNearlyFull({ notices }: AppState): Promise<void> {
  // Absent where the page is not served securely.
  const { usage, quota } = (await (navigator as Partial<Navigator>).storage?.estimate()) ?? {};
  if (usage === undefined || !quota || usage < nearlyFull * quota) return;
  notices.failed(texts.afterStart.theRoomThatTheBrowser, goToSafekeeping);
}
