/** Use without a network, and new versions taken when the person says so. */
import { keepAppFiles } from '../state/app-files';
import type { Notices } from '../state/notices.svelte';
import type { Updates } from '../state/updates.svelte';
import { texts } from './texts';

/** A tab that stays open for days looks for a new version when it is looked at, at most this often, in ms. */
const lookAgainMs = 6 * 3_600_000;

export async function keepOffline(notices: Notices, updates: Updates): Promise<void> {
  const registration = await keepAppFiles();
  if (!registration) return;
  let taken = false;
  navigator.serviceWorker.addEventListener('controllerchange', () => {
    // Only the tab that asked for it: another one may be in mid-typing, and works on as it is.
    if (taken) location.reload();
  });
  const offer = () => {
    const { waiting } = registration;
    // Without a controller this is the first version, and nothing is old.
    if (!waiting || !navigator.serviceWorker.controller) return;
    updates.offer(() => {
      taken = true;
      waiting.postMessage('take-over');
    });
    notices.remind(texts.offline.aNewVersionOfHypocentre, {
      label: texts.offline.takeItNow,
      run: () => updates.take(),
    });
  };
  offer();
  registration.addEventListener('updatefound', () => {
    const { installing } = registration;
    installing?.addEventListener('statechange', () => {
      if (installing.state === 'installed') offer();
    });
  });
  let lookedAt = Date.now();
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden' || Date.now() - lookedAt < lookAgainMs) return;
    lookedAt = Date.now();
    // The server may be away: the next look will do.
    registration.update().catch(() => undefined);
  });
}
