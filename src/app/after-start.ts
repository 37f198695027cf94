/** What can wait until the first screen stands: backups, use without a network, the browser's promise. */
import { settingsId } from '../model/settings';
import type { AppState, Keeping } from '../state/context';
import { urgencyOf } from '../state/last-backup';
import { askToKeepAfterFirstEntry } from './ask-to-keep.svelte';
import { keepOffline } from './offline';

/** Time in ms for the first screen to settle. */
const settleMs = 2_000;
/** Share of the room the browser gives from which it is said. */
const nearlyFull = 0.9;

const goToSafekeeping = {
  label: 'Go to Safekeeping',
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
    notices.remind(
      `The browser wants to be asked again before backups go into “${folder.name}”. Until then none is made.`,
      {
        label: 'Back up now',
        run: async () => {
          const failure = await folder.backUp();
          if (failure) notices.failed(failure);
          else notices.done(`The folder “${folder.name}” has a new backup.`);
        },
      },
    );
  } else if (folder.trouble) {
    notices.failed(folder.trouble, goToSafekeeping);
  } else if (urgencyOf(last?.at, changedSince, workspace.now) === 'overdue') {
    notices.remind(
      last
        ? 'The last backup is over three weeks old.'
        : 'There is no backup of your log yet: it lives in this browser alone.',
      goToSafekeeping,
    );
  }
}

/** Before saves begin to fail, while there is still time for a backup. */
async function sayWhenNearlyFull({ notices }: AppState): Promise<void> {
  // Absent where the page is not served securely.
  const { usage, quota } = (await (navigator as Partial<Navigator>).storage?.estimate()) ?? {};
  if (usage === undefined || !quota || usage < nearlyFull * quota) return;
  notices.failed(
    'The room that the browser gives this site is nearly used up: soon nothing more can be saved. Make a backup, then free some disk space.',
    goToSafekeeping,
  );
}
