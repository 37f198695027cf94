/** What can wait until the first screen stands: backups, use without a network, the browser's promise. */
import { urgencyOf } from '../screens/safekeeping/words';
import { settingsId } from '../model/settings';
import type { AppState } from '../state/context';
import { keepOffline } from './offline';

/** Time in ms for the first screen to settle. */
const settleMs = 2_000;

export async function afterStart(state: AppState): Promise<void> {
  await new Promise((resolve) => setTimeout(resolve, settleMs));
  keepOffline(state.notices);
  const { safekeeping } = await state.keeping();
  if (state.workspace.of('settings').find(settingsId)?.demo) return;
  const { last, changedSince } = safekeeping;
  if (urgencyOf(last?.at, changedSince, state.workspace.now) === 'overdue') {
    state.notices.done(
      last
        ? 'The last backup is over three weeks old.'
        : 'There is no backup of your log yet: it lives in this browser alone.',
      { label: 'Go to Safekeeping', run: () => (location.hash = '#/safekeeping') },
    );
  }
}
